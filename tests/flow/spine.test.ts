import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { focusedName, tabTo } from './keyboard.ts';
import type { OpenPage } from './open-page.ts';
import { openPage } from './open-page.ts';
import type { OwnBrowser } from './own-browser.ts';
import { makeProfile, startOwnBrowser } from './own-browser.ts';
import { violations } from './violations.ts';

const tags = Array.from({ length: 20 }, (_, i) => `K-${String(i + 1).padStart(3, '0')}`);

/** Eggs in the two chambers of each animal; factor 50 makes epg (2 g in 28 mL, two grids of 0.15 mL). */
const counts = tags.map((_, i) => [i, (i * 7) % 11] as const);

function row(page: Page, tag: string): Locator {
  const head = page.getByRole('rowheader', { name: tag });
  return page.getByRole('grid').getByRole('row').filter({ has: head });
}

async function expectSaved(page: Page): Promise<void> {
  await page
    .locator('sd-page-header')
    .getByText(/^Saved \d\d:\d\d$/)
    .waitFor();
}

async function startByKeyboard(page: Page, title: string): Promise<void> {
  await page.getByRole('heading', { name: 'Start a notebook' }).waitFor();
  await tabTo(page, 'Name');
  await page.keyboard.type(title);
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { level: 1, name: title }).waitFor();
}

async function addAnimalsByPasting(page: Page, pasted: readonly string[]): Promise<void> {
  await tabTo(page, 'Add animals');
  await page.keyboard.press('Enter');
  await page.getByRole('dialog', { name: 'Animals' }).waitFor();
  await tabTo(page, 'Tags, one on each line');
  await page.evaluate((text) => navigator.clipboard.writeText(text), pasted.join('\n'));
  await page.keyboard.press('Control+V');
  await page.getByText(`${pasted.length} new animals`).waitFor();
  await tabTo(page, `Add ${pasted.length} animals`);
  await page.keyboard.press('Enter');
  await page.getByText(`${pasted.length} animals are added.`).waitFor();
  await page.keyboard.press('Escape');
}

async function addTodayByKeyboard(page: Page): Promise<void> {
  await tabTo(page, 'Add a sampling day');
  await page.keyboard.press('Enter');
  await page.getByRole('dialog', { name: 'Add a sampling day' }).waitFor();
  await page.keyboard.press('Enter');
  await page.getByRole('grid').waitFor();
}

async function tabIntoGrid(page: Page): Promise<void> {
  for (let i = 0; i < 150; i += 1) {
    await page.keyboard.press('Tab');
    const isInside = await page.evaluate(() => {
      let active = document.activeElement;
      while (active?.shadowRoot?.activeElement) {
        const inner = active.shadowRoot.activeElement;
        if (active.localName === 'sd-grid' && inner instanceof HTMLInputElement) return true;
        active = inner;
      }
      return false;
    });
    if (isInside) return;
  }
  throw new Error(`Tab did not reach the grid; it stopped at ${await focusedName(page)}.`);
}

/** The first animal's first chamber, from wherever the keyboard is. */
async function goToFirstCount(page: Page): Promise<void> {
  await tabIntoGrid(page);
  await page.keyboard.press('Control+Home');
  for (let i = 0; i < 12; i += 1) {
    if ((await focusedName(page)).includes('chamber 1')) return;
    await page.keyboard.press('ArrowRight');
  }
  throw new Error(`No chamber 1 in the first row; the last cell was ${await focusedName(page)}.`);
}

async function typeCounts(page: Page): Promise<void> {
  await goToFirstCount(page);
  for (const [one, two] of counts) {
    await page.keyboard.type(String(one));
    await page.keyboard.press('Tab');
    await page.keyboard.type(String(two));
    await page.keyboard.press('Enter');
  }
}

async function expectCounts(page: Page): Promise<void> {
  await page.getByRole('grid').waitFor();
  await page.locator('sd-page-header').getByText('20 counted of 20 present').waitFor();
  for (const [i, tag] of tags.entries()) {
    if (i % 5 !== 0 && i !== 19) continue;
    const [one = 0, two = 0] = counts[i] ?? [];
    const line = row(page, tag);
    if (!(await line.isVisible())) {
      await page.locator('sd-grid-tools').getByRole('searchbox').fill(tag);
      await line.waitFor();
    }
    const epg = ((one + two) * 50).toLocaleString('en');
    expect((await line.innerText()).split('\n')).toEqual(
      expect.arrayContaining([String(one), String(two), epg]),
    );
    await page.locator('sd-grid-tools').getByRole('searchbox').fill('');
  }
}

