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
