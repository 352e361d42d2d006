import { spawn } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { chromium } from 'playwright-core';
import { launchOptions } from '../browser.ts';

/** A browser process of our own with a profile that outlives it, so that it can be killed and begun anew. */
export interface OwnBrowser {
  readonly page: Page;
  /** Ends the process at once, as a power cut does: no page hears of it. Once is enough. */
  kill(): Promise<void>;
}

/** A profile folder for `startOwnBrowser`; whoever makes it removes it. */
export async function makeProfile(): Promise<{ path: string; remove: () => Promise<void> }> {
  const path = await mkdtemp(join(tmpdir(), 'daybook-profile-'));
  const remove = (): Promise<void> => rm(path, { recursive: true, force: true, maxRetries: 5 });
  return { path, remove };
}

export async function startOwnBrowser(profile: string): Promise<OwnBrowser> {
  const { executablePath = '', env, args = [] } = await launchOptions();
  const portFile = join(profile, 'DevToolsActivePort');
  await rm(portFile, { force: true });
  const child = spawn(
    executablePath,
    [...args, '--remote-debugging-port=0', `--user-data-dir=${profile}`, 'about:blank'],
    { env: env, stdio: 'ignore', detached: true },
  );
  const ended = new Promise<void>((done) => child.once('exit', () => done()));
  const port = await readPort(portFile);
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
  const context = browser.contexts()[0];
  if (!context) throw new Error('The browser has no window.');
  const page = await context.newPage();
  return {
    page,
    kill: async () => {
      // The whole group, so that no helper process writes on after the power cut.
      if (child.pid !== undefined && child.exitCode === null && child.signalCode === null)
        process.kill(-child.pid, 'SIGKILL');
      await ended;
      await browser.close().catch(() => undefined);
    },
  };
}

async function readPort(file: string): Promise<string> {
  for (let i = 0; i < 300; i += 1) {
    const text = await readFile(file, 'utf8').catch(() => '');
    const [port] = text.split('\n');
    if (port) return port;
    await new Promise((done) => setTimeout(done, 100));
  }
  throw new Error('The browser did not say at which port it listens.');
}
