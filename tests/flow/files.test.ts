import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Notebook } from '../../shared/notebook.ts';
import type { Template } from '../../shared/template.ts';
import { dropFile } from './drop-file.ts';
import { openPage, type OpenPage } from './open-page.ts';
import { violations } from './violations.ts';

const tags = ['K-001', 'K-002', 'K-003', 'K-004', 'K-005'];

let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'daybook-files-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function choose(page: Page, action: string): Promise<void> {
  const direct = page.locator('sd-page-header').getByRole('button', { name: action, exact: true });
  if (await direct.isVisible()) return direct.click();
  await page.getByRole('button', { name: 'More to do' }).click();
  await page.getByRole('menuitem', { name: action, exact: true }).click();
}

/** Does what makes the browser save a file; gives its path on the disk, under the name it offers. */
async function download(page: Page, act: () => Promise<void>): Promise<string> {
  const [saved] = await Promise.all([page.waitForEvent('download'), act()]);
  const path = join(folder, `${String(Math.random()).slice(2)} ${saved.suggestedFilename()}`);
  await saved.saveAs(path);
  return path;
}

function saveNotebook(page: Page): Promise<string> {
  return download(page, () => choose(page, 'Save to a file'));
}

async function readNotebook(path: string): Promise<Notebook> {
  return JSON.parse(await readFile(path, 'utf8')) as Notebook;
}

async function startHerd(page: Page, title: string): Promise<void> {
  await page.locator('sd-new-notebook').getByLabel('Name', { exact: true }).fill(title);
  await page.getByRole('button', { name: 'Start the notebook' }).click();
  await page.getByRole('heading', { level: 1, name: title }).waitFor();
  await page.getByRole('button', { name: 'Add animals' }).click();
  await page.getByLabel('Tags, one on each line').fill(tags.join('\n'));
  await page.getByRole('button', { name: `Add ${tags.length} animals` }).click();
  await page.getByText(`${tags.length} animals are added.`).waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Add a sampling day' }).click();
  await page.getByRole('dialog', { name: 'Add a sampling day' }).waitFor();
  await page.keyboard.press('Enter');
  await page.getByRole('grid').waitFor();
}

function row(page: Page, tag: string): Locator {
  const head = page.getByRole('rowheader', { name: tag });
  return page.getByRole('grid').getByRole('row').filter({ has: head });
}

/** Types both chambers of an animal, by a click into the first and the keys a hand uses. */
async function count(page: Page, tag: string, one: number, two: number): Promise<void> {
  const head = page.getByRole('grid').getByRole('columnheader', { name: /^chamber 1/ });
  const at = Number(await head.first().getAttribute('aria-colindex'));
  await row(page, tag).locator(`[aria-colindex="${at}"]`).click();
  await page.keyboard.type(String(one));
  await page.keyboard.press('Tab');
  await page.keyboard.type(String(two));
  await page.keyboard.press('Enter');
  const epg = ((one + two) * 50).toLocaleString('en');
  await row(page, tag).getByText(epg, { exact: true }).waitFor();
}

async function openFileOnStart(page: Page, path: string): Promise<void> {
  await page.locator('sd-start section').first().locator('input[type="file"]').setInputFiles(path);
}

async function chooseSecondCopy(page: Page, path: string): Promise<void> {
  await choose(page, 'Bring in a second copy');
  await page.locator('sd-merge-dialog input[type="file"]').setInputFiles(path);
}

