import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { openDemo } from './every-state.ts';
import { focusedName } from './keyboard.ts';
import { tooWide } from './legible.ts';
import type { OpenPage } from './open-page.ts';
import { openPage } from './open-page.ts';
import { SoftKeyboard } from './soft-keyboard.ts';

const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };

/** Every button, field and link in sight of a part that is lower or narrower than so many pixels. */
async function smallTargets(part: Locator, least: number): Promise<readonly string[]> {
  return part.evaluate((host, pixels) => {
    const small: string[] = [];
    const look = (root: Element | ShadowRoot): void => {
      for (const one of root.querySelectorAll('*')) {
        if (one.shadowRoot) look(one.shadowRoot);
        if (!one.matches('button, select, summary, a[href], textarea, input')) continue;
        if (one.matches('.visually-hidden, .editor, [disabled]') || !one.checkVisibility())
          continue;
        // A tick is pressed by its words too.
        const target = one.matches('[type="checkbox"], [type="radio"]')
          ? one.closest('label')
          : one;
        const { width, height } = (target ?? one).getBoundingClientRect();
        if (width > 0 && (width < pixels || height < pixels))
          small.push(
            `${one.localName} "${one.ariaLabel ?? one.textContent.trim()}" ${width}×${height}`,
          );
      }
    };
    look(host.shadowRoot ?? host);
    return small;
  }, least);
}

async function isInSight(target: Locator): Promise<boolean> {
  return target.evaluate((element) => {
    const { top, bottom, left, right } = element.getBoundingClientRect();
    const isInside = top >= 0 && left >= 0 && bottom <= innerHeight + 1 && right <= innerWidth;
    const root = element.getRootNode() as Document | ShadowRoot;
    const seen = root.elementFromPoint((left + right) / 2, (top + bottom) / 2);
    return isInside && (seen === element || element.contains(seen));
  });
}

