import { readFile } from 'node:fs/promises';
import type { Download, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readTable } from '../../src/csv/read-table.ts';
import type { Table } from '../../src/csv/table.ts';
import type { OpenPage } from './open-page.ts';
import { openPage } from './open-page.ts';

let open: OpenPage;
let page: Page;

beforeAll(async () => {
  open = await openPage({ acceptDownloads: true });
  page = open.page;
  await page.goto(`${open.address}?demo`);
  await page.getByRole('grid').first().waitFor();
});
afterAll(() => open.close());

async function more(name: string): Promise<void> {
  await page.getByRole('button', { name: 'More to do', exact: true }).first().click();
  await page.getByRole('menuitem', { name, exact: true }).click();
}

/** Chooses a file as a person does, through the browser's own chooser. */
async function choose(name: string, bytes: Buffer): Promise<void> {
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Choose a file' }).click();
  await (await chooser).setFiles({ name, mimeType: 'text/csv', buffer: bytes });
}

/** What stands in the sheet is slotted into it, so it is looked for below its own element. */
const dialog = () => page.locator('sd-import-dialog');

/** Every value of a tidy file, by tag and heading. */
async function opened(download: Download): Promise<{ text: string; table: Table }> {
  const path = await download.path();
  const bytes = new Uint8Array(await readFile(path));
  return { text: Buffer.from(bytes).toString('utf8'), table: readTable(bytes) };
}

function cell({ headers, rows }: Table, tag: string, heading: string): string | undefined {
  const row = rows.find(({ cells }) => cells[headers.indexOf('tag')] === tag);
  return row?.cells[headers.indexOf(heading)];
}

it('imports a file of Windows-1252 with decimal commas, looked at first, undone at once', async () => {
  await more('Import');
  const list =
    'Wiegeliste;;;;\n\ntag;name;kg;2026-08-02;note\nW-101;;41,5;7;\nNEU-1;Zo\u00eb;38,0;TNTC;=siehe Tierarzt\n0123;;;;\n9,82E+14;;40;1;\n';
  await choose('liste.csv', Buffer.from(list, 'latin1'));
  await dialog().getByText('read as Windows-1252').waitFor();
  await dialog().getByText('Line 7: "9,82E+14"').waitFor();
  // The weights and notes name no day: they are of the day chosen.
  await page.locator('sd-import-day select').selectOption('2026-07-19');
  await dialog().getByText('Values of this list name no day.').waitFor();
  await dialog().getByText('2 new animals, 1 known one').waitFor();
  const question = dialog().getByRole('group', { name: /in the notebook already with another/ });
  await question.getByLabel('take what the list has').check();
  await dialog()
    .getByRole('button', { name: /^Import \d+ values of 3 animals$/ })
    .click();
  await page.getByText(/^Imported liste\.csv: \d+ values of 3 animals\. 1 left out\.$/).waitFor();
  // The herd of 40 and the two new ones, under the head line.
  await page.locator('[role=grid][aria-rowcount="43"]').waitFor();
  await page.getByRole('button', { name: 'Undo' }).last().click();
  await page.getByText('Undone: import of liste.csv.').waitFor();
  await page.locator('[role=grid][aria-rowcount="41"]').waitFor();
});

it('takes a file that is dropped, and what it imports comes out again in a tidy file', async () => {
  await more('Import');
  const list =
    'tag,date,chamber1,chamber2,eyelid,note\nW-101,2026-08-09,10,12,2,"=1+1, ""x"""\nNEW-2,2026-08-09,>40,,,\nG-013,2026-08-09,,,4,\n';
  const transfer = await page.evaluateHandle((text) => {
    const data = new DataTransfer();
    data.items.add(new File([text], 'dropped.csv', { type: 'text/csv' }));
    return data;
  }, list);
  const zone = page.locator('sd-import-source');
  await zone.dispatchEvent('dragenter', { dataTransfer: transfer });
  await zone.dispatchEvent('dragover', { dataTransfer: transfer });
  await zone.dispatchEvent('drop', { dataTransfer: transfer });
  await dialog().getByText('dropped.csv').waitFor();
  await dialog().getByRole('button', { name: 'Import 6 values of 3 animals' }).click();
  await page.getByText(/^Imported dropped\.csv/).waitFor();

  await more('Export');
  await page.getByRole('radio', { name: /Tidy table/ }).check();
  const waiting = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the file' }).click();
  const download = await waiting;
  expect(download.suggestedFilename()).toBe('an invented hill smallholding 2026-08-09 tidy.csv');
  const { text, table } = await opened(download);
  expect(text.startsWith('\ufeff')).toBe(true);
  expect(text).toContain('\r\n');
  // 22 eggs at the template's factor of 50: (28 + 2) ÷ (2 × 0.15 × 2).
  expect(cell(table, 'W-101', 'epg')).toBe(String(22 * 50));
  expect(cell(table, 'W-101', 'note')).toBe('=1+1, "x"');
  expect(cell(table, 'NEW-2', 'chamber1')).toBe('>40');
  expect(cell(table, 'NEW-2', 'epg')).toBe('');
  // One of two chambers, at least 41 eggs of one area: 4,100 epg, over 500.
  expect(cell(table, 'NEW-2', 'outcome')).toBe('over');
  expect(cell(table, 'G-013', 'outcome_why')).toContain('pale eyelids (4)');
  await page.locator('sd-export-dialog').getByRole('button', { name: 'Close' }).click();

  // Read back it says what the notebook says: nothing is left to do.
  await more('Import');
  await choose('tidy.csv', Buffer.from(text, 'utf8'));
  await dialog().getByText('6 are there already').waitFor();
  await dialog().locator('button.main').click();
  await dialog()
    .getByText('There is nothing in this list that the notebook has not already.')
    .waitFor();
  await dialog().getByRole('button', { name: 'Close' }).click();
});

it('saves two files for the vet: the list, and its method with the cautions', async () => {
  await more('Export');
  await page.getByRole('radio', { name: /For the vet/ }).check();
  await page.getByLabel('Numbers and fields').selectOption('semicolon');
  await page.getByRole('button', { name: 'The whole season' }).click();
  const downloads: Download[] = [];
  page.on('download', (download) => downloads.push(download));
  await page.getByRole('button', { name: 'Save two files' }).click();
  await page.getByText(/^Saved:/).waitFor();
  await expect.poll(() => downloads.length).toBe(2);
  const names = downloads.map((download) => download.suggestedFilename());
  expect(names).toEqual([
    'an invented hill smallholding 2026-05-10 to 2026-08-09 for the vet.csv',
    'an invented hill smallholding 2026-05-10 to 2026-08-09 for the vet, method and cautions.csv',
  ]);
  const [list, method] = await Promise.all(downloads.map(opened));
  expect(list?.table.separator).toBe(';');
  expect(list?.table.headers).toContain('2026-08-09: strongyle-type eggs per gram (epg)');
  expect(cell(list!.table, 'W-101', '2026-08-09: strongyle-type eggs per gram (epg)')).toBe('1100');
  expect(method?.text).toContain('multiplication factor;(28 mL + 2 g) ÷ (2 g × 0,15 mL × 2) = 50');
  expect(method?.text).toContain('caution;');
});

it('did all of it without an error, and asked nothing of another address', () => {
  expect(open.errors).toEqual([]);
  expect(open.elsewhere).toEqual([]);
});
