import type { Page } from 'playwright-core';

/**
 * Words on the screen that cannot be read: cut off by the box they stand in, or lying over other words. One line
 * for each. What a person can scroll to is not cut off. `aside` selects what is shortened on purpose, because its
 * whole text stands elsewhere on the page.
 */
export async function illegible(page: Page, aside = ''): Promise<readonly string[]> {
  return page.evaluate((leftAside) => {
    interface Word {
      readonly text: string;
      readonly element: Element;
      readonly box: DOMRect;
    }

    const parentOf = (element: Element): Element | null => {
      if (element.assignedSlot) return element.assignedSlot;
      if (element.parentElement) return element.parentElement;
      const root = element.getRootNode();
      return root instanceof ShadowRoot ? root.host : null;
    };
    const isUnder = (inner: Element | null, outer: Element): boolean => {
      for (let at = inner; at; at = parentOf(at)) if (at === outer) return true;
      return false;
    };
    /** What is drawn on top at a point, looked for inside shadow roots. */
    const topAt = (x: number, y: number): Element | null => {
      let top = document.elementFromPoint(x, y);
      while (top?.shadowRoot) {
        const inner = top.shadowRoot.elementFromPoint(x, y);
        if (!inner || inner === top) break;
        top = inner;
      }
      return top;
    };
    /** What lies over the page in a place of its own: a menu, a head that stays in sight. */
    const layerOf = (element: Element): Element | null => {
      for (let at: Element | null = element; at; at = parentOf(at)) {
        const { position, zIndex } = getComputedStyle(at);
        if (position === 'fixed' || position === 'sticky') return at;
        if (position === 'absolute' && zIndex !== 'auto') return at;
      }
      return null;
    };
    /** The part of a box that is not scrolled out of sight. */
    const inSight = ({ element, box }: Word): DOMRect => {
      let [left, top, right, bottom] = [box.left, box.top, box.right, box.bottom];
      for (let at: Element | null = element; at; at = parentOf(at)) {
        if (getComputedStyle(at).overflow === 'visible') continue;
        const frame = at.getBoundingClientRect();
        [left, top] = [Math.max(left, frame.left), Math.max(top, frame.top)];
        [right, bottom] = [Math.min(right, frame.right), Math.min(bottom, frame.bottom)];
      }
      return new DOMRect(left, top, Math.max(0, right - left), Math.max(0, bottom - top));
    };
    const openDialog = (root: Document | ShadowRoot): Element | null => {
      for (const part of root.querySelectorAll('*')) {
        if (part.matches('dialog:modal')) return part;
        const inner = part.shadowRoot && openDialog(part.shadowRoot);
        if (inner) return inner;
      }
      return null;
    };
    const words: Word[] = [];
    const gather = (node: Node): void => {
      if (node instanceof Element) {
        if (!node.checkVisibility({ visibilityProperty: true, opacityProperty: true })) {
          if (getComputedStyle(node).display !== 'contents') return;
        }
        if (node.matches('script, style, svg, option')) return;
        // Said to those who listen, not shown.
        if (getComputedStyle(node).clipPath === 'inset(50%)') return;
        if (leftAside !== '' && node.matches(leftAside)) return;
        if (node.shadowRoot) gather(node.shadowRoot);
        if (node instanceof HTMLSlotElement) node.assignedNodes().forEach(gather);
      }
      const text = node.nodeType === Node.TEXT_NODE ? (node.textContent ?? '').trim() : '';
      if (text !== '' && node.parentElement) {
        const range = document.createRange();
        range.selectNodeContents(node);
        for (const box of range.getClientRects())
          if (box.width > 1 && box.height > 1)
            words.push({ text, element: node.parentElement, box });
      }
      // What stands in a slot is gathered there.
      if (node instanceof Element && node.shadowRoot) return;
      for (const child of node.childNodes) gather(child);
    };
    gather(openDialog(document) ?? document.body);

    /** The box that cuts a word off, if any; null also where it can be scrolled to. */
    const cutBy = ({ element, box }: Word): Element | null => {
      for (let at: Element | null = element; at; at = parentOf(at)) {
        const { overflowX, overflowY } = getComputedStyle(at);
        if (/auto|scroll/.test(`${overflowX} ${overflowY}`)) return null;
        if (overflowX === 'visible' && overflowY === 'visible') continue;
        const frame = at.getBoundingClientRect();
        // The box of a letter is higher than the letter: a quarter of it may be beyond the edge.
        const slack = box.height / 4;
        const isCut =
          box.left < frame.left - 2 ||
          box.right > frame.right + 2 ||
          box.top + slack < frame.top ||
          box.bottom - slack > frame.bottom;
        if (isCut) return at;
      }
      return null;
    };
    const found: string[] = [];
    for (const word of words) {
      const by = cutBy(word);
      if (by) found.push(`cut off: "${word.text}" by ${by.localName}.${by.className}`);
    }
    const seen = words
      .map((word) => ({ ...word, box: inSight(word), layer: layerOf(word.element) }))
      .filter(({ element, box }) => {
        if (box.width < 3 || box.height < 3) return false;
        const top = topAt((box.left + box.right) / 2, (box.top + box.bottom) / 2);
        return isUnder(top, element) || (top !== null && isUnder(element, top));
      });
    seen.forEach((one, i) => {
      for (const other of seen.slice(i + 1)) {
        if (other.element === one.element || other.layer !== one.layer) continue;
        const left = Math.max(one.box.left, other.box.left);
        const right = Math.min(one.box.right, other.box.right);
        const quarter = Math.min(one.box.height, other.box.height) / 4;
        const top = Math.max(one.box.top, other.box.top) + quarter;
        const bottom = Math.min(one.box.bottom, other.box.bottom) - quarter;
        if (right - left > 3 && bottom - top > 2)
          found.push(`over each other: "${one.text}", "${other.text}"`);
      }
    });
    return found;
  }, aside);
}

/** How much wider than the screen the page is, in pixels: 0, or a person has to push it sideways. */
export async function tooWide(page: Page): Promise<number> {
  return page.evaluate(
    () => (document.scrollingElement ?? document.body).scrollWidth - window.innerWidth,
  );
}
