import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { backTo, focusedName, ring, tabTo } from './keyboard.ts';
import type { OpenPage } from './open-page.ts';
import { openPage } from './open-page.ts';

/** Ten animals as a person pastes them from a sheet: tag, group, class. */
const pasted = Array.from({ length: 10 }, (_, i) =>
  [`K-${String(i + 1).padStart(2, '0')}`, i < 6 ? 'ewes' : 'lambs', i < 6 ? 'ewe' : 'lamb'].join(
    '\t',
  ),
);

/** What stands in a cell of the open day, as it is read. */
async function cell(page: Page, tag: string, column: string): Promise<string> {
  const place = page.locator(
    `sd-grid .cell[data-animal="${tag}"][data-column="${column}"]:not(.past)`,
  );
  return (await place.innerText()).replace(/\s+/g, ' ').trim();
}

/** What a screen reader is told in place of a cell's text. */
function nameOf(page: Page, tag: string, column: string): Promise<string | null> {
  return page
    .locator(`sd-grid .cell[data-animal="${tag}"][data-column="${column}"]:not(.past)`)
    .getAttribute('aria-label');
}

async function expectCell(page: Page, tag: string, column: string, text: string): Promise<void> {
  await expect.poll(() => cell(page, tag, column)).toBe(text);
}

