import { execFile } from 'node:child_process';
import { copyFile, mkdir, mkdtemp } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs, promisify } from 'node:util';
import type { Browser, Page } from 'playwright-core';
import { createStaticServer } from '../../src/cli/static-server.ts';
import { launchBrowser } from '../browser.ts';

/**
 * Takes pictures of the built page for a person to look at: start page, an open notebook, its dialogs
 * and its print, at desktop and phone width, light and dark. `npm run pictures -- --folder DIR` says
 * where to (a new temporary folder unless given); `--built DIR` takes a page that is built already;
 * `--only page-desktop` takes those whose name begins so; `--keep` puts the page at a desk, light, beside
 * this file as `page.png`, the picture of the README.
 */
const root = fileURLToPath(new URL('../..', import.meta.url));

const { values: given } = parseArgs({
  options: {
    folder: { type: 'string' },
    built: { type: 'string' },
    only: { type: 'string', default: '' },
    keep: { type: 'boolean', default: false },
  },
});

interface Look {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly colorScheme: 'light' | 'dark';
  readonly isTouch: boolean;
}

const looks: readonly Look[] = [
  { name: 'desktop-light', width: 1280, height: 800, colorScheme: 'light', isTouch: false },
  { name: 'desktop-dark', width: 1280, height: 800, colorScheme: 'dark', isTouch: false },
  { name: 'phone-light', width: 390, height: 844, colorScheme: 'light', isTouch: true },
  { name: 'phone-dark', width: 390, height: 844, colorScheme: 'dark', isTouch: true },
];

type Scene = readonly [name: string, prepare: (page: Page) => Promise<void>, wholePage?: boolean];

async function fromMenu(page: Page, label: string): Promise<void> {
  const direct = page.getByRole('button', { name: label, exact: true });
  if (await direct.first().isVisible()) {
    await direct.first().click();
    return;
  }
  await page.getByRole('button', { name: 'More to do' }).click();
  await page.getByRole('menuitem', { name: label }).click();
}

async function settings(page: Page, tab: string): Promise<void> {
  await openDemo(page);
  await fromMenu(page, 'Settings');
  await page.getByRole('tab', { name: tab }).click();
}

async function openDemo(page: Page): Promise<void> {
  await page.goto(`${address}?demo`);
  await page.getByRole('heading', { level: 1 }).waitFor();
  await page.locator('sd-treatment-list').getByText('over your criteria').waitFor();
  await page.locator('sd-figures').getByText('counted').first().waitFor();
}

const scenes: readonly Scene[] = [
  [
    'start',
    async (page) => {
      await page.goto(address);
      await page.getByRole('heading', { name: 'Start a notebook' }).waitFor();
    },
  ],
  ['page', openDemo],
  ['whole-page', openDemo, true],
  [
    'animals',
    async (page) => {
      await openDemo(page);
      await fromMenu(page, 'Animals');
    },
  ],
  [
    'add-many',
    async (page) => {
      await openDemo(page);
      await fromMenu(page, 'Animals');
      await page.getByRole('tab', { name: 'Add many' }).click();
      await page
        .getByRole('textbox', { name: /Tags/ })
        .fill('tag\nK-201\tlambs\tlamb\nK-202\tlambs\tlamb\nW-101\nk-201\n9.82E+14\nK-203');
    },
  ],
  ['settings-counting', (page) => settings(page, 'How you count')],
  ['settings-limits', (page) => settings(page, 'Limits')],
  ['settings-criteria', (page) => settings(page, 'Criteria')],
  [
    'figure',
    async (page) => {
      await openDemo(page);
      await page.getByRole('button', { name: 'Add a figure' }).click();
      await page.getByRole('textbox', { name: 'Name', exact: true }).fill('top fifth');
      await page.getByLabel('Formula', { exact: true }).fill('EGGSHARE(herd.epg, 0.2)');
    },
  ],
  [
    'print',
    async (page) => {
      await openDemo(page);
      await page.emulateMedia({ media: 'print' });
    },
    true,
  ],
];

async function buildPage(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'daybook-built-'));
  await promisify(execFile)(
    process.execPath,
    ['node_modules/vite/bin/vite.js', 'build', '--outDir', folder, '--logLevel', 'warn'],
    { cwd: root },
  );
  return folder;
}

async function take(browser: Browser, folder: string): Promise<void> {
  for (const look of looks) {
    const { width, height, colorScheme, isTouch } = look;
    for (const [scene, prepare, wholePage] of scenes) {
      const name = `${scene}-${look.name}`;
      if (!name.startsWith(given.only)) continue;
      const context = await browser.newContext({
        viewport: { width, height },
        colorScheme,
        hasTouch: isTouch,
        isMobile: isTouch,
      });
      const page = await context.newPage();
      page.on('console', (message) => {
        if (message.type() === 'error') console.error(`${name}: ${message.text()}`);
      });
      page.on('pageerror', (error) => console.error(`${name}: ${error.message}`));
      try {
        await prepare(page);
        await page.waitForTimeout(300);
      } catch (error) {
        console.error(`${name}: ${error instanceof Error ? error.message : String(error)}`);
      }
      if (scene === 'print' && !isTouch)
        await page.pdf({ path: join(folder, `${name}.pdf`), format: 'A4' });
      await page.screenshot({ path: join(folder, `${name}.png`), fullPage: wholePage === true });
      await context.close();
    }
  }
}

const built = given.built ? resolve(given.built) : await buildPage();
const folder = given.folder
  ? resolve(given.folder)
  : await mkdtemp(join(tmpdir(), 'daybook-pictures-'));
await mkdir(folder, { recursive: true });
const server = createStaticServer({ folder: built, version: 'pictures', usualPortTaken: false });
await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
const address = `http://localhost:${(server.address() as AddressInfo).port}/`;
const browser = await launchBrowser();
try {
  await take(browser, folder);
} finally {
  await browser.close();
  server.close();
  server.closeAllConnections();
}
if (given.keep)
  await copyFile(join(folder, 'page-desktop-light.png'), join(root, 'tests/pictures/page.png'));
console.log(folder);
