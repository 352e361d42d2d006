import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { chromium } from 'playwright-core';
import {
  afterAll,
  afterEach,
  beforeAll,
  beforeEach,
  describe,
  expect,
  inject,
  it,
  vi,
} from 'vitest';
import type { OfflineMessage } from '../../shared/worker-messages.ts';
import { launchOptions } from '../browser.ts';
import { StaticHost } from './static-host.ts';
import { violations } from './violations.ts';

/** Each test is a visit or several, each with all files of the page fetched anew. */
vi.setConfig({ testTimeout: 120_000 });

/** A name in the local network, as a phone would use it: http at such a name is no secure context. */
const BARN = 'barn.example';

let browser: Browser;
let host: StaticHost;
let context: BrowserContext;
let page: Page;
let newer: string;

/** A copy of the built page that a browser must take for another version; `spoil` leaves it half put up. */
async function newerVersion(spoil: boolean): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'daybook-newer-'));
  await cp(inject('builtFolder'), folder, { recursive: true });
  const edit = async (file: string, from: RegExp, to: string): Promise<void> => {
    const text = await readFile(join(folder, file), 'utf8');
    expect(text).toMatch(from);
    await writeFile(join(folder, file), text.replace(from, to));
  };
  await edit('service-worker.js', /"version":"[0-9a-f]+"/, '"version":"newer"');
  await edit('index.html', /<meta name="referrer"/, '<meta name="newer" /><meta name="referrer"');
  if (spoil) await rm(join(folder, 'icon-512.png'));
  return folder;
}

async function openWhole(): Promise<void> {
  await page.goto(`${host.address}?demo`);
  await page.getByRole('grid').waitFor();
  await page.evaluate(async () => {
    const { serviceWorker } = navigator;
    await serviceWorker.ready;
    if (!serviceWorker.controller)
      await new Promise((done) => serviceWorker.addEventListener('controllerchange', done));
  });
}

/** Looks for a newer version, as a browser does now and then, and waits for what the worker tells of it. */
async function lookForNewer(on: Page): Promise<OfflineMessage | 'nothing newer'> {
  return on.evaluate(async () => {
    const { serviceWorker } = navigator;
    const told = new Promise<OfflineMessage>((done) =>
      serviceWorker.addEventListener('message', ({ data }: MessageEvent<OfflineMessage>) => {
        if (data.kind === 'versions' && data.inUse !== data.newest) done(data);
      }),
    );
    const registration = await serviceWorker.getRegistration();
    await registration?.update();
    const installing = registration?.installing;
    const failed = new Promise<'nothing newer'>((done) => {
      if (!installing) return;
      installing.addEventListener('statechange', () => {
        if (installing.state === 'redundant') done('nothing newer');
      });
    });
    return Promise.race([told, failed]);
  });
}

const row = (on: Page, tag: string) =>
  on.getByRole('row').filter({ has: on.getByRole('rowheader', { name: tag }) });

async function typeCount(count: string): Promise<void> {
  await row(page, 'W-101').getByRole('gridcell', { name: '1', exact: true }).first().click();
  await page.keyboard.type(count);
}

const isNewer = (on: Page) => on.locator('meta[name="newer"]').count();
const offer = (on: Page) => on.getByText('A newer version of this page is ready');

beforeAll(async () => {
  const options = await launchOptions();
  const args = [...(options.args ?? []), `--host-resolver-rules=MAP ${BARN} 127.0.0.1`];
  browser = await chromium.launch({ ...options, args });
});
afterAll(() => browser.close());

beforeEach(async () => {
  host = new StaticHost(inject('builtFolder'), '/sub/path/');
  await host.start();
  context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  page = await context.newPage();
  newer = '';
});
afterEach(async () => {
  await context.close();
  await host.stop();
  if (newer !== '') await rm(newer, { recursive: true, force: true });
});

describe('after one visit, below some path of a plain host, without the network', () => {
  it('the page opens again, with its counts and with parts never shown before', async () => {
    await openWhole();
    await typeCount('123');
    await page.keyboard.press('Enter');
    await page
      .locator('sd-page-header')
      .getByText(/^Saved \d/)
      .waitFor();
    await host.stop();

    await page.reload();
    await row(page, 'W-101').getByText('123', { exact: true }).waitFor();
    await page.getByRole('button', { name: 'Settings', exact: true }).click();
    await page.getByRole('dialog', { name: 'Settings' }).waitFor();

    const tab = await context.newPage();
    await tab.goto(host.address);
    await tab.getByText('Nettlewick Top').waitFor();
    await tab.goto(`${host.address}index.html`);
    await tab.getByRole('heading', { name: 'Start a notebook' }).waitFor();
  });

  it('also the demo, never opened before, and a plan tried out beside the page', async () => {
    await page.goto(host.address);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await host.stop();
    await page.goto(`${host.address}?demo`);
    await page.getByRole('grid').waitFor();
    const plan = page.locator('sd-plan-check');
    await plan.scrollIntoViewIfNeeded();
    await plan.getByLabel('Numbers of animals to try').fill('8');
    await plan.getByLabel('Areas counted for each').fill('1');
    await plan.getByRole('button', { name: 'Try it out' }).click();
    await plan.locator('svg[role="img"]').waitFor();
  });

  it('every built file is kept, and nothing outside the folder was asked for', async () => {
    await openWhole();
    const kept = await page.evaluate(async () => {
      const names = await caches.keys();
      const version = names.find((name) => name.includes(' version ')) ?? '';
      return (await (await caches.open(version)).keys()).map(({ url }) => url);
    });
    const worker = await readFile(join(inject('builtFolder'), 'service-worker.js'), 'utf8');
    const build = /^self\.DAYBOOK_BUILD=(\{.*?\});/.exec(worker)?.[1] ?? '';
    const { files } = JSON.parse(build) as { files: string[] };
    expect(files.length).toBeGreaterThan(20);
    expect(files).toContain('manifest.webmanifest');
    expect(files.some((file) => file.includes('plan.worker'))).toBe(true);
    const wanted = files.map((file) => host.address + (file === 'index.html' ? '' : file));
    expect(kept.sort()).toEqual(wanted.sort());
    expect(host.asked.length).toBeGreaterThan(files.length);
    expect(host.asked.filter((path) => !path.startsWith(host.path))).toEqual([]);
  });
});

