import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { OpenPage } from './open-page.ts';
import { openPage } from './open-page.ts';

/** Least time between two announcements, milliseconds: a listener must be able to follow. */
const pause = 1000;

const tags = Array.from({ length: 200 }, (_, i) => `B-${String(i + 1).padStart(3, '0')}`);

async function startWithAnimals(page: Page): Promise<void> {
  await page.getByRole('textbox', { name: 'Name' }).fill('Two hundred');
  await page.getByRole('button', { name: 'Start the notebook' }).click();
  await page.getByRole('button', { name: 'Add animals' }).click();
  await page.getByRole('textbox', { name: /^Tags/ }).fill(tags.join('\n'));
  await page.getByRole('button', { name: 'Add 200 animals' }).click();
  await page.getByText('200 animals are added.').waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Add a sampling day' }).click();
  await page.getByRole('button', { name: 'Add the day' }).click();
  await page.getByRole('grid').waitFor();
}

describe('what a screen reader is told', () => {
  let open: OpenPage;
  let page: Page;

  beforeAll(async () => {
    open = await openPage({ viewport: { width: 1280, height: 900 } });
    ({ page } = open);
    await startWithAnimals(page);
  });
  afterAll(() => open.close());

  it('says how many rows there are and which row this is, 200 animals scrolled to the 150th', async () => {
    const grid = page.getByRole('grid');
    const head = grid.getByRole('row').first();
    expect(await head.getAttribute('aria-rowindex')).toBe('1');
    await page.locator('sd-grid').evaluate((element: HTMLElement) => element.focus());
    await page.getByRole('searchbox', { name: 'Find an animal by tag or name' }).fill('B-150');
    const row = grid
      .getByRole('row')
      .filter({ has: page.getByRole('rowheader', { name: 'B-150' }) });
    await row.waitFor();
    // WAI-ARIA 1.2: rowcount and rowindex count the row of headings too.
    expect(await grid.getAttribute('aria-rowcount')).toBe('201');
    expect(await row.getAttribute('aria-rowindex')).toBe('151');
    const drawn = await grid.getByRole('row').count();
    expect(drawn).toBeLessThan(80);
  });

  it('keeps the focus with its animal while its row is scrolled away, and brings it back', async () => {
    await page.keyboard.press('ArrowDown');
    const focused = (): Promise<string | null> =>
      page.locator('sd-grid .editor').getAttribute('aria-label');
    await expect.poll(focused).toMatch(/^B-150, /);
    await page.locator('sd-grid .scroller').evaluate((scroller) => scroller.scrollTo(0, 0));
    await page.getByRole('rowheader', { name: 'B-001' }).waitFor();
    await page.keyboard.press('ArrowDown');
    await expect.poll(focused).toMatch(/^B-151, /);
    await expect.poll(() => page.getByRole('rowheader', { name: 'B-151' }).isVisible()).toBe(true);
  });

  it('is told results politely and at most once a second, however fast they are typed', async () => {
    const region = page.locator('sd-grid .foot .status');
    // A status is polite by itself: WAI-ARIA 1.2.
    expect(await region.getAttribute('role')).toBe('status');
    await region.evaluate((element) => {
      const heard: { at: number; text: string }[] = [];
      (window as unknown as { heard: typeof heard }).heard = heard;
      new MutationObserver(() =>
        heard.push({ at: performance.now(), text: element.textContent ?? '' }),
      ).observe(element, { subtree: true, childList: true, characterData: true });
    });
    // Faster than anybody types, and for longer than two pauses however fast the machine is.
    const counts = 30;
    for (let i = 0; i < counts; i += 1) {
      await page.keyboard.type(String(i));
      await page.keyboard.press('Enter', { delay: (2.5 * pause) / counts });
    }
    const heard = (): Promise<readonly { at: number; text: string }[]> =>
      page.evaluate(() => (window as unknown as { heard: { at: number; text: string }[] }).heard);
    await expect
      .poll(async () => (await heard()).length, { timeout: 20_000 })
      .toBeGreaterThanOrEqual(2);
    const said = await heard();
    const gaps = said.slice(1).map(({ at }, i) => at - (said[i]?.at ?? 0));
    // Timers of a browser may come a few milliseconds early.
    expect(Math.min(...gaps)).toBeGreaterThan(pause - 20);
    expect(said.at(-1)?.text).toMatch(/^B-\d+: .*epg/);
  });

  it('hears of nothing but faults at once', async () => {
    const loud = await page.evaluate(() => {
      const found: string[] = [];
      const look = (root: Document | ShadowRoot): void => {
        for (const one of root.querySelectorAll('*')) {
          if (one.getAttribute('aria-live') === 'assertive') found.push(one.outerHTML.slice(0, 80));
          if (one.getAttribute('role') === 'alert' && !one.matches('.fault'))
            found.push(one.outerHTML.slice(0, 80));
          if (one.shadowRoot) look(one.shadowRoot);
        }
      };
      look(document);
      return found;
    });
    expect(loud).toEqual([]);
  });
});
