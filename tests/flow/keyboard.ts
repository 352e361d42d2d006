import type { Page } from 'playwright-core';

/** What has the focus, looked for inside shadow roots too, as a person hears it named. */
export async function focusedName(page: Page): Promise<string> {
  return page.evaluate(() => {
    let active = document.activeElement;
    while (active?.shadowRoot?.activeElement) active = active.shadowRoot.activeElement;
    if (!(active instanceof HTMLElement)) return '';
    const label =
      active.getAttribute('aria-label') ??
      (active instanceof HTMLInputElement ||
      active instanceof HTMLTextAreaElement ||
      active instanceof HTMLSelectElement
        ? active.labels?.[0]?.textContent
        : null) ??
      active.textContent;
    return (label ?? '').replace(/\s+/g, ' ').trim();
  });
}

/** Presses Tab until something so named has the focus, as a person without a mouse does. */
export async function tabTo(page: Page, name: string | RegExp, most = 60): Promise<void> {
  const passed: string[] = [];
  for (let i = 0; i < most; i += 1) {
    await page.keyboard.press('Tab');
    const focused = await focusedName(page);
    if (typeof name === 'string' ? focused.startsWith(name) : name.test(focused)) return;
    passed.push(focused);
  }
  throw new Error(`Tab did not reach ${String(name)}; it passed ${passed.join(' | ')}.`);
}

/** Where the focus is, drawn: the ring's width in pixels, and whether the place is on the screen. */
export async function ring(
  page: Page,
): Promise<{ readonly width: number; readonly isSeen: boolean }> {
  return page.evaluate(() => {
    let active = document.activeElement;
    while (active?.shadowRoot?.activeElement) active = active.shadowRoot.activeElement;
    if (!active || active === document.body) return { width: 0, isSeen: false };
    // A choice of a file is unseen; the button it stands in bears the ring.
    const drawn = active.matches('.visually-hidden')
      ? (active.closest('.button') ?? active)
      : active;
    const { top, bottom, left, right } = drawn.getBoundingClientRect();
    const { outlineStyle, outlineWidth } = getComputedStyle(drawn);
    return {
      width: outlineStyle === 'none' ? 0 : Number.parseFloat(outlineWidth),
      isSeen: bottom > 0 && right > 0 && top < innerHeight && left < innerWidth,
    };
  });
}

/** Presses Tab backwards until something so named has the focus. */
export async function backTo(page: Page, name: string | RegExp, most = 60): Promise<void> {
  const passed: string[] = [];
  for (let i = 0; i < most; i += 1) {
    await page.keyboard.press('Shift+Tab');
    const focused = await focusedName(page);
    if (typeof name === 'string' ? focused.startsWith(name) : name.test(focused)) return;
    passed.push(focused);
  }
  throw new Error(`Shift+Tab did not reach ${String(name)}; it passed ${passed.join(' | ')}.`);
}