describe('a newer version', () => {
  it('is offered, never taken by itself: not by reloading, nor by closing everything', async () => {
    await openWhole();
    newer = await newerVersion(false);
    host.folder = newer;
    expect(await lookForNewer(page)).toMatchObject({ kind: 'versions', newest: 'newer' });
    await offer(page).waitFor();
    expect(await violations(page)).toEqual([]);
    await page.reload();
    await page.getByRole('grid').waitFor();
    expect(await isNewer(page)).toBe(0);
    await offer(page).waitFor();

    await page.close();
    page = await context.newPage();
    await page.goto(`${host.address}?demo`);
    await page.getByRole('grid').waitFor();
    expect(await isNewer(page)).toBe(0);
    await offer(page).waitFor();
    await page.getByRole('button', { name: 'Later' }).click();
    await offer(page).waitFor({ state: 'detached' });
  });

  it('is taken when asked, in every tab at its own time, and then opens without the network', async () => {
    await openWhole();
    const other = await context.newPage();
    await other.goto(host.address);
    await other.getByText('Nettlewick Top').waitFor();
    newer = await newerVersion(false);
    host.folder = newer;
    await lookForNewer(page);
    await page.getByRole('button', { name: 'Load the newer version' }).click();
    await page.locator('meta[name="newer"]').waitFor({ state: 'attached' });
    await page.getByRole('grid').waitFor();
    expect(await offer(page).count()).toBe(0);

    await offer(other).waitFor();
    expect(await isNewer(other)).toBe(0);
    await other.getByRole('button', { name: 'Load the newer version' }).click();
    await other.locator('meta[name="newer"]').waitFor({ state: 'attached' });

    await host.stop();
    await page.reload();
    await page.getByRole('grid').waitFor();
    expect(await isNewer(page)).toBe(1);
  });

  it('is not offered while a cell is being edited, and what is typed stays', async () => {
    await openWhole();
    newer = await newerVersion(false);
    host.folder = newer;
    await typeCount('57');
    await lookForNewer(page);
    // The offer would come with the answer; two frames later it would stand there.
    await page.evaluate(
      () =>
        new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(null)))),
    );
    expect(await offer(page).count()).toBe(0);
    await page.keyboard.press('Enter');
    await offer(page).waitFor();
    await row(page, 'W-101').getByText('57', { exact: true }).waitFor();
  });

  it('that is put up only half is passed over; the page goes on as it was', async () => {
    await openWhole();
    newer = await newerVersion(true);
    host.folder = newer;
    expect(await lookForNewer(page)).toBe('nothing newer');
    await host.stop();
    await page.reload();
    await page.getByRole('grid').waitFor();
    expect(await isNewer(page)).toBe(0);
    expect(await offer(page).count()).toBe(0);
  });
});

describe('installing', () => {
  it('is possible: the browser finds nothing wrong with the manifest, and every icon has its size', async () => {
    await openWhole();
    const client = await context.newCDPSession(page);
    const { errors, url } = await client.send('Page.getAppManifest');
    expect(errors).toEqual([]);
    expect(url).toBe(`${host.address}manifest.webmanifest`);
    const { installabilityErrors } = await client.send('Page.getInstallabilityErrors');
    // A private window, which is what a test runs in, is never installed from.
    expect(
      installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito'),
    ).toEqual([]);
    const sizes = await page.evaluate(async (address) => {
      const manifest = (await (await fetch(address)).json()) as {
        icons: { src: string; sizes: string }[];
      };
      return Promise.all(
        manifest.icons
          .filter(({ sizes }) => sizes !== 'any')
          .map(async ({ src, sizes }) => {
            const bitmap = await createImageBitmap(await (await fetch(`./${src}`)).blob());
            return [sizes, `${bitmap.width}x${bitmap.height}`];
          }),
      );
    }, url);
    expect(sizes.length).toBe(3);
    for (const [said, is] of sizes) expect(is).toBe(said);
  });
});

describe('a plain http address in the local network', () => {
  it('says what is lost, and works', async () => {
    await page.goto(`${host.addressAs(BARN)}?demo`);
    await page
      .getByText(/came over a plain http address.*does not open without the network/)
      .waitFor();
    expect(await page.evaluate(() => window.isSecureContext)).toBe(false);
    await page.getByRole('grid').waitFor();
    await typeCount('123');
    await page.keyboard.press('Enter');
    await row(page, 'W-101').getByText('123', { exact: true }).waitFor();
    await page
      .locator('sd-page-header')
      .getByText(/^Saved \d/)
      .waitFor();
    await page.reload();
    await row(page, 'W-101').getByText('123', { exact: true }).waitFor();
  });
});
