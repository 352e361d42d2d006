import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { OpenPage } from './open-page.ts';
import { focusedName } from './keyboard.ts';
import { openPage } from './open-page.ts';

let open: OpenPage;
let second: Page;

beforeAll(async () => {
  open = await openPage({ viewport: { width: 1280, height: 900 } });
  await openDemo(open.page);
  second = await open.context.newPage();
  await openDemo(second);
});
afterAll(() => open.close());

async function openDemo(page: Page): Promise<void> {
  await page.goto(`${open.address}?demo`);
  await page.getByRole('grid').waitFor();
}

function line(page: Page, tag: string): Locator {
  const head = page.getByRole('rowheader', { name: tag });
  return page.getByRole('grid').getByRole('row').filter({ has: head });
}

async function typeInFirstChamber(
  page: Page,
  tag: string,
  eggs: string,
  then: string | null = 'Enter',
): Promise<void> {
  const head = page.getByRole('columnheader', { name: /^chamber 1/ }).last();
  const column = await head.getAttribute('aria-colindex');
  await line(page, tag).locator(`[aria-colindex="${column}"]`).click();
  await page.keyboard.type(eggs);
  if (then !== null) await page.keyboard.press(then);
}

describe('one notebook in two tabs', () => {
  it('is written in the first and followed live in the second, which says so', async () => {
    await second.getByText('Another tab writes this notebook.').waitFor();
    await typeInFirstChamber(open.page, 'W-102', '321');
    await line(open.page, 'W-102').getByText('321', { exact: true }).waitFor();
    await line(second, 'W-102').getByText('321', { exact: true }).waitFor();
  });

  it('takes nothing typed in the tab that follows, and says what to do', async () => {
    await typeInFirstChamber(second, 'W-103', '654');
    await second.getByText('take over at the top of the page').waitFor();
    expect(await line(second, 'W-103').getByText('654', { exact: true }).count()).toBe(0);
  });

  it('changes hands when the second tab asks for it, with every count', async () => {
    await typeInFirstChamber(open.page, 'W-105', '77', null);
    await second.getByRole('button', { name: 'Write in this tab' }).click();
    await open.page.getByText('Another tab writes this notebook.').waitFor();
    await second.getByText('What is typed there shows here').waitFor({ state: 'detached' });
    await expect.poll(() => focusedName(second)).toMatch(/^Nettlewick Top/);
    // What was being typed here stays with its animal, and is kept nowhere else.
    await line(open.page, 'W-105').locator('[data-editing] input').waitFor();
    await open.page.keyboard.press('Enter');
    expect(await line(open.page, 'W-105').locator('input').inputValue()).toBe('77');
    await open.page.keyboard.press('Escape');
    await typeInFirstChamber(second, 'W-104', '987');
    await line(second, 'W-104').getByText('987', { exact: true }).waitFor();
    await line(open.page, 'W-104').getByText('987', { exact: true }).waitFor();
    await line(second, 'W-102').getByText('321', { exact: true }).waitFor();
  });

  it('drops nothing of a form that was open meanwhile, and says in it why nothing was kept', async () => {
    const { page } = open;
    await page.getByRole('button', { name: 'Write in this tab' }).click();
    await second.getByText('Another tab writes this notebook.').waitFor();
    await page.getByText('What is typed there shows here').waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Animals', exact: true }).click();
    const dialog = page.getByRole('dialog', { name: 'Animals' });
    await page.getByRole('tab', { name: 'Add many' }).click();
    const field = page.getByRole('textbox', { name: /^Tags/ });
    await field.fill('Z-1\nZ-2');
    await second.getByRole('button', { name: 'Write in this tab' }).click();
    await page.getByText('Another tab writes this notebook.').waitFor();
    await page.getByRole('button', { name: 'Add 2 animals' }).click();
    await dialog.getByRole('alert').getByText('Nothing was changed').waitFor();
    expect(await page.getByText('2 animals are added.').count()).toBe(0);
    expect(await field.inputValue()).toBe('Z-1\nZ-2');
    await dialog.getByRole('button', { name: 'Write in this tab' }).click();
    await dialog.getByText('Nothing was changed').waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Add 2 animals' }).click();
    await page.getByText('2 animals are added.').waitFor();
    await page.keyboard.press('Escape');
  });

  it('goes on in the first when the second is closed, and has kept both tabs’ counts', async () => {
    await second.close();
    await open.page.getByText('What is typed there shows here').waitFor({ state: 'detached' });
    await open.page.reload();
    await line(open.page, 'W-102').getByText('321', { exact: true }).waitFor();
    await line(open.page, 'W-104').getByText('987', { exact: true }).waitFor();
    expect(open.errors).toEqual([]);
  });
});
