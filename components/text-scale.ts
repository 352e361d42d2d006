/** The size of text that the look is drawn for, pixels. */
const usualSize = 16;

/**
 * How much larger than usual a person's browser writes: 1, or 2 where text is set to twice the size. What is
 * reckoned in pixels, like the rows of the grid, grows with it, so that nothing is cut off.
 */
export function textScale(): number {
  const size = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
  return Number.isFinite(size) && size > 0 ? size / usualSize : 1;
}
