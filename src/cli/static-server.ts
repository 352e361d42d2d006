import { createReadStream } from 'node:fs';
import { realpath, stat } from 'node:fs/promises';
import type { IncomingMessage, Server, ServerResponse } from 'node:http';
import { createServer } from 'node:http';
import { extname, join, sep } from 'node:path';
import { pipeline } from 'node:stream';
import type { Served } from '../../shared/served.ts';
import { USUAL_ADDRESS } from '../../shared/served.ts';

/** Every answer bears this header, its value the version: so a second start knows the first. */
export const SERVER_HEADER = 'x-sampling-daybook';

const MIME: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.txt': 'text/plain; charset=utf-8',
  '.csv': 'text/csv; charset=utf-8',
};

/** What {@link createStaticServer} serves, and what it tells the page about itself. */
export interface ServerOptions {
  /** The folder with the built page. Nothing outside it is ever sent. */
  readonly folder: string;
  readonly version: string;
  readonly usualPortTaken: boolean;
}

function sentence(response: ServerResponse, status: number, text: string): void {
  response.writeHead(status, { 'content-type': 'text/plain; charset=utf-8' }).end(`${text}\n`);
}

/** The file a path names, or undefined if there is none inside the folder. */
async function findFile(folder: string, path: string): Promise<string | undefined> {
  try {
    const file = await realpath(join(folder, path));
    const inside = file.startsWith((await realpath(folder)) + sep);
    return inside && (await stat(file)).isFile() ? file : undefined;
  } catch {
    return undefined;
  }
}

/** The path asked for, decoded; undefined if it is not a path a page of ours would ever ask for. */
function readPath(url: string): string | undefined {
  try {
    const path = decodeURIComponent(new URL(url, 'http://localhost').pathname);
    return /[\0\\]/.test(path) || path.split('/').includes('..') ? undefined : path;
  } catch {
    return undefined;
  }
}

async function answer(
  options: ServerOptions,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  response.setHeader(SERVER_HEADER, options.version);
  response.setHeader('x-content-type-options', 'nosniff');
  response.setHeader('x-frame-options', 'DENY');
  response.setHeader('referrer-policy', 'no-referrer');
  // A name under assets/ changes with its content; everything else (the page, the offline worker)
  // must be asked for anew, or an update would never arrive.
  response.setHeader('cache-control', 'no-store');
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.setHeader('allow', 'GET, HEAD');
    sentence(response, 405, 'This address can only be read.');
    return;
  }
  const path = readPath(request.url ?? '/');
  if (path === undefined) {
    sentence(response, 400, 'This is not the address of a file.');
    return;
  }
  if (path === '/served.json') {
    const served: Served = {
      program: 'sampling-daybook',
      version: options.version,
      usualAddress: USUAL_ADDRESS,
      usualPortTaken: options.usualPortTaken,
    };
    response.writeHead(200, { 'content-type': MIME['.json'] }).end(JSON.stringify(served));
    return;
  }
  const isPage = extname(path) === '';
  const file = await findFile(options.folder, isPage ? 'index.html' : path);
  if (file === undefined) {
    const advice = isPage ? ' Run "npm run build" first.' : '';
    sentence(response, 404, `There is no such file here.${advice}`);
    return;
  }
  if (path.startsWith('/assets/') && !isPage) {
    response.setHeader('cache-control', 'public, max-age=31536000, immutable');
  }
  response.writeHead(200, {
    'content-type': MIME[extname(file).toLowerCase()] ?? 'application/octet-stream',
    'content-length': (await stat(file)).size,
  });
  if (request.method === 'HEAD') {
    response.end();
    return;
  }
  pipeline(createReadStream(file), response, () => {
    // A reader who leaves half-way is no fault of ours; the stream has been closed either way.
  });
}

/**
 * A server for the built page alone, not yet listening. Any address without a file extension is the
 * page; `served.json` says which server this is (see {@link Served}).
 */
export function createStaticServer(options: ServerOptions): Server {
  return createServer((request, response) => {
    answer(options, request, response).catch(() => {
      if (!response.headersSent) sentence(response, 500, 'The file could not be read.');
      else response.destroy();
    });
  });
}