describe('a first sampling day, by keyboard alone', () => {
  let open: OpenPage;

  beforeAll(async () => {
    open = await openPage({
      viewport: { width: 1280, height: 900 },
      permissions: ['clipboard-read', 'clipboard-write'],
    });
  });
  afterAll(() => open.close());

  it('starts from a template, takes 20 pasted tags and 20 animals’ counts, and keeps them', async () => {
    const { page } = open;
    await startByKeyboard(page, 'Far Fell 2026');
    await addAnimalsByPasting(page, tags);
    await addTodayByKeyboard(page);
    await typeCounts(page);
    await expectCounts(page);
    await expectSaved(page);
    await page.reload();
    await page.getByRole('heading', { level: 1, name: 'Far Fell 2026' }).waitFor();
    await expectCounts(page);
  });

  it('works the herd’s figures and the list out of the counts', async () => {
    const { page } = open;
    // Mean of the 20 epg above; arithmetic mean, as HERDMEAN gives.
    const epgs = counts.map(([one, two]) => (one + two) * 50);
    const mean = Math.round(epgs.reduce((sum, epg) => sum + epg, 0) / epgs.length);
    const highest = Math.max(...epgs);
    const figures = page.locator('sd-figures');
    await figures.getByText(String(mean), { exact: true }).waitFor();
    await figures.getByText(highest.toLocaleString('en')).waitFor();
    const over = epgs.filter((epg) => epg >= 500).length;
    await page
      .locator('sd-treatment-list')
      .getByText(`${over} over your criteria`)
      .first()
      .waitFor();
  });

  it('takes a count back and does it again', async () => {
    const { page } = open;
    await goToFirstCount(page);
    await page.keyboard.type('40');
    await page.keyboard.press('Enter');
    await row(page, 'K-001').getByText('2,000').waitFor();
    await page.keyboard.press('Control+Z');
    await row(page, 'K-001').getByText('2,000').waitFor({ state: 'detached' });
    await page.keyboard.press('Control+Y');
    await row(page, 'K-001').getByText('2,000').waitFor();
  });

  it('asked nothing of any other address, and nothing went wrong on the way', () => {
    expect(open.errors).toEqual([]);
    expect(open.elsewhere).toEqual([]);
  });
});

describe('a browser that is killed', () => {
  it('has every count that the page called saved', async () => {
    const profile = await makeProfile();
    const running: OwnBrowser[] = [];
    const start = async (): Promise<OwnBrowser> => {
      const browser = await startOwnBrowser(profile.path);
      running.push(browser);
      return browser;
    };
    try {
      const first = await start();
      await first.page.goto(`${inject('pageAddress')}?demo`);
      await first.page.getByRole('grid').waitFor();
      await goToFirstCount(first.page);
      await first.page.keyboard.type('123');
      await first.page.keyboard.press('Enter');
      await expectSaved(first.page);
      await first.kill();
      const second = await start();
      await second.page.goto(`${inject('pageAddress')}?demo`);
      await row(second.page, 'W-101').getByText('123', { exact: true }).waitFor();
    } finally {
      for (const browser of running) await browser.kill();
      await profile.remove();
    }
  });
});

describe('the demo', () => {
  let open: OpenPage;

  beforeAll(async () => {
    open = await openPage({ viewport: { width: 1280, height: 900 } });
  });
  afterAll(() => open.close());

  it('is made once and keeps an edit across reloading', async () => {
    const { page, address } = open;
    await page.goto(`${address}?demo`);
    await page.getByRole('grid').waitFor();
    await goToFirstCount(page);
    await page.keyboard.type('77');
    await page.keyboard.press('Enter');
    await row(page, 'W-101').getByText('77', { exact: true }).waitFor();
    await expectSaved(page);
    await page.reload();
    await row(page, 'W-101').getByText('77', { exact: true }).waitFor();
    expect(await page.getByRole('heading', { level: 1 }).innerText()).toBe('Nettlewick Top');
  });

  it('takes a removed day back', async () => {
    const { page } = open;
    await page.getByRole('button', { name: 'More about 19 July 2026' }).click();
    await page.getByRole('menuitem', { name: /^Take off/ }).click();
    await page.getByRole('button', { name: '19 July', exact: true }).waitFor({ state: 'detached' });
    await page.locator('.message').getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('button', { name: '19 July', exact: true }).click();
    await row(page, 'W-101').getByText('77', { exact: true }).waitFor();
  });

  it('shows no barrier that axe can find, at a desk and on a phone, light and dark', async () => {
    const { page, address } = open;
    for (const [width, colorScheme] of [
      [1280, 'light'],
      [390, 'dark'],
    ] as const) {
      await page.setViewportSize({ width, height: 844 });
      await page.emulateMedia({ colorScheme });
      await page.goto(`${address}?demo`);
      await page.locator('sd-treatment-list').getByText('over your criteria').first().waitFor();
      expect(await violations(page)).toEqual([]);
    }
  });

  it('shows none on the start page, in the animals and in the settings either', async () => {
    const { page, address } = open;
    await page.setViewportSize({ width: 1280, height: 844 });
    await page.goto(`${address}?demo`);
    for (const name of ['Animals', 'Settings']) {
      await page.getByRole('button', { name, exact: true }).click();
      await page.getByRole('dialog', { name }).waitFor();
      expect(await violations(page)).toEqual([]);
      await page.keyboard.press('Escape');
    }
    await page.goto(address);
    await page.getByRole('heading', { name: 'Your notebooks' }).waitFor();
    expect(await violations(page)).toEqual([]);
  });
});