describe('one notebook on two devices', () => {
  let laptop: OpenPage;
  let phone: OpenPage;

  beforeAll(async () => {
    const desk = { viewport: { width: 1280, height: 900 } };
    [laptop, phone] = await Promise.all([openPage(desk), openPage(desk)]);
    await startHerd(laptop.page, 'Far Fell 2026');
    await openFileOnStart(phone.page, await saveNotebook(laptop.page));
    await phone.page.getByRole('grid').waitFor();
  });
  afterAll(() => Promise.all([laptop.close(), phone.close()]));

  it('is counted on both, brought together by files both ways, and is then the same on both', async () => {
    await count(laptop.page, 'K-001', 3, 4);
    await count(laptop.page, 'K-002', 5, 6);
    await count(phone.page, 'K-003', 1, 2);
    await count(phone.page, 'K-004', 12, 9);
    await chooseSecondCopy(laptop.page, await saveNotebook(phone.page));
    // Two chambers each, and the zero for the further egg type looked for that leaving the row fills in.
    await laptop.page.getByText('6 readings, all of them counts').waitFor();
    expect(await violations(laptop.page)).toEqual([]);
    await laptop.page.getByRole('button', { name: 'Make the two copies one' }).click();
    await row(laptop.page, 'K-004').getByText('1,050', { exact: true }).waitFor();

    await dropFile(phone.page, await saveNotebook(laptop.page));
    await phone.page.getByText('6 readings, all of them counts').waitFor();
    await phone.page.getByRole('button', { name: 'Make the two copies one' }).click();
    await row(phone.page, 'K-002').getByText('550', { exact: true }).waitFor();

    const [here, there] = await Promise.all(
      [laptop, phone].map(async ({ page }) => readNotebook(await saveNotebook(page))),
    );
    expect(here).toEqual(there);
    const [readings = {}] = Object.values(here?.readings ?? {});
    expect(Object.keys(readings)).toHaveLength(4);
  });

  it('says that a file brings nothing, and offers no merge', async () => {
    await chooseSecondCopy(laptop.page, await saveNotebook(phone.page));
    await laptop.page.getByText('Nothing that is not here already.').waitFor();
    const merge = laptop.page.getByRole('button', { name: 'Make the two copies one' });
    expect(await merge.isDisabled()).toBe(true);
    await laptop.page.keyboard.press('Escape');
  });

  it('keeps both values where both counted one cup, lists them, and takes a choice', async () => {
    await count(laptop.page, 'K-005', 7, 0);
    await count(phone.page, 'K-005', 8, 0);
    await chooseSecondCopy(laptop.page, await saveNotebook(phone.page));
    const differs = laptop.page.locator('sd-merge-review li', { hasText: 'K-005 · chamber 1' });
    expect((await differs.innerText()).replace(/\s+/g, ' ')).toMatch(/ \d{4}: 8 or 7\s*$/);
    await laptop.page.getByRole('button', { name: 'Make the two copies one' }).click();
    await laptop.page.getByText('At one place two copies of this notebook differ.').waitFor();
    await row(laptop.page, 'K-005').getByText('two copies differ').waitFor();
    await laptop.page.getByRole('button', { name: 'Choose where they differ (1)' }).click();
    expect(await violations(laptop.page)).toEqual([]);
    const which = laptop.page.getByRole('group', { name: /^Which one stands: K-005/ });
    await which.getByRole('button', { name: /^7/ }).click();
    await laptop.page.getByText('Nowhere: every value is settled.').waitFor();
    await laptop.page.keyboard.press('Escape');
    await row(laptop.page, 'K-005').getByText('350', { exact: true }).waitFor();
    await laptop.page
      .getByText('At one place two copies of this notebook differ.')
      .waitFor({ state: 'detached' });
    await dropFile(phone.page, await saveNotebook(laptop.page));
    await phone.page.getByRole('button', { name: 'Make the two copies one' }).click();
    await row(phone.page, 'K-005').getByText('350', { exact: true }).waitFor();
  });

  it('gives the former copy back by undo, until the next edit', async () => {
    const before = await readNotebook(await saveNotebook(laptop.page));
    await count(phone.page, 'K-001', 20, 20);
    await dropFile(laptop.page, await saveNotebook(phone.page));
    await laptop.page.getByRole('button', { name: 'Make the two copies one' }).click();
    await row(laptop.page, 'K-001').getByText('2,000', { exact: true }).waitFor();
    await laptop.page.locator('.message').getByRole('button', { name: 'Undo' }).click();
    await row(laptop.page, 'K-001').getByText('350', { exact: true }).waitFor();
    expect(await readNotebook(await saveNotebook(laptop.page))).toEqual(before);
    await laptop.page.reload();
    await row(laptop.page, 'K-001').getByText('350', { exact: true }).waitFor();
  });

  it('is never written over by a file of it: the file is offered as a second copy', async () => {
    const path = await saveNotebook(phone.page);
    await laptop.page.getByRole('button', { name: 'Back to your notebooks' }).click();
    await dropFile(laptop.page, path);
    await laptop.page.getByRole('dialog', { name: 'This notebook is here already' }).waitFor();
    expect(await violations(laptop.page)).toEqual([]);
    await laptop.page.getByRole('button', { name: 'Bring the file in as a second copy…' }).click();
    await laptop.page.getByText('What the file brings').waitFor();
    await laptop.page.keyboard.press('Escape');
    await row(laptop.page, 'K-001').getByText('350', { exact: true }).waitFor();
  });

  it('opens a file of it beside it, as a notebook of its own', async () => {
    const path = await saveNotebook(phone.page);
    await laptop.page.getByRole('button', { name: 'Back to your notebooks' }).click();
    await openFileOnStart(laptop.page, path);
    await laptop.page
      .getByRole('button', { name: 'Open the file as a notebook of its own' })
      .click();
    await laptop.page
      .getByRole('heading', { level: 1, name: 'Far Fell 2026 (from a file)' })
      .waitFor();
    await row(laptop.page, 'K-001').getByText('2,000', { exact: true }).waitFor();
    await chooseSecondCopy(laptop.page, path);
    await laptop.page.getByText('Only two copies of one notebook can be made one.').waitFor();
    await laptop.page.getByRole('button', { name: 'Open it as a notebook of its own' }).click();
    await laptop.page.getByRole('dialog', { name: 'This notebook is here already' }).waitFor();
    expect(laptop.errors).toEqual([]);
    expect(phone.errors).toEqual([]);
  });
});