describe('a whole sampling day by keyboard alone', () => {
  let open: OpenPage;
  let page: Page;

  const press = (...keys: readonly string[]): Promise<void> =>
    keys.reduce((before, key) => before.then(() => page.keyboard.press(key)), Promise.resolve());
  const type = (text: string): Promise<void> => page.keyboard.type(text);
  const enter = (): Promise<void> => press('Enter');
  const dialog = (name: string | RegExp) => page.getByRole('dialog', { name });
  const isGone = (name: string | RegExp): Promise<void> =>
    dialog(name).waitFor({ state: 'hidden' });

  /** Into the grid, to an animal's cell. */
  async function toCell(tag: string, column: string): Promise<void> {
    await backTo(page, 'Back to your notebooks');
    await tabTo(page, /^K-\d\d, /);
    await press('Control+Home');
    for (let i = 1; !(await focusedName(page)).startsWith(`${tag}, `); i += 1) {
      if (i > 20) throw new Error(`No ${tag} in the grid.`);
      await press('ArrowDown');
    }
    for (let i = 1; !(await focusedName(page)).startsWith(`${tag}, ${column}`); i += 1) {
      if (i > 20) throw new Error(`No ${column}; stopped at ${await focusedName(page)}.`);
      await press('ArrowRight');
    }
  }

  beforeAll(async () => {
    open = await openPage({
      viewport: { width: 1280, height: 900 },
      permissions: ['clipboard-read', 'clipboard-write'],
    });
    ({ page } = open);
    // A mouse must not be needed: what a press of it does is made an error.
    await page.evaluate(() => {
      for (const kind of ['mousedown', 'touchstart'])
        window.addEventListener(kind, () => console.error(`a ${kind}`), { capture: true });
    });
  });
  afterAll(() => open.close());

  it('starts a notebook from a template chosen by its name', async () => {
    await page.getByRole('heading', { name: 'Start a notebook' }).waitFor();
    await tabTo(page, 'Template');
    await press('ArrowDown', 'ArrowUp');
    await tabTo(page, 'Name');
    await type('Low Field 2026');
    await tabTo(page, 'Start the notebook');
    await press('Space');
    await page.getByRole('heading', { level: 1, name: 'Low Field 2026' }).waitFor();
    expect(await focusedName(page)).toBe('Low Field 2026');
  });

  it('adds animals with their groups by pasting', async () => {
    await tabTo(page, 'Add animals');
    await enter();
    await dialog('Animals').waitFor();
    await tabTo(page, 'Tags, one on each line');
    await page.evaluate((text) => navigator.clipboard.writeText(text), pasted.join('\n'));
    await press('Control+V');
    await tabTo(page, 'Add 10 animals');
    await enter();
    await page.getByText('10 animals are added.').waitFor();
    await press('Escape');
    await isGone('Animals');
    expect(await focusedName(page)).toBe('Add animals');
  });

  it('moves one of them to another group, in the list of animals', async () => {
    await backTo(page, 'Animals');
    await enter();
    await dialog('Animals').waitFor();
    await tabTo(page, 'Add many');
    await press('ArrowLeft');
    expect(await focusedName(page)).toBe('Animals (10)');
    await tabTo(page, /^K-10/);
    await press('Space');
    await tabTo(page, 'Move to a group');
    await enter();
    expect(await focusedName(page)).toMatch(/^Group/);
    await type('ewes');
    await tabTo(page, 'Move K-10');
    await enter();
    await page.getByText(/^K-10 from .* on in ewes\.$/).waitFor();
    await press('Escape');
    await isGone('Animals');
    expect(await focusedName(page)).toBe('Animals');
  });

  it('adds the day of the sampling', async () => {
    await tabTo(page, /^(\+ )?Add (a sampling day|the first sampling day)/);
    await enter();
    await dialog('Add a sampling day').waitFor();
    expect(await focusedName(page)).toMatch(/^Date/);
    await enter();
    await isGone('Add a sampling day');
    await page.getByRole('grid').waitFor();
    expect((await ring(page)).isSeen).toBe(true);
  });

  it('types counts with Tab and Enter: down the first column where the run began', async () => {
    await toCell('K-01', 'chamber 1');
    expect(await ring(page)).toEqual({ width: 3, isSeen: true });
    for (const [one, two] of [
      [10, 12],
      [0, 0],
      [3, 1],
    ]) {
      await type(String(one));
      await press('Tab');
      await type(String(two));
      await enter();
    }
    // The template's factor is 50: 22, 0 and 4 eggs.
    await expectCell(page, 'K-01', 'epg', '1,100');
    await expectCell(page, 'K-02', 'epg', '0');
    await expectCell(page, 'K-03', 'epg', '200');
    expect(await focusedName(page)).toMatch(/^K-04, chamber 1/);
  });

  it('types a bound and too many, moves by arrows, and gives an edit up by Escape', async () => {
    await type('>40');
    await press('ArrowDown');
    await type('too many');
    await press('ArrowDown');
    await type('12x');
    await press('Escape');
    await expectCell(page, 'K-04', 'chamber1', '>40');
    await expectCell(page, 'K-05', 'chamber1', 'too many');
    expect(await focusedName(page)).toMatch(/^K-06, chamber 1/);
    await press('F2');
    await type('7');
    await enter();
    await expectCell(page, 'K-06', 'chamber1', '7');
    expect(await focusedName(page)).toMatch(/^K-07, chamber 1/);
  });

  it('chooses a status from its list', async () => {
    await toCell('K-07', 'status');
    await press('Alt+ArrowDown');
    await page.getByRole('listbox', { name: 'status' }).waitFor();
    // The cell is blank, so that nothing is marked yet.
    await press('ArrowDown');
    for (let i = 0; i < 10; i += 1) {
      const chosen = page.getByRole('listbox').getByRole('option', { selected: true });
      const words = (await chosen.innerText()).trim();
      if (words === 'not sampled') break;
      await press('ArrowDown');
      // The next word is only chosen once the list has been drawn again.
      await expect.poll(async () => (await chosen.innerText()).trim()).not.toBe(words);
    }
    await enter();
    await expectCell(page, 'K-07', 'status', 'not sampled');
    expect(await focusedName(page)).toMatch(/^K-07, status/);
  });

  it('types eyelid colours, copies one cell down over many, and clears', async () => {
    await toCell('K-01', 'eyelid');
    await type('4');
    await enter();
    await type('2');
    await enter();
    await press('ArrowUp', 'Shift+ArrowDown', 'Shift+ArrowDown', 'Control+D');
    await expectCell(page, 'K-04', 'eyelid', '2');
    await press('Control+Z');
    await expectCell(page, 'K-04', 'eyelid', '–');
    // Not scored is said aloud, where the eye has a dash.
    expect(await nameOf(page, 'K-04', 'eyelid')).toBe('not scored');
    await press('Control+Y');
    await expectCell(page, 'K-04', 'eyelid', '2');
    await press('Control+Z');
    await expectCell(page, 'K-03', 'eyelid', '–');
    await expectCell(page, 'K-02', 'eyelid', '2');
  });

  it('opens the menu of a column and comes back to the cell', async () => {
    await toCell('K-01', 'chamber 1');
    await press('Shift+F10');
    await page.getByRole('menuitem', { name: 'Hide' }).waitFor();
    expect(await focusedName(page)).toBe('Sort: highest first');
    await press('End');
    expect(await focusedName(page)).toMatch(/^Add a column/);
    await press('Escape');
    expect(await focusedName(page)).toMatch(/^K-01, chamber 1/);
  });

  it('leaves the grid by Tab and is not caught in it', async () => {
    await press('Tab');
    expect(await focusedName(page)).not.toMatch(/^K-/);
    await press('Shift+Tab');
    expect(await focusedName(page)).toMatch(/^K-01, chamber 1/);
  });

  it('makes a limit its own, with who said so and from which day', async () => {
    await backTo(page, 'Settings');
    await enter();
    await dialog('Settings').waitFor();
    await tabTo(page, 'Notebook');
    await press('ArrowRight', 'ArrowRight');
    expect(await focusedName(page)).toBe('Limits');
    await tabTo(page, 'Holds');
    await press('ArrowDown', 'ArrowDown');
    await tabTo(page, 'Treat from, value');
    await press('Control+A');
    await type('1000');
    await tabTo(page, 'Treat from, who said so');
    await type('the vet');
    await tabTo(page, 'Keep it as mine: Treat from');
    await enter();
    await page.getByText('Treat from is kept, and yours.').waitFor();
    await press('Escape');
    await isGone('Settings');
    expect(await focusedName(page)).toBe('Settings');
  });

  it('ticks an animal of the treatment list', async () => {
    const list = page.locator('sd-treatment-list');
    await tabTo(page, 'Treat K-01', 150);
    expect(await ring(page)).toEqual({ width: 3, isSeen: true });
    await press('Space');
    await list.getByText('1 ticked').first().waitFor();
    expect(await focusedName(page)).toBe('Treat K-01');
  });

  it('asks a figure where it comes from, and comes back to it', async () => {
    // The mean of those counted: 1,100, 0 and 200 epg, and 7 eggs in one of two chambers, 700 epg.
    const mean = 'mean, all: 500';
    await backTo(page, mean);
    await enter();
    await dialog(/^mean/).waitFor();
    await press('Escape');
    await isGone(/^mean/);
    expect(await focusedName(page)).toBe(mean);
  });

  it('keeps what was typed for a new figure, and gives the focus back', async () => {
    await tabTo(page, 'Add a figure');
    await enter();
    await dialog('Add a figure').waitFor();
    await tabTo(page, 'Name');
    await type('top fifth');
    await press('Escape');
    await isGone('Add a figure');
    expect(await focusedName(page)).toBe('Add a figure');
  });

  it('shows what will be printed and comes back to where it was', async () => {
    await backTo(page, 'More to do', 200);
    await enter();
    await page.getByRole('menuitem').first().waitFor();
    await press('End');
    expect(await focusedName(page)).toBe('Print');
    await enter();
    await page.getByRole('region', { name: /^What will be printed/ }).waitFor();
    expect(await focusedName(page)).toMatch(/^Sheet/);
    await tabTo(page, 'Back to the page');
    await enter();
    await page.getByRole('grid').waitFor();
    expect(await focusedName(page)).toBe('More to do');
  });

  it('goes back to the notebooks, where this one stands', async () => {
    await backTo(page, 'Back to your notebooks');
    await enter();
    await page.getByRole('heading', { name: 'Your notebooks' }).waitFor();
    await expect.poll(() => focusedName(page)).toBe('Sampling Daybook');
    await tabTo(page, /^Low Field 2026/);
    await enter();
    await page.getByRole('heading', { level: 1, name: 'Low Field 2026' }).waitFor();
    await expectCell(page, 'K-01', 'epg', '1,100');
  });

  it('nothing went wrong on the way', () => {
    expect(open.errors).toEqual([]);
    expect(open.elsewhere).toEqual([]);
  });
});
