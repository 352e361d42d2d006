/** Runs in the page before its own code: marks when the first rows stand there, and when figures change. */

function find(from: ParentNode, selector: string): Element | null {
  const own = from.querySelector(selector);
  if (own) return own;
  for (const { shadowRoot } of from.querySelectorAll('*')) {
    const found = shadowRoot && find(shadowRoot, selector);
    if (found) return found;
  }
  return null;
}

let hasRows = false;

function look(): void {
  if (!hasRows && find(document, '.body > .row')) {
    hasRows = true;
    performance.mark('bench-rows');
  }
  const table = find(document, 'sd-figures')?.shadowRoot?.querySelector('.scroll');
  if (!hasRows || !table) {
    requestAnimationFrame(look);
    return;
  }
  const changed = new MutationObserver(() => performance.mark('bench-figures'));
  changed.observe(table, { characterData: true, childList: true, subtree: true });
  performance.mark('bench-live');
}

performance.mark('begin-of-bench');
requestAnimationFrame(look);