describe('a file that is none', () => {
  let open: OpenPage;

  beforeAll(async () => {
    open = await openPage({ viewport: { width: 1280, height: 900 } });
  });
  afterAll(() => open.close());

  async function fileOf(name: string, text: string): Promise<string> {
    const path = join(folder, name);
    await writeFile(path, text);
    return path;
  }

  it('gets its sentence at the start page, by chooser and by drop', async () => {
    const { page } = open;
    await page.getByRole('heading', { name: 'Start a notebook' }).waitFor();
    const trouble = page.locator('sd-start');
    await dropFile(page, await fileOf('letter.json', 'Dear Sir'));
    await trouble.getByText('letter.json: This is not a notebook file.').waitFor();
    await openFileOnStart(page, await fileOf('empty.json', ''));
    await trouble.getByText('empty.json: This file is empty.').waitFor();
    await dropFile(page, await fileOf('counts.csv', 'tag,chamber 1\nK-001,4\n'));
    await trouble.getByText('counts.csv is a list, not a notebook.').waitFor();
  });

  it('is opened as far as it can be read, with the rest saved aside', async () => {
    const { page, address } = open;
    await page.goto(`${address}?demo`);
    await page.getByRole('grid').waitFor();
    const notebook = await readNotebook(await saveNotebook(page));
    const [wrong = ''] = Object.keys(notebook.animals);
    const spoiled = {
      ...notebook,
      id: 'spoiled',
      animals: { ...notebook.animals, [wrong]: { ...notebook.animals[wrong], species: 7 } },
    };
    await page.goto(address);
    await page.getByRole('heading', { name: 'Your notebooks' }).waitFor();
    await dropFile(page, await fileOf('spoiled.json', JSON.stringify(spoiled)));
    const aside = await download(page, () =>
      page.getByRole('button', { name: 'Open what can be read, and save the rest aside' }).click(),
    );
    expect(await readFile(aside, 'utf8')).toContain('species');
    await page.getByRole('grid').waitFor();
    // Some hundred counts, all of them in that file: nobody is asked to save them to one.
    await page.getByRole('button', { name: 'Back to your notebooks' }).click();
    const line = page.locator('sd-start li').first();
    await line.getByText('changed today').waitFor();
    expect(await line.innerText()).not.toContain('in no file');
    await line.getByRole('button', { name: 'Nettlewick Top' }).first().click();
    await page.getByRole('grid').waitFor();
    expect(open.errors).toEqual([]);
  });

  it('opens the import where a list is dropped on a notebook', async () => {
    const { page } = open;
    await dropFile(page, await fileOf('counts.csv', 'tag,chamber 1\nK-001,4\n'));
    await page.locator('sd-import-dialog').getByText('counts.csv').first().waitFor();
    await page.keyboard.press('Escape');
  });
});

