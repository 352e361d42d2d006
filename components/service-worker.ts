import type { OfflineMessage } from '../shared/worker-messages.ts';

/**
 * Keeps every built file, so that after one visit the page opens without the network. The build puts
 * `self.DAYBOOK_BUILD` in front of this file.
 *
 * A newer version never takes over by itself, not even when every tab is closed and the page is opened again: each
 * version has a cache of its own, a mark says which one is in use, and only a person's "take newest" moves the
 * mark. That is why this worker need not wait: a newer worker serves the version in use like the former one did.
 */

interface Build {
  readonly version: string;
  /** Paths of the built files below the worker's own folder. */
  readonly files: readonly string[];
}

interface Waiting extends Event {
  waitUntil(work: Promise<unknown>): void;
}

interface Fetching extends Waiting {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}

interface Page {
  postMessage(message: OfflineMessage): void;
}

interface Told extends Waiting {
  readonly data: OfflineMessage;
  readonly source: Page | null;
}

/** What of the worker's surroundings is used here; the page's own types do not know them. */
interface Surroundings {
  readonly DAYBOOK_BUILD: Build;
  readonly registration: { readonly scope: string };
  readonly clients: {
    claim(): Promise<void>;
    matchAll(which: { includeUncontrolled: boolean }): Promise<readonly Page[]>;
  };
  skipWaiting(): Promise<void>;
  addEventListener(type: 'install' | 'activate', listener: (event: Waiting) => void): void;
  addEventListener(type: 'fetch', listener: (event: Fetching) => void): void;
  addEventListener(type: 'message', listener: (event: Told) => void): void;
}

const worker = self as unknown as Surroundings;
const build = worker.DAYBOOK_BUILD;
/** The folder the page is served from, ending with a slash: there may be others at the same address. */
const home = worker.registration.scope;
const prefix = `sampling-daybook ${home} `;
const marks = `${prefix}marks`;
type Mark = 'in use' | 'former';

const cacheOf = (version: string): string => `${prefix}version ${version}`;
const urlOf = (path: string): string => new URL(path, home).href;
const isNamedByContent = (path: string): boolean => path.startsWith('assets/');

async function readMark(mark: Mark): Promise<string | null> {
  const found = await (await caches.open(marks)).match(urlOf(`marks/${mark}`));
  return found ? found.text() : null;
}

async function writeMark(mark: Mark, version: string): Promise<void> {
  await (await caches.open(marks)).put(urlOf(`marks/${mark}`), new Response(version));
}

/** The version in use, remembered between requests. */
let held: Promise<string> | null = null;
function inUse(): Promise<string> {
  held ??= readMark('in use').then((version) => version ?? build.version);
  return held;
}

async function findIn(version: string, url: string): Promise<Response | undefined> {
  const name = cacheOf(version);
  if (!(await caches.has(name))) return undefined;
  return (await caches.open(name)).match(url, { ignoreVary: true });
}

async function versionsKept(): Promise<readonly string[]> {
  const start = cacheOf('');
  return (await caches.keys())
    .filter((name) => name.startsWith(start))
    .map((name) => name.slice(start.length));
}

/** A file whose name changes with its content is the same in whichever version it is found. */
async function findAnywhere(url: string): Promise<Response | undefined> {
  for (const version of await versionsKept()) {
    const found = await findIn(version, url);
    if (found) return found;
  }
  return undefined;
}

/** Some hosts answer `index.html` by sending on to its folder; a browser takes no such answer for a page. */
async function plain(response: Response): Promise<Response> {
  if (!response.redirected) return response;
  const { status, headers } = response;
  return new Response(await response.blob(), { status, headers });
}

async function fetchNew(url: string): Promise<Response> {
  const response = await fetch(url, { cache: 'reload', credentials: 'same-origin' });
  if (!response.ok) throw new Error(`${url} was answered with ${response.status}.`);
  return plain(response);
}

/** Fetches what this version has and no kept one has. The page itself is kept as the folder's own address. */
async function fill(): Promise<void> {
  const cache = await caches.open(cacheOf(build.version));
  const paths = build.files.map((path) => (path === 'index.html' ? '' : path));
  await Promise.all(
    paths.map(async (path) => {
      const url = urlOf(path);
      const kept = isNamedByContent(path) ? await findAnywhere(url) : undefined;
      await cache.put(url, kept ?? (await fetchNew(url)));
    }),
  );
  const page = await (await cache.match(home))?.text();
  const strange = [...(page ?? '').matchAll(/assets\/[\w.-]+/g)].find(
    ([path]) => !build.files.includes(path),
  );
  // The host was given a newer version meanwhile: the browser tries again with the newer worker.
  if (page === undefined || strange) {
    await caches.delete(cacheOf(build.version));
    throw new Error('The page and its files are not of one version.');
  }
}

/** Pages may still run the version before the one in use, and want its files. */
async function dropOld(): Promise<void> {
  const wanted = [build.version, await inUse(), await readMark('former')];
  for (const version of await versionsKept())
    if (!wanted.includes(version)) await caches.delete(cacheOf(version));
}

async function versions(): Promise<OfflineMessage> {
  return { kind: 'versions', inUse: await inUse(), newest: build.version };
}

async function tellPages(message: OfflineMessage): Promise<void> {
  const pages = await worker.clients.matchAll({ includeUncontrolled: true });
  for (const page of pages) page.postMessage(message);
}

async function takeOver(): Promise<void> {
  if ((await readMark('in use')) === null) await writeMark('in use', build.version);
  held = null;
  await dropOld();
  await worker.clients.claim();
  await tellPages(await versions());
}

async function takeNewest(): Promise<void> {
  const former = await inUse();
  if (former !== build.version) {
    await writeMark('former', former);
    await writeMark('in use', build.version);
    held = null;
  }
  await tellPages({ kind: 'taken', version: build.version });
}

async function answerPage(request: Request): Promise<Response> {
  return (
    (await findIn(await inUse(), home)) ?? (await findIn(build.version, home)) ?? fetch(request)
  );
}

async function answerFile(request: Request, path: string): Promise<Response> {
  const url = urlOf(path);
  const found = await findIn(await inUse(), url);
  if (found) return found;
  return (isNamedByContent(path) ? await findAnywhere(url) : undefined) ?? fetch(request);
}

worker.addEventListener('install', (event) => {
  event.waitUntil(fill().then(() => worker.skipWaiting()));
});

worker.addEventListener('activate', (event) => event.waitUntil(takeOver()));

worker.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || !`${origin}${pathname}`.startsWith(home)) return;
  const path = `${origin}${pathname}`.slice(home.length);
  if (path === '' || path === 'index.html') event.respondWith(answerPage(request));
  // Only the server itself can say who it is.
  else if (path !== 'served.json') event.respondWith(answerFile(request, path));
});

worker.addEventListener('message', (event) => {
  const { data, source } = event;
  if (data.kind === 'which version')
    event.waitUntil(versions().then((message) => source?.postMessage(message)));
  if (data.kind === 'take newest') event.waitUntil(takeNewest());
});
