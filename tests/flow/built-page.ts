import { execFile } from 'node:child_process';
import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import type { TestProject } from 'vitest/node';
import { createStaticServer } from '../../src/cli/static-server.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** The address of the built page, ending with a slash. */
    pageAddress: string;
    /** The folder it was built into: for a host of a test's own. */
    builtFolder: string;
  }
}

const root = fileURLToPath(new URL('../..', import.meta.url));

/**
 * Serves the built page to the whole-app tests at a free port, with the very server of `npm start`.
 * Builds it first into a folder of its own, unless `DAYBOOK_BUILT` says which folder to serve.
 */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  let folder = process.env['DAYBOOK_BUILT'];
  let ownFolder: string | undefined;
  if (!folder) {
    const cache = join(root, 'node_modules/.cache');
    await mkdir(cache, { recursive: true });
    ownFolder = await mkdtemp(join(cache, 'built-page-'));
    folder = ownFolder;
    const env = { ...process.env, NODE_ENV: 'production' };
    // Without these the build would take itself for a part of the test run.
    for (const name of ['VITEST', 'VITE_USER_NODE_ENV']) Reflect.deleteProperty(env, name);
    await promisify(execFile)(
      process.execPath,
      ['node_modules/vite/bin/vite.js', 'build', '--outDir', folder, '--logLevel', 'warn'],
      { cwd: root, env },
    );
  }
  const server: Server = createStaticServer({ folder, version: 'test', usualPortTaken: false });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  project.provide('builtFolder', folder);
  project.provide('pageAddress', `http://localhost:${(server.address() as AddressInfo).port}/`);
  return async () => {
    server.close();
    server.closeAllConnections();
    if (ownFolder) await rm(ownFolder, { recursive: true, force: true });
  };
}
