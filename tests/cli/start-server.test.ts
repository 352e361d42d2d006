import { createServer } from 'node:http';
import type { Server } from 'node:http';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { connect, createServer as createTcpServer } from 'node:net';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Started } from '../../src/cli/start-server.ts';
import { startServer } from '../../src/cli/start-server.ts';

const top = mkdtempSync(join(tmpdir(), 'daybook-serve-'));
const folder = join(top, 'dist');
const toClose: Server[] = [];

beforeAll(() => {
  mkdirSync(join(folder, 'assets'), { recursive: true });
  writeFileSync(join(folder, 'index.html'), '<title>page</title>');
  writeFileSync(join(folder, 'service-worker.js'), 'self;');
  writeFileSync(join(folder, 'manifest.webmanifest'), '{}');
  writeFileSync(join(folder, 'assets/page-1a2b.js'), 'export {};');
  writeFileSync(join(top, 'secret.txt'), 'not for the page');
  symlinkSync(join(top, 'secret.txt'), join(folder, 'link.txt'));
});
afterEach(() => {
  for (const server of toClose.splice(0)) {
    server.close();
    server.closeAllConnections();
  }
});
afterAll(() => rmSync(top, { recursive: true, force: true }));

/** Two neighbouring ports that nobody holds, so that a test never meets a real server. */
async function freePort(): Promise<number> {
  for (;;) {
    const probes = [createTcpServer(), createTcpServer()];
    try {
      const port = await new Promise<number>((resolve) => {
        probes[0]?.listen(0, '127.0.0.1', () => {
          resolve((probes[0]?.address() as AddressInfo).port);
        });
      });
      await new Promise<void>((resolve, reject) => {
        probes[1]?.once('error', reject).listen(port + 1, '127.0.0.1', resolve);
      });
      return port;
    } catch {
      // The neighbour was taken: try another pair.
    } finally {
      await Promise.all(
        probes.map((probe) => new Promise((resolve) => probe.close(() => resolve(undefined)))),
      );
    }
  }
}

async function start(
  usualPort: number,
  build = (): Promise<boolean> => Promise.resolve(true),
): Promise<{ started: Started; said: string[]; builds: number }> {
  const said: string[] = [];
  let builds = 0;
  const started = await startServer({
    usualPort,
    portsTried: 2,
    everywhere: false,
    folder,
    version: '9.8.7',
    build: () => {
      builds += 1;
      return build();
    },
    say: (sentence) => said.push(sentence),
  });
  if (started.outcome === 'started') toClose.push(...started.servers);
  return { started, said, builds };
}

async function foreignServer(port: number, host: string): Promise<void> {
  const server = createServer((_request, response) => response.end('something else'));
  await new Promise<void>((resolve) => server.listen(port, host, resolve));
  toClose.push(server);
}

/** Sends a path exactly as written; `fetch` would tidy `..` away before it is sent. */
function rawGet(port: number, path: string): Promise<string> {
  return new Promise((resolve, reject) => {
    let text = '';
    const socket = connect(port, '127.0.0.1', () => {
      socket.write(`GET ${path} HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n`);
    });
    socket.on('data', (chunk) => (text += chunk.toString()));
    socket.on('end', () => resolve(text));
    socket.on('error', reject);
  });
}

