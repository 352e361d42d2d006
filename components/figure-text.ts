/**
 * A figure for reading: marks between thousands (a comma, or a narrow space where the comma is the
 * decimal mark), a true minus sign, and `decimals` places. Without `decimals`: whole numbers plain,
 * others to two places without idle zeros. The figure itself keeps all of its digits.
 */
export function figureText(value: number, decimals: number | undefined, mark: '.' | ','): string {
  const rounded = decimals === undefined ? trimmed(value) : Math.abs(value).toFixed(decimals);
  const [whole = '0', part] = rounded.split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, mark === '.' ? ',' : '\u202f');
  const isZero = Number(rounded) === 0;
  const sign = value < 0 && !isZero ? '−' : '';
  return `${sign}${grouped}${part === undefined ? '' : mark + part}`;
}

function trimmed(value: number): string {
  const size = Math.abs(value);
  return Number.isInteger(size) ? size.toFixed(0) : String(Number(size.toFixed(2)));
}
