/** Fields that a person types into, as opposed to boxes to tick. */
const TYPED =
  'textarea, select, [contenteditable="true"], input:not([type="checkbox"], [type="radio"], [type="button"], [type="file"])';

/**
 * Whether something is being typed: the focus is in a field, looked for through every shadow root. The grid's own input
 * has the focus also while a person only moves about; it counts once an edit has begun.
 */
export function isTyping(page: Document): boolean {
  let at = page.activeElement;
  while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
  if (!at?.matches(TYPED)) return false;
  return !at.matches('.editor') || at.closest('[data-editing]') !== null;
}
