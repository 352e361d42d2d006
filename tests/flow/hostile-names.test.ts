import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { validate } from '../../src/notebook/validate.ts';
import { writeNotebookText } from '../../src/notebook/notebook-file.ts';
import { isFault } from '../../shared/value.ts';
import { allWords, doFurther, goThrough, thingsThatRun } from './go-through.ts';
import { HOSTILE, hostileNotebook } from './hostile-notebook.ts';
import type { OpenPage } from './open-page.ts';
import { openPage } from './open-page.ts';
import { noteRefusals, refusals } from './refusals.ts';

const [image = '', script = '', link = ''] = HOSTILE;

let open: OpenPage;

beforeAll(async () => {
  open = await openPage({
    viewport: { width: 1280, height: 900 },
    permissions: ['clipboard-read', 'clipboard-write'],
  });
  await noteRefusals(open.context);
  await open.page.reload();
});
afterAll(() => open.close());

async function expectOnlyWords(): Promise<void> {
  const { page, errors } = open;
  expect(await page.evaluate(() => 'hostile' in window)).toBe(false);
  expect(await thingsThatRun(page)).toEqual([]);
  expect(await refusals(page)).toEqual([]);
  expect(errors).toEqual([]);
}

/** Everything is opened, one after the other. */
vi.setConfig({ testTimeout: 180_000 });

describe('hostile words typed by hand stay words', () => {
  it('as name and place, tags, a group, the label of a column, a note in the grid, a block’s name', async () => {
    const { page } = open;
    await page.getByRole('textbox', { name: 'Name', exact: true }).fill(image);
    await page.getByRole('textbox', { name: 'Place', exact: true }).fill(link);
    await page.getByRole('button', { name: 'Start the notebook' }).click();
    await page.getByRole('heading', { level: 1, name: image }).waitFor();
    expect(await page.title()).toContain(image);

    await page.getByRole('button', { name: 'Add animals' }).first().click();
    await page.getByRole('dialog', { name: 'Animals' }).waitFor();
    await page.getByLabel('Tags, one on each line').fill([image, script, link].join('\n'));
    await page
      .getByRole('textbox', { name: /^Group/ })
      .first()
      .fill(script);
    await page.getByRole('button', { name: 'Add 3 animals' }).click();
    await page.getByText('3 animals are added.').waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Add a sampling day' }).first().click();
    await page.keyboard.press('Enter');
    await page.getByRole('grid').waitFor();
    for (const tag of [image, script, link])
      await page.getByRole('rowheader').getByText(tag, { exact: true }).first().waitFor();

    const cell = page.getByRole('row').nth(1).getByRole('gridcell').last();
    await cell.click();
    await page.keyboard.type(script);
    await page.keyboard.press('Enter');
    await cell.getByText(script).first().waitFor();

    await page.getByRole('button', { name: 'Columns', exact: true }).click();
    await page.getByRole('button', { name: 'Add a column' }).click();
    await page.locator('sd-columns-dialog').getByLabel('Name', { exact: true }).fill(image);
    await page.getByRole('button', { name: 'Add the column' }).click();
    await page.keyboard.press('Escape');
    await page.getByRole('columnheader', { name: image }).waitFor();

    await page.getByRole('button', { name: 'More about Note', exact: true }).click();
    await page.getByRole('menuitem', { name: 'Rename' }).click();
    await page.locator('sd-rename-block input:visible').fill(link);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { level: 2, name: link }).waitFor();
    await page.locator('sd-note textarea').first().fill(script);

    await goThrough(page, expectOnlyWords);
    await expectOnlyWords();
    const words = await allWords(page);
    for (const hostile of [image, script, link]) expect(words).toContain(hostile);
  });
});

describe('hostile words in a list stay words', () => {
  it('in its name, its headings and its fields, before anything is taken from it', async () => {
    const { page } = open;
    const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;
    const lines = [
      ['tag', 'date', image, link].map(quoted),
      [script, '2026-05-03', link, image].map(quoted),
      [image, script, '4', '5'].map(quoted),
    ];
    await doFurther(page, 'Import');
    await page.locator('sd-import-source input[type="file"]').setInputFiles({
      name: '<img src=x onerror=alert(1)>.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from(lines.map((line) => line.join(',')).join('\r\n')),
    });
    await page.getByText('2 rows, read as').waitFor();
    await expect.poll(() => allWords(page)).toContain('<img src=x onerror=alert(1)>.csv');
    await expectOnlyWords();
    await page.keyboard.press('Escape');
  });
});

describe('hostile words in a notebook file stay words', () => {
  it('in every field of every table, in every block and dialog, and on paper', async () => {
    const { page, address } = open;
    const notebook = hostileNotebook();
    const read = validate(JSON.parse(JSON.stringify(notebook)));
    expect(isFault(read) ? read.sentence : '').toBe('');
    await page.goto(address);
    await page.getByLabel('Open a file…', { exact: true }).setInputFiles({
      name: '<img src=x onerror=alert(1)>.json',
      mimeType: 'application/json',
      buffer: Buffer.from(writeNotebookText(notebook)),
    });
    await page
      .getByRole('heading', { level: 1 })
      .filter({ hasText: HOSTILE[0] ?? '' })
      .waitFor();
    await goThrough(page, expectOnlyWords);
    await expectOnlyWords();
    const words = await allWords(page);
    for (const hostile of HOSTILE) expect(words).toContain(hostile);

    await page.emulateMedia({ media: 'print' });
    await expectOnlyWords();
    await page.emulateMedia({ media: 'screen' });
    await page.setViewportSize({ width: 390, height: 844 });
    await page.getByRole('grid').or(page.locator('sd-card')).first().waitFor();
    await expectOnlyWords();
    await page.setViewportSize({ width: 1280, height: 900 });
    await page.goto(address);
    await page.getByRole('heading', { name: 'Your notebooks' }).waitFor();
    await page
      .getByText(HOSTILE[0] ?? '')
      .first()
      .waitFor();
    await expectOnlyWords();
  });
});
