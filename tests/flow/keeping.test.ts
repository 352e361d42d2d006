import type { Page } from 'playwright-core';
import { afterEach, describe, expect, it } from 'vitest';
import type { OpenPage } from './open-page.ts';
import { openPage } from './open-page.ts';

let open: OpenPage | undefined;

afterEach(async () => {
  await open?.close();
  open = undefined;
});

/** The page with something changed in it before its own code runs. */
async function openWith(script: string): Promise<Page> {
  open = await openPage({ viewport: { width: 1280, height: 900 } });
  await open.page.addInitScript({ content: script });
  await open.page.goto(`${open.address}?demo`);
  return open.page;
}

async function typeFirstCount(page: Page, text: string): Promise<void> {
  const grid = page.getByRole('grid');
  await grid.waitFor();
  const head = grid.getByRole('columnheader', { name: /chamber 1/i }).first();
  const index = await head.getAttribute('aria-colindex');
  const row = grid.getByRole('row').filter({ has: page.getByRole('rowheader', { name: 'W-101' }) });
  await row.locator(`[aria-colindex="${index}"]`).click();
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
  await row.getByText(text, { exact: true }).waitFor();
}

const banner = (page: Page) => page.locator('sd-banner').getByRole('status');

/** Replaces what is kept first under a key, as damage would, or a part of it, as a newer program. */
function overwrite(page: Page, start: readonly string[], part: string | null, by: string) {
  return page.evaluate(
    ([key, part, by]) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('sampling-daybook');
        opening.onsuccess = () => {
          const database = opening.result;
          const store = database.transaction('kept', 'readwrite').objectStore('kept');
          store.transaction.oncomplete = () => {
            database.close();
            resolve();
          };
          const at = store.openCursor(IDBKeyRange.bound([...key], [...key, []]));
          at.onsuccess = () => {
            const cursor = at.result;
            if (cursor) cursor.update(part === null ? by : String(cursor.value).replace(part, by));
            else reject(new Error('nothing is kept there'));
          };
        };
      }),
    [start, part, by] as const,
  );
}

describe('a browser that keeps nothing', () => {
  it('says within three seconds that its store does not answer, and lets typing go on', async () => {
    const page = await openWith('IDBFactory.prototype.open = () => new EventTarget();');
    await banner(page).getByText('does not answer').waitFor({ timeout: 20_000 });
    await typeFirstCount(page, '123');
    expect(await banner(page).innerText()).toContain('save the notebook to a file');
  });

  it('says that it is not allowed to keep anything', async () => {
    const page = await openWith(
      "IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError'); };",
    );
    await typeFirstCount(page, '123');
    await banner(page).getByText('does not let this page keep anything').waitFor();
  });

  it('says when there is no room left, and that all is saved once there is', async () => {
    const page = await openWith(`
      const { add } = IDBObjectStore.prototype;
      IDBObjectStore.prototype.add = function (...all) {
        if (window.isFull) throw new DOMException('full', 'QuotaExceededError');
        return add.apply(this, all);
      };`);
    await typeFirstCount(page, '121');
    await page.evaluate(() => Reflect.set(window, 'isFull', true));
    await typeFirstCount(page, '122');
    await banner(page).getByText('no room left').waitFor();
    await page.getByText('Not saved', { exact: true }).waitFor();
    await page.evaluate(() => Reflect.deleteProperty(window, 'isFull'));
    await typeFirstCount(page, '123');
    await page.getByText(/^Saved \d\d:\d\d$/).waitFor();
    await page.reload();
    await page.getByRole('row', { name: /W-101/ }).getByText('123', { exact: true }).waitFor();
    expect(await banner(page).innerText()).toBe('');
  });
});

describe('a store that was damaged, or written by a newer program', () => {
  it('opens what can be read, says what cannot, and offers it for download', async () => {
    const page = await openWith('');
    await typeFirstCount(page, '123');
    await page.getByText(/^Saved \d\d:\d\d$/).waitFor();
    await page.goto('about:blank');
    await page.goto(open?.address ?? '');
    await overwrite(page, ['day', 'demo-nettlewick-top', '2026-06-07'], null, '[["a-W-101",{"c-ch');
    await page.goto(`${open?.address}?demo`);
    await banner(page).getByText('readings › 2026-06-07').waitFor();
    await page.getByRole('row', { name: /W-101/ }).getByText('123', { exact: true }).waitFor();
    const download = page.waitForEvent('download');
    await banner(page)
      .getByRole('button', { name: /Download/ })
      .click();
    const stream = await (await download).createReadStream();
    const chunks: Buffer[] = [];
    for await (const chunk of stream) chunks.push(chunk as Buffer);
    expect(Buffer.concat(chunks).toString()).toContain('c-ch');
  });

  it('does not touch a notebook of a newer version, and says to update', async () => {
    const page = await openWith('');
    await page.getByRole('grid').waitFor();
    await page.goto(open?.address ?? '');
    await overwrite(page, ['snapshot', 'demo-nettlewick-top'], '"version":1', '"version":2');
    await page.goto(`${open?.address}?demo`);
    await page.getByText('written by a newer Sampling Daybook').first().waitFor();
  });
});