describe('a phone in the yard: one animal at a time', () => {
  let open: OpenPage;
  let page: Page;
  let keyboard: SoftKeyboard;
  let card: Locator;

  const field = (name: string): Locator => card.getByLabel(name, { exact: true });
  const tap = (name: string): Promise<void> =>
    card.getByRole('button', { name, exact: true }).tap();
  const heading = (tag: string, place: string): Promise<void> =>
    card
      .getByRole('heading', { level: 2 })
      .filter({ hasText: tag })
      .filter({ hasText: place })
      .waitFor();
  const answer = (text: string): Promise<void> =>
    card.locator('.answer').getByText(text, { exact: true }).waitFor();

  beforeAll(async () => {
    open = await openPage(phone);
    ({ page } = open);
    keyboard = await SoftKeyboard.of(page);
    card = page.locator('sd-card');
    await openDemo(page, open.address);
  });
  afterAll(() => open.close());

  it('shows the card by itself, with room for a thumb, and nothing wider than the screen', async () => {
    await heading('W-101', 'cup 1 of 40');
    expect(await smallTargets(card, 44)).toEqual([]);
    expect(await smallTargets(page.locator('sd-page-header'), 44)).toEqual([]);
    expect(await tooWide(page)).toBe(0);
  });

  it('takes counts that come by input alone, chamber after chamber, and goes on by Next', async () => {
    await field('chamber 1').tap();
    await keyboard.type('12');
    await tap('Next');
    expect(await focusedName(page)).toBe('chamber 2');
    await keyboard.type('15');
    await tap('Next');
    // 27 eggs at the demo's factor of 50.
    await answer('1,350');
    await card.getByText('over your criteria', { exact: true }).waitFor();
  });

  it('goes on by the keypad’s own Next: chamber 2, the egg type looked for, the next cup', async () => {
    await field('chamber 1').tap();
    await keyboard.next();
    expect(await focusedName(page)).toBe('chamber 2');
    await keyboard.next();
    expect(await focusedName(page)).toBe('nematodirus');
    await keyboard.next();
    await heading('W-102', 'cup 2 of 40');
    expect(await focusedName(page)).toBe('chamber 1');
  });

  it('keeps the keypad up: Next leaves the focus in a field', async () => {
    for (let i = 0; i < 3; i += 1) {
      await tap('Next');
      expect(await focusedName(page)).toMatch(/^(chamber|nematodirus|note)/);
    }
  });

  it('marks what could not be done in one tap, and goes on', async () => {
    const at = await card.getByRole('heading', { level: 2 }).innerText();
    await page.reload();
    // The same card as before the reload.
    await card
      .getByRole('heading', { level: 2 })
      .filter({ hasText: at.split('\n')[0] })
      .waitFor();
    await field('Find an animal by part of its tag or name').fill('W-101');
    await card.getByRole('button', { name: /^W-101/ }).tap();
    await heading('W-101', 'cup 1 of 40');
    await tap('Not sampled');
    await heading('W-102', 'cup 2 of 40');
    await tap('The one before');
    await card.getByText('This cup: not sampled.').waitFor();
    await tap('Take it back');
    await answer('1,350');
    await tap('Could not count');
    await heading('W-102', 'cup 2 of 40');
    await tap('The one before');
    await card.getByText('This cup: could not count.').waitFor();
    await tap('Undo');
    await card.getByText('This cup:').waitFor({ state: 'detached' });
  });

  it('counts one chamber alone, and too many in the chamber in hand', async () => {
    await field('Find an animal by part of its tag or name').fill('W-102');
    await card.getByRole('button', { name: /^W-102/ }).tap();
    await heading('W-102', 'cup 2 of 40');
    await field('chamber 1').tap();
    await keyboard.type('5');
    await field('chamber 2').tap();
    await field('chamber 2').fill('');
    await tap('One chamber only');
    await heading('W-103', 'cup 3 of 40');
    await tap('The one before');
    // 5 eggs in one of two chambers: twice the factor of two, 500 and not 250 epg.
    await answer('500');
    await card.getByText('1 of 2 chambers', { exact: true }).waitFor();
    await field('chamber 2').tap();
    await tap('Too many');
    expect(await field('chamber 2').inputValue()).toBe('too many');
    await card.getByText('over your criteria', { exact: true }).waitFor();
    await card.getByText('too many eggs to count', { exact: true }).waitFor();
  });

  it('counts some lanes of a grid that held too many', async () => {
    await page.evaluate(() => scrollTo(0, 0));
    await tap('3 of 6 lanes');
    expect(await focusedName(page)).toBe('chamber 2');
    await keyboard.type('80');
    await keyboard.next();
    // 5 eggs in a whole grid, 80 in half of one: 85 × 30 ÷ (2 × 0.15 × 1.5) = 5,667.
    await answer('5,667');
    await card.getByText('1.5 of 2 chambers', { exact: true }).waitFor();
    expect(await smallTargets(card, 44)).toEqual([]);
    await tap('Undo');
    await tap('Undo');
    await card.getByText('too many eggs to count', { exact: true }).waitFor();
  });

  it('takes back by Undo in the heading what is written on it, and what is in hand first', async () => {
    const undo = page.locator('sd-page-header').getByRole('button', { name: /^Undo/ });
    await field('Find an animal by part of its tag or name').fill('W-109');
    await card.getByRole('button', { name: /^W-109/ }).tap();
    await field('chamber 1').tap();
    await keyboard.type('5');
    await keyboard.next();
    await expect.poll(() => undo.getAttribute('aria-label')).toBe('Undo chamber 1 of W-109');
    await undo.tap();
    await page.getByText('Undone: chamber 1 of W-109.').waitFor();
    expect(await field('chamber 1').inputValue()).toBe('');
    expect(await focusedName(page)).toBe('chamber 2');
    const before = await undo.getAttribute('aria-label');
    await keyboard.type('7');
    await undo.tap();
    await page.getByText('Undone: chamber 2 of W-109.').waitFor();
    expect(await field('chamber 2').inputValue()).toBe('');
    expect(await undo.getAttribute('aria-label')).toBe(before);
  });

  it('finds an animal by a part of its tag, and adds one that is not there', async () => {
    await field('Find an animal by part of its tag or name').tap();
    await keyboard.type('-016');
    await card.getByRole('button', { name: /^L-016/ }).tap();
    await heading('L-016', 'of 40');
    await field('Find an animal by part of its tag or name').tap();
    await keyboard.type('NEW-7');
    await tap('Add NEW-7 as a new animal');
    await heading('NEW-7', 'of 41');
    expect(await tooWide(page)).toBe(0);
  });

  it('has the yard’s own order, with the signs first', async () => {
    await tap('In the yard');
    await card.getByRole('heading', { level: 3, name: 'Signs' }).waitFor();
    const names = await card.getByRole('heading', { level: 3 }).allInnerTexts();
    expect(names).toEqual(['Signs', 'Counts']);
    await card.getByRole('button', { name: /^4/ }).tap();
    expect(await card.getByRole('button', { name: /^4/ }).getAttribute('aria-pressed')).toBe(
      'true',
    );
    expect(await smallTargets(card, 44)).toEqual([]);
    await tap('At the bench');
    await card.getByRole('heading', { level: 3, name: 'Counts' }).waitFor();
  });

  it('has the treatment list one tap away, and comes back to the same animal', async () => {
    await heading('NEW-7', 'of 41');
    await tap('Treatment list');
    await page.locator('sd-treatment-list').getByText('over your criteria').first().waitFor();
    expect(await focusedName(page)).toBe('Whom to treat');
    await page
      .getByRole('navigation', { name: 'Parts of the page' })
      .getByRole('button', { name: 'Counts' })
      .tap();
    await heading('NEW-7', 'of 41');
    expect(await isInSight(card.getByRole('heading', { level: 2 }))).toBe(true);
  });

  it('can be used with the keypad up: the field and Next are both in sight', async () => {
    await tap('The one before');
    await page.setViewportSize({ width: 390, height: 420 });
    for (const name of ['chamber 2', 'chamber 1', 'note']) {
      await field(name).focus();
      expect([name, await isInSight(field(name))]).toEqual([name, true]);
      expect(await isInSight(card.getByRole('button', { name: 'Next' }))).toBe(true);
    }
    await tap('Next');
    await heading('NEW-7', 'of 41');
    expect(await focusedName(page)).toBe('chamber 1');
    expect(await isInSight(field('chamber 1'))).toBe(true);
    expect(await isInSight(card.getByRole('heading', { level: 2 }))).toBe(true);
    await page.setViewportSize(phone.viewport);
  });

  it('nothing went wrong on the way', () => {
    expect(open.errors).toEqual([]);
    expect(open.elsewhere).toEqual([]);
  });
});

