import type { Server } from 'node:http';
import { get } from 'node:http';
import { SERVER_HEADER } from './static-server.ts';

/** `localhost` may mean either of these, and a browser tries both. */
const LOOPBACK = ['127.0.0.1', '::1'];

/** Who answers at a port of this machine: nobody, a server of ours, or something else. */
export type Holder = 'nobody' | 'ours' | 'other';

function whoAnswersAt(host: string, port: number, waitMs: number): Promise<Holder> {
  return new Promise((resolve) => {
    const request = get({ host, port, path: '/served.json', timeout: waitMs }, (response) => {
      response.resume();
      resolve(response.headers[SERVER_HEADER] === undefined ? 'other' : 'ours');
    });
    request.on('timeout', () => {
      // Something took the connection and says nothing: the port is held all the same.
      resolve('other');
      request.destroy();
    });
    request.on('error', (error: NodeJS.ErrnoException) => {
      const empty = ['ECONNREFUSED', 'EADDRNOTAVAIL', 'EAFNOSUPPORT', 'ENETUNREACH'];
      resolve(error.code !== undefined && empty.includes(error.code) ? 'nobody' : 'other');
    });
  });
}

/** Asks both loopback addresses; a program at either of them that is not ours holds the port. */
export async function whoHolds(port: number, waitMs = 1500): Promise<Holder> {
  const answers = await Promise.all(LOOPBACK.map((host) => whoAnswersAt(host, port, waitMs)));
  if (answers.includes('other')) return 'other';
  return answers.includes('ours') ? 'ours' : 'nobody';
}

function listen(server: Server, port: number, host: string): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ port, host, ipv6Only: host === '::1' }, () => {
      server.off('error', reject);
      resolve();
    });
  });
}

function codeOf(error: unknown): string | undefined {
  return error instanceof Error && 'code' in error ? String(error.code) : undefined;
}

/**
 * Listens on a port of this machine alone, under both meanings of `localhost`, or, if `everywhere`,
 * on every address it has.
 *
 * @param create makes one server for each address listened on.
 * @returns the servers, or undefined if the port was taken after all.
 * @throws whatever else kept the port from being opened.
 */
export async function openPort(
  create: () => Server,
  port: number,
  everywhere: boolean,
): Promise<Server[] | undefined> {
  const open: Server[] = [];
  for (const host of everywhere ? ['::', '0.0.0.0'] : LOOPBACK) {
    const server = create();
    try {
      await listen(server, port, host);
      open.push(server);
      // "::" takes the older addresses too, wherever a machine has both kinds.
      if (host === '::') break;
    } catch (error) {
      const code = codeOf(error);
      // A machine without the newer (or the older) kind of address has no such host to listen on.
      if (code === 'EADDRNOTAVAIL' || code === 'EAFNOSUPPORT') continue;
      for (const earlier of open) earlier.close();
      if (code === 'EADDRINUSE') return undefined;
      throw error;
    }
  }
  return open.length > 0 ? open : undefined;
}
