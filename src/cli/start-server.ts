import type { Server } from 'node:http';
import { networkInterfaces } from 'node:os';
import type { ServerOptions } from './static-server.ts';
import { createStaticServer } from './static-server.ts';
import { openPort, whoHolds } from './ports.ts';

/** What a start needs: where, what, and whom to tell. */
export interface StartOptions {
  /** The port at which a person's notebooks are kept. */
  readonly usualPort: number;
  /** How many ports, the usual one included, are tried before giving up. */
  readonly portsTried: number;
  /** Whether other machines of the local network may read the page too. */
  readonly everywhere: boolean;
  readonly folder: string;
  readonly version: string;
  /** Builds the page into the folder; called at most once, and only if a server will be started. */
  readonly build: () => Promise<boolean>;
  readonly say: (sentence: string) => void;
}

/**
 * - `started`: these servers listen until somebody closes them.
 * - `running`: a server of ours answers there already; nothing was built or started.
 * - `failed`: neither; the reason has been said.
 */
export type Started =
  | { readonly outcome: 'started'; readonly port: number; readonly servers: readonly Server[] }
  | { readonly outcome: 'running'; readonly port: number }
  | { readonly outcome: 'failed' };

function sayWhere(port: number, { usualPort, say }: StartOptions): void {
  if (port !== usualPort) {
    say(
      `Another program holds port ${usualPort}, so this is not the usual address: notebooks kept ` +
        `at http://localhost:${usualPort} are not visible here. ` +
        'To see them, stop that program and start again.',
    );
  }
  say(`Sampling Daybook is at http://localhost:${port}`);
}

function sayNetworkAddresses(port: number, say: StartOptions['say']): void {
  const addresses = Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter((address) => address.family === 'IPv4' && !address.internal);
  for (const { address } of addresses) {
    say(
      `On the same network: http://${address}:${port} ` +
        '(a browser keeps the notebooks of that address apart, and not for use offline).',
    );
  }
  if (addresses.length === 0) say('This machine has no address on a local network.');
}

/**
 * Serves the page at the usual port; or, if a server of ours already answers there, says so; or, if
 * another program holds it, does the same for the next port, and says what that means. A browser
 * keeps notebooks by address, so the usual port is never given up without a word.
 */
export async function startServer(options: StartOptions): Promise<Started> {
  const { usualPort, portsTried, say } = options;
  let built = false;
  for (let port = usualPort; port < usualPort + portsTried; port += 1) {
    const holder = await whoHolds(port);
    if (holder === 'other') continue;
    if (holder === 'ours') {
      sayWhere(port, options);
      say('It was running there already, so nothing was built or started.');
      return { outcome: 'running', port };
    }
    if (!built) {
      say('Building the page…');
      if (!(await options.build())) {
        say('The page could not be built. The lines above say which file is at fault.');
        return { outcome: 'failed' };
      }
      built = true;
    }
    const served: ServerOptions = {
      folder: options.folder,
      version: options.version,
      usualPortTaken: port !== usualPort,
    };
    const servers = await openPort(() => createStaticServer(served), port, options.everywhere);
    if (servers === undefined) {
      // Taken while the page was being built: if by a second start of ours, that one serves.
      if ((await whoHolds(port)) === 'ours') {
        sayWhere(port, options);
        return { outcome: 'running', port };
      }
      continue;
    }
    sayWhere(port, options);
    if (options.everywhere) sayNetworkAddresses(port, say);
    return { outcome: 'started', port, servers };
  }
  say(
    `Other programs hold all the ports from ${usualPort} to ${usualPort + portsTried - 1}. ` +
      'Stop one of them and start again.',
  );
  return { outcome: 'failed' };
}