describe('a phone with all animals in sight', () => {
  let open: OpenPage;
  let page: Page;
  let keyboard: SoftKeyboard;

  const cell = (tag: string, column: string): Locator =>
    page.locator(
      `sd-grid [data-animal="${tag}"][data-column="${column}"][aria-colindex]:not(.past)`,
    );

  beforeAll(async () => {
    open = await openPage(phone);
    ({ page } = open);
    keyboard = await SoftKeyboard.of(page);
    await openDemo(page, open.address);
    await page.getByRole('button', { name: 'All animals' }).tap();
    await page.getByRole('grid').waitFor();
  });
  beforeEach(() => cell('W-103', 'chamber1').tap());
  afterAll(() => open.close());

  it('types into the cell that was tapped, by input alone', async () => {
    await keyboard.type('8');
    await cell('W-103', 'chamber2').tap();
    await keyboard.type('10');
    await keyboard.next();
    // (8 + 10) eggs × 50.
    await cell('W-103', 'epg').getByText('900', { exact: true }).waitFor();
    expect(await cell('W-103', 'chamber1').innerText()).toContain('8');
  });

  it('replaces what stands there, and goes down by the keypad’s Next', async () => {
    await keyboard.type('3');
    await keyboard.next();
    await cell('W-103', 'chamber1').getByText('3', { exact: true }).waitFor();
    expect(await focusedName(page)).toMatch(/^W-104, chamber 1/);
  });

  it('brings up digits for a count, and never types into what is worked out', async () => {
    const editor = page.locator('sd-grid .editor');
    expect(await editor.getAttribute('inputmode')).toBe('numeric');
    await cell('W-103', 'epg').tap();
    const before = await cell('W-103', 'epg').innerText();
    await keyboard.type('7');
    await cell('W-104', 'chamber1').tap();
    expect(await cell('W-103', 'epg').innerText()).toBe(before);
  });

  it('has rows and buttons for a thumb, and scrolls sideways only inside the grid', async () => {
    const { height } = (await cell('W-103', 'chamber1').boundingBox()) ?? { height: 0 };
    expect(height).toBeGreaterThanOrEqual(44);
    expect(await smallTargets(page.locator('sd-grid-tools'), 44)).toEqual([]);
    expect(await tooWide(page)).toBe(0);
  });

  it('nothing went wrong on the way', () => {
    expect(open.errors).toEqual([]);
  });
});

describe('a page that goes while something stands in a field', () => {
  let open: OpenPage;
  beforeAll(async () => {
    open = await openPage(phone);
    await open.page.goto(`${open.address}?demo`);
    await open.page.locator('sd-card').waitFor();
  });
  afterAll(() => open.close());

  const eggs = (page: Page): Locator => page.locator('sd-card [data-column="chamber1"] input');

  it('has it in its place after a reload', async () => {
    const { page } = open;
    await eggs(page).tap();
    await eggs(page).fill('64');
    await page.reload();
    await page.locator('sd-card').waitFor();
    await expect.poll(() => eggs(page).inputValue()).toBe('64');
  });

  it('has it after the browser’s Back and Forward, and takes it up once', async () => {
    const { page } = open;
    await eggs(page).tap();
    await eggs(page).fill('65');
    await page.goBack();
    await page.goForward();
    await page.locator('sd-card').waitFor();
    await expect.poll(() => eggs(page).inputValue()).toBe('65');
    await page.reload();
    await page.locator('sd-card').waitFor();
    await expect.poll(() => eggs(page).inputValue()).toBe('65');
    expect(await page.getByText('What was being typed').count()).toBe(0);
    expect(open.errors).toEqual([]);
  });
});
