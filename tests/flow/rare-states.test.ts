import type { Page } from 'playwright-core';
import { afterEach, expect, it } from 'vitest';
import { act, openDemo } from './every-state.ts';
import type { OpenPage } from './open-page.ts';
import { openPage } from './open-page.ts';
import { violations } from './violations.ts';

let open: OpenPage | undefined;
afterEach(() => open?.close());

async function begin(): Promise<OpenPage> {
  open = await openPage({ viewport: { width: 390, height: 844 }, hasTouch: true });
  return open;
}

/** No barrier by axe, in light and in dark. */
async function expectNoBarrier(page: Page): Promise<void> {
  expect(await violations(page)).toEqual([]);
  await page.emulateMedia({ colorScheme: 'dark' });
  expect(await violations(page, ['color-contrast'])).toEqual([]);
  await page.emulateMedia({ colorScheme: 'light' });
}

/** The demo's file, as a person saves it. */
async function savedFile(page: Page): Promise<string> {
  const waiting = page.waitForEvent('download');
  await act(page, 'Save to a file');
  return (await waiting).path();
}

it('axe finds no barrier in a second tab that only reads', async () => {
  const { page, context, address } = await begin();
  await openDemo(page, address);
  const second = await context.newPage();
  await openDemo(second, address);
  await second.getByText('Another tab writes this notebook.').waitFor();
  await expectNoBarrier(second);
});

it('axe finds no barrier where a file of a notebook that is here already is opened', async () => {
  const { page, address } = await begin();
  await openDemo(page, address);
  const path = await savedFile(page);
  await page.goto(address);
  await page.locator('input[type="file"]').first().setInputFiles(path);
  await page.getByRole('dialog', { name: 'This notebook is here already' }).waitFor();
  await expectNoBarrier(page);
});

it('axe finds no barrier where a second copy was chosen', async () => {
  const { page, address } = await begin();
  await openDemo(page, address);
  const path = await savedFile(page);
  await page.getByRole('button', { name: 'One animal' }).click();
  await page.locator('sd-card').getByLabel('chamber 1').fill('44');
  await page.keyboard.press('Enter');
  await act(page, 'Bring in a second copy');
  const dialog = page.locator('sd-merge-dialog');
  await dialog.locator('input[type="file"]').setInputFiles(path);
  await dialog
    .getByText(/The two copies agree|What .* brings/)
    .first()
    .waitFor();
  await expectNoBarrier(page);
});

it('axe finds no barrier where nothing can be kept', async () => {
  open = await openPage({ viewport: { width: 390, height: 844 } });
  const { page, address } = open;
  await page.addInitScript(() => {
    Object.defineProperty(window, 'indexedDB', { get: () => undefined });
  });
  await page.goto(address);
  await page.getByText('The browser does not let this page keep anything').first().waitFor();
  await expectNoBarrier(page);
});