describe('starting', () => {
  it('builds, listens, and says the address', async () => {
    const port = await freePort();
    const { started, said, builds } = await start(port);
    expect(started).toMatchObject({ outcome: 'started', port });
    expect(builds).toBe(1);
    expect(said).toContain(`Sampling Daybook is at http://localhost:${port}`);
    expect(said.join()).not.toContain('not visible');
    expect(await (await fetch(`http://127.0.0.1:${port}/`)).text()).toBe('<title>page</title>');
    expect(await (await fetch(`http://localhost:${port}/served.json`)).json()).toEqual({
      program: 'sampling-daybook',
      version: '9.8.7',
      usualAddress: 'http://localhost:5180',
      usualPortTaken: false,
    });
  });

  it('gives the link of a server of ours that already answers, and builds nothing', async () => {
    const port = await freePort();
    await start(port);
    const { started, said, builds } = await start(port);
    expect(started).toEqual({ outcome: 'running', port });
    expect(builds).toBe(0);
    expect(said).toContain(`Sampling Daybook is at http://localhost:${port}`);
  });

  it('takes the next port from another program, and says what is not visible there', async () => {
    const port = await freePort();
    await foreignServer(port, '127.0.0.1');
    const { started, said } = await start(port);
    expect(started).toMatchObject({ outcome: 'started', port: port + 1 });
    expect(said.join(' ')).toContain(
      `notebooks kept at http://localhost:${port} are not visible here`,
    );
    const served: unknown = await (await fetch(`http://127.0.0.1:${port + 1}/served.json`)).json();
    expect(served).toMatchObject({ usualPortTaken: true });
  });

  it('returns to its own server at the next port rather than opening a third place', async () => {
    const port = await freePort();
    await foreignServer(port, '127.0.0.1');
    await start(port);
    const again = await start(port);
    expect(again.started).toEqual({ outcome: 'running', port: port + 1 });
    expect(again.said.join(' ')).toContain('not visible here');
  });

  it('says so when every port is held', async () => {
    const port = await freePort();
    await foreignServer(port, '127.0.0.1');
    await foreignServer(port + 1, '127.0.0.1');
    const { started, said } = await start(port);
    expect(started).toEqual({ outcome: 'failed' });
    expect(said.join(' ')).toContain('Stop one of them and start again');
  });

  it('serves nothing if the page could not be built', async () => {
    const port = await freePort();
    const { started, said } = await start(port, () => Promise.resolve(false));
    expect(started).toEqual({ outcome: 'failed' });
    expect(said.join(' ')).toContain('could not be built');
    await expect(fetch(`http://127.0.0.1:${port}/`)).rejects.toThrow();
  });
});

describe('the files', () => {
  async function served(): Promise<number> {
    const port = await freePort();
    await start(port);
    return port;
  }

  it.each([
    ['/', 'text/html; charset=utf-8', 'no-store'],
    ['/any/place/in/the/page', 'text/html; charset=utf-8', 'no-store'],
    ['/service-worker.js', 'text/javascript; charset=utf-8', 'no-store'],
    ['/manifest.webmanifest', 'application/manifest+json; charset=utf-8', 'no-store'],
    [
      '/assets/page-1a2b.js',
      'text/javascript; charset=utf-8',
      'public, max-age=31536000, immutable',
    ],
  ])('%s is %s, kept as %s', async (path, type, keep) => {
    const response = await fetch(`http://127.0.0.1:${await served()}${path}`);
    expect(response.status).toBe(200);
    expect(response.headers.get('content-type')).toBe(type);
    expect(response.headers.get('cache-control')).toBe(keep);
    expect(response.headers.get('x-content-type-options')).toBe('nosniff');
  });

  it.each([
    '/../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/..%5csecret.txt',
    '/assets/../../secret.txt',
    '/link.txt',
    '/secret.txt',
    '/%00.txt',
    '/%zz.txt',
  ])('%s never leaves the folder', async (path) => {
    const answer = await rawGet(await served(), path);
    expect(answer).toMatch(/^HTTP\/1\.1 40[04] /);
    expect(answer).not.toContain('not for the page');
  });

  it('a file that is not there is not the page', async () => {
    const response = await fetch(`http://127.0.0.1:${await served()}/assets/old-9f9f.js`);
    expect(response.status).toBe(404);
  });

  it('only reads', async () => {
    const port = await served();
    const head = await fetch(`http://127.0.0.1:${port}/`, { method: 'HEAD' });
    expect(head.headers.get('content-length')).toBe('19');
    expect(await head.text()).toBe('');
    const post = await fetch(`http://127.0.0.1:${port}/`, { method: 'POST', body: 'x' });
    expect(post.status).toBe(405);
  });
});
