import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SdGrid } from '../../components/sd-grid.ts';
import { act, everyState, openDemo, showCard, Wanderer } from './every-state.ts';
import { illegible, tooWide } from './legible.ts';
import type { OpenPage } from './open-page.ts';
import { openPage } from './open-page.ts';

/** Shortened to one line on purpose: "From what", beside it, tells all; a note is told above the grid. */
const aside = 'sd-sureness[compact], [data-column="note"]';

describe.each([
  ['text at 200 %, at a desk', { viewport: { width: 1280, height: 900 } }, 32],
  ['text at the usual size, at a desk', { viewport: { width: 1280, height: 900 } }, 16],
  ['a phone', { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true }, 16],
] as const)(
  '%s: nothing is cut off, over other words or wider than the screen',
  (_, look, size) => {
    let open: OpenPage;
    let wanderer: Wanderer;

    beforeAll(async () => {
      open = await openPage(look, [`--blink-settings=defaultFontSize=${size}`]);
      wanderer = new Wanderer(open.page, open.address);
    });
    afterAll(() => open.close());

    it('writes as large as the person has set', async () => {
      const root = await open.page.evaluate(
        () => getComputedStyle(document.documentElement).fontSize,
      );
      expect(root).toBe(`${size}px`);
    });

    it.each(everyState)('$name', async (state) => {
      await wanderer.visit(state, async () => {
        expect(await illegible(open.page, aside)).toEqual([]);
        expect(await tooWide(open.page)).toBe(0);
      });
    });
  },
);

describe('colours set by the system', () => {
  let open: OpenPage;
  let page: Page;

  beforeAll(async () => {
    open = await openPage({ viewport: { width: 1280, height: 900 }, forcedColors: 'active' });
    ({ page } = open);
    await openDemo(page, open.address);
  });
  afterAll(() => open.close());

  const look = (selector: string): Promise<Record<string, string>> =>
    page
      .locator(selector)
      .first()
      .evaluate((element) => {
        const {
          backgroundColor,
          color,
          outlineStyle,
          outlineWidth,
          borderTopWidth,
          borderTopStyle,
        } = getComputedStyle(element);
        return {
          backgroundColor,
          color,
          outlineStyle,
          outlineWidth,
          borderTopWidth,
          borderTopStyle,
        };
      });

  it('shows the cell with the focus and the cells selected', async () => {
    await page.locator('sd-grid').evaluate((grid: HTMLElement) => grid.focus());
    await page.keyboard.press('Shift+ArrowDown');
    await page.locator('.cell[aria-selected="true"]').first().waitFor();
    const editor = await look('sd-grid .editor');
    expect([editor['outlineStyle'], editor['outlineWidth']]).toEqual(['solid', '3px']);
    const selected = await look('.cell[aria-selected="true"]');
    const other = await look('.cell:not([aria-selected])');
    expect(selected['backgroundColor']).not.toBe(other['backgroundColor']);
    expect(selected['color']).not.toBe(selected['backgroundColor']);
  });

  it('shows a selected figure like every other selected cell, its note and its chip too', async () => {
    // Counted in one chamber: a figure with a note below it.
    await page.locator('sd-grid').evaluate((grid: SdGrid) => grid.showAnimal('a-L-003'));
    await page.keyboard.press('Control+a');
    await page.locator('.cell.heat[aria-selected="true"]').first().waitFor();
    const plain = await look('.cell[aria-selected="true"]:not(.worked, .heat)');
    for (const selector of ['.worked', '.heat']) {
      const cell = await look(`.cell${selector}[aria-selected="true"]`);
      expect(cell).toMatchObject({
        backgroundColor: plain['backgroundColor'],
        color: plain['color'],
      });
    }
    for (const selector of ['.heat[aria-selected] small', '.cell[aria-selected] .chip.over'])
      expect(await look(selector)).toMatchObject({
        backgroundColor: 'rgba(0, 0, 0, 0)',
        color: plain['color'],
      });
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+Home');
  });

  it('shows which button is pressed, and the day that is open', async () => {
    for (const [on, off] of [
      ['sd-counts .views [aria-pressed="true"]', 'sd-counts .views [aria-pressed="false"]'],
      ['sd-day-bar [aria-current]', 'sd-day-bar .days button:not([aria-current])'],
    ] as const) {
      const pressed = await look(on);
      expect(pressed['backgroundColor']).not.toBe((await look(off))['backgroundColor']);
      expect(pressed['color']).not.toBe(pressed['backgroundColor']);
    }
  });

  it('tells the chips apart by their edges', async () => {
    expect(await look('.cell .chip.over')).toMatchObject({
      borderTopStyle: 'solid',
      borderTopWidth: '1px',
    });
    expect(await look('.cell .chip.open')).toMatchObject({
      borderTopStyle: 'dashed',
      borderTopWidth: '1px',
    });
  });
});

describe('motion turned off', () => {
  let open: OpenPage;

  beforeAll(async () => {
    open = await openPage({ viewport: { width: 1280, height: 900 }, reducedMotion: 'reduce' });
  });
  afterAll(() => open.close());

  it('moves nothing by itself, on the page, in a dialog or on the card', async () => {
    const { page } = open;
    await openDemo(page, open.address);
    await act(page, 'Settings');
    await page.getByRole('dialog', { name: 'Settings' }).waitFor();
    expect(await moving(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await showCard(page);
    expect(await moving(page)).toEqual([]);
  });
});

/** What would move by itself: elements with a transition that takes time, or with an animation. */
async function moving(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    const look = (root: Document | ShadowRoot): void => {
      for (const one of root.querySelectorAll('*')) {
        const { transitionDuration, animationName, scrollBehavior } = getComputedStyle(one);
        const takesTime = transitionDuration
          .split(', ')
          .some((time) => Number.parseFloat(time) > 0);
        const isMoved = one.getAnimations().length > 0 || animationName !== 'none';
        if (takesTime || isMoved || scrollBehavior === 'smooth') found.push(one.localName);
        if (one.shadowRoot) look(one.shadowRoot);
      }
    };
    look(document);
    return found;
  });
}