describe('templates', () => {
  let open: OpenPage;

  beforeAll(async () => {
    open = await openPage({ viewport: { width: 1280, height: 900 } });
  });
  afterAll(() => open.close());

  it('show their check list and what they hold before anything is started', async () => {
    const { page } = open;
    await page.locator('sd-template-picker select').selectOption({ label: 'Dewormer check' });
    await page.getByText('What it holds').click();
    await page.locator('sd-template-preview').getByText('Check list for the day').waitFor();
    const file = new URL('../../templates/dewormer-check.json', import.meta.url);
    const { checkList, nextSample } = JSON.parse(await readFile(file, 'utf8')) as Template;
    const text = await page.locator('sd-template-preview dl').innerText();
    for (const line of [...checkList, nextSample]) expect(text).toContain(line);
    expect(await violations(page)).toEqual([]);
  });

  it('are saved from a notebook, kept, handed on as a file and started from', async () => {
    const { page, address } = open;
    await page.goto(`${address}?demo`);
    await page.getByRole('grid').waitFor();
    await choose(page, 'Save as a template');
    const dialog = page.locator('sd-save-template');
    await dialog.getByLabel('Name', { exact: true }).fill('Hill flock');
    await page.getByRole('button', { name: 'Keep on this device' }).click();
    await page.getByText('“Hill flock” is kept.').waitFor();
    const path = await download(page, () =>
      dialog.getByRole('button', { name: 'Save to a file' }).click(),
    );
    expect(path).toMatch(/Hill flock template\.json$/);
    const other = await openPage({ viewport: { width: 390, height: 844 } });
    try {
      await other.page.locator('sd-template-picker input[type="file"]').setInputFiles(path);
      await other.page.getByText('“Hill flock” is now among your own templates.').waitFor();
      expect(await violations(other.page)).toEqual([]);
      await other.page.reload();
      await other.page.locator('sd-template-picker select').selectOption({ label: 'Hill flock' });
      await other.page
        .locator('sd-new-notebook')
        .getByLabel('Name', { exact: true })
        .fill('Hill 2027');
      await other.page.getByRole('button', { name: 'Start the notebook' }).click();
      await other.page.getByRole('heading', { level: 1, name: 'Hill 2027' }).waitFor();
      expect(other.errors).toEqual([]);
    } finally {
      await other.close();
    }
  });

  it('that are wrong say which formula', async () => {
    const { page, address } = open;
    const file = new URL('../../templates/summer-grazing.json', import.meta.url);
    const template = JSON.parse(await readFile(file, 'utf8')) as Template;
    const figures = template.figures.map((figure, i) =>
      i === 0 ? { ...figure, formula: 'HERDMEAN(herd.epq)' } : figure,
    );
    const path = join(folder, 'wrong.json');
    await writeFile(path, JSON.stringify({ ...template, figures }));
    await page.goto(address);
    await page.getByRole('heading', { name: 'Start a notebook' }).waitFor();
    await dropFile(page, path);
    await page
      .locator('sd-template-picker .fault')
      .getByText(/wrong\.json: In this template, the formula of the figure “mean” .*epq/)
      .waitFor();
  });

  it('start the next season with the animals and groups, and without the old days', async () => {
    const { page, address } = open;
    await page.goto(`${address}?demo`);
    await page.getByRole('grid').waitFor();
    await choose(page, 'Start the next season');
    await page.getByText(/^40 animals in 3 groups are carried over/).waitFor();
    expect(await violations(page)).toEqual([]);
    const dialog = page.locator('sd-next-season');
    await dialog.getByLabel('Name', { exact: true }).fill('Nettlewick 2027');
    await dialog.locator('select').selectOption({ label: 'Autumn and housing' });
    await page.getByRole('button', { name: 'Start the season' }).click();
    await page.getByRole('heading', { level: 1, name: 'Nettlewick 2027' }).waitFor();
    await page.getByText('Now add the day of the sampling.').waitFor();
    const next = await readNotebook(await saveNotebook(page));
    expect(Object.keys(next.animals)).toHaveLength(40);
    expect(next.days).toEqual({});
    expect(next.readings).toEqual({});
    expect(open.errors).toEqual([]);
    expect(open.elsewhere).toEqual([]);
  });
});
