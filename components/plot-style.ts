/**
 * The charts' library puts one fixed `<style>` into every chart. The page's content policy allows it by
 * this hash in `style-src`, and nothing else inline; a test works the hash out anew from a drawn chart.
 */
export const PLOT_STYLE_HASH = 'sha256-jSYQUrW7J0b3jPqhZP9C2Xh1PyJKHKXd4s0fpGGKrww=';

/** What every chart has in common: the page's own type and ink, no ground of its own. */
export const plotStyle: Readonly<Record<string, string>> = {
  background: 'none',
  color: 'var(--ink)',
  fontFamily: 'inherit',
  fontSize: '12px',
  overflow: 'visible',
};

/**
 * Makes a drawn chart one picture for screen readers: its sentence is its name, and the parts, which the
 * library names in a way that means nothing to a listener, are not announced.
 */
export function asPicture<T extends SVGSVGElement | HTMLElement>(plot: T): T {
  plot.setAttribute('role', 'img');
  for (const part of plot.querySelectorAll('[aria-label]')) part.removeAttribute('aria-label');
  return plot;
}
