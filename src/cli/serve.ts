import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { USUAL_PORT } from '../../shared/served.ts';
import { startServer } from './start-server.ts';

/**
 * `npm start`: builds the page and serves it at the usual address, or says where it is served
 * already. `npm start -- --host` opens it to the other machines of the local network as well.
 */
const root = fileURLToPath(new URL('../..', import.meta.url));

function buildPage(): Promise<boolean> {
  return new Promise((resolve) => {
    const vite = `${root}/node_modules/vite/bin/vite.js`;
    const child = spawn(process.execPath, [vite, 'build', '--logLevel', 'warn'], {
      cwd: root,
      stdio: ['ignore', 'inherit', 'inherit'],
    });
    child.on('error', () => resolve(false));
    child.on('exit', (code) => resolve(code === 0));
  });
}

async function main(words: readonly string[]): Promise<number> {
  const unknown = words.filter((word) => word !== '--host');
  if (unknown.length > 0) {
    console.error(
      `"${unknown.join(' ')}" is not understood. Use "npm start" or "npm start -- --host".`,
    );
    return 1;
  }
  const { version } = JSON.parse(readFileSync(`${root}/package.json`, 'utf8')) as {
    version: string;
  };
  const started = await startServer({
    usualPort: USUAL_PORT,
    portsTried: 20,
    everywhere: words.includes('--host'),
    folder: `${root}/dist`,
    version,
    build: buildPage,
    say: (sentence) => console.log(sentence),
  });
  if (started.outcome !== 'started') return started.outcome === 'running' ? 0 : 1;
  console.log('Press Ctrl+C to stop.');
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
      process.once(signal, () => {
        for (const server of started.servers) {
          server.close();
          server.closeAllConnections();
        }
        resolve(0);
      });
    }
  });
}

main(process.argv.slice(2)).then(
  (status) => {
    process.exitCode = status;
  },
  (error: unknown) => {
    const reason = error instanceof Error ? error.message : String(error);
    console.error(`The page could not be served: ${reason}`);
    process.exitCode = 1;
  },
);
