import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, inject, it, vi } from 'vitest';
import { goThrough, thingsThatRun } from './go-through.ts';
import type { OpenPage } from './open-page.ts';
import { openPage } from './open-page.ts';
import { noteRefusals, refusals } from './refusals.ts';

/** The policy in the page, directive by directive. */
async function policy(): Promise<ReadonlyMap<string, readonly string[]>> {
  const html = await readFile(join(inject('builtFolder'), 'index.html'), 'utf8');
  const content = /http-equiv="Content-Security-Policy"\s+content="([^"]+)"/.exec(html)?.[1] ?? '';
  const parts = content.split(';').map((part) => part.trim().split(/\s+/));
  return new Map(parts.map(([name = '', ...sources]) => [name, sources]));
}

/** Everything is opened, one after the other. */
vi.setConfig({ testTimeout: 180_000 });

describe('the content policy of the built page', () => {
  it('lets nothing in but the page’s own files: no inline script, no eval, no other address', async () => {
    const directives = await policy();
    expect(directives.get('default-src')).toEqual(["'none'"]);
    expect(directives.get('script-src')).toEqual(["'self'"]);
    expect(directives.get('connect-src')).toEqual(["'self'"]);
    expect(directives.get('worker-src')).toEqual(["'self'"]);
    expect(directives.get('base-uri')).toEqual(["'none'"]);
    expect(directives.get('form-action')).toEqual(["'none'"]);
    const sources = [...directives.values()].flat();
    expect(sources.filter((source) => /unsafe|https?:|\*/.test(source))).toEqual([]);
  });

  it('comes before anything it governs, and the page has no script, style or handler of its own in it', async () => {
    const html = await readFile(join(inject('builtFolder'), 'index.html'), 'utf8');
    expect(html.indexOf('Content-Security-Policy')).toBeLessThan(html.search(/<script|<link/));
    expect(html).not.toMatch(/<style|\son\w+=|\sstyle=/);
    for (const [, inside] of html.matchAll(/<script[^>]*>([^]*?)<\/script>/g))
      expect(inside).toBe('');
  });
});

describe('a run through the whole app', () => {
  let open: OpenPage;
  let asked: string[];

  beforeAll(async () => {
    open = await openPage({ viewport: { width: 1280, height: 900 } });
    await noteRefusals(open.context);
    asked = [];
    open.context.on('request', (request) => asked.push(request.url()));
    open.context.on('page', (page) => page.on('websocket', (socket) => asked.push(socket.url())));
  });
  afterAll(() => open.close());

  it('asks nothing of any other address, and never runs against the policy', async () => {
    const { page, address, errors, elsewhere } = open;
    await page.goto(address);
    await page.getByRole('heading', { name: 'Start a notebook' }).waitFor();
    await page.getByRole('button', { name: 'Open the demo' }).click();
    await goThrough(page);
    const plan = page.locator('sd-plan-check');
    await plan.getByLabel('Numbers of animals to try').fill('8, 12');
    await plan.getByRole('button', { name: 'Try it out' }).click();
    await plan.locator('svg[role="img"]').waitFor();
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'More to do' }).click();
    await page.getByRole('menuitem', { name: 'Save to a file' }).click();
    expect((await download).suggestedFilename()).toMatch(/\.json$/);
    await page.emulateMedia({ media: 'print' });
    await page.emulateMedia({ media: 'screen' });
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.reload();
    await goThrough(page);

    expect(await refusals(page)).toEqual([]);
    expect(await thingsThatRun(page)).toEqual([]);
    expect(errors).toEqual([]);
    expect(elsewhere).toEqual([]);
    const own = (url: string): boolean =>
      url.startsWith(address) || url.startsWith(`blob:${address}`) || url.startsWith('data:');
    expect(asked.length).toBeGreaterThan(30);
    expect(asked.filter((url) => !own(url))).toEqual([]);
  });

  it('and these checks would have seen it: a script, a style, a word run as code, another address', async () => {
    const { page } = open;
    await page.evaluate(async () => {
      const script = document.createElement('script');
      script.textContent = 'window.ran = true';
      document.body.append(script);
      const image = document.createElement('img');
      image.setAttribute('onerror', 'window.ran = true');
      image.src = './no-such.png';
      document.body.append(image);
      document.body.setAttribute('style', 'color: red');
      await fetch('https://elsewhere.example/').catch(() => undefined);
    });
    await expect.poll(async () => (await refusals(page)).join('\n')).toMatch(/style-src/);
    const all = (await refusals(page)).join('\n');
    expect(all).toMatch(/script-src/);
    expect(all).toMatch(/connect-src: https:\/\/elsewhere.example/);
    expect(await page.evaluate(() => 'ran' in window)).toBe(false);
    expect((await thingsThatRun(page)).length).toBeGreaterThan(1);
  });
});
