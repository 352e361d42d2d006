import { execFile } from 'node:child_process';
import { access, mkdir, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import type { Browser, LaunchOptions } from 'playwright-core';
import { chromium } from 'playwright-core';

const root = fileURLToPath(new URL('..', import.meta.url));

/** A browser that can be started: the program, and the environment it needs. */
export interface FoundBrowser {
  readonly executablePath: string;
  readonly env: Record<string, string>;
}

/**
 * Nothing the tests do may depend on the network, on a graphics card, or on a first-run page; the
 * sandbox is off because the tests must also run as root, where Chromium refuses to use it.
 */
const FLAGS = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Where Chrome, Chromium and Edge are usually installed on Linux, macOS and Windows. */
function usualPlaces(env: NodeJS.ProcessEnv): string[] {
  const linux = ['google-chrome-stable', 'google-chrome', 'chromium', 'chromium-browser'].flatMap(
    (name) => [`/usr/bin/${name}`, `/usr/local/bin/${name}`, `/snap/bin/${name}`],
  );
  const mac = [
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  ];
  const windows = ['PROGRAMFILES', 'PROGRAMFILES(X86)', 'LOCALAPPDATA']
    .map((name) => env[name])
    .filter((folder) => folder !== undefined)
    .flatMap((folder) => [
      `${folder}\\Google\\Chrome\\Application\\chrome.exe`,
      `${folder}\\Chromium\\Application\\chrome.exe`,
      `${folder}\\Microsoft\\Edge\\Application\\msedge.exe`,
    ]);
  if (process.platform === 'darwin') return mac;
  if (process.platform === 'win32') return windows;
  return linux;
}

async function exists(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  );
}

/** The environment without the entries that are not set, as a child process wants it. */
function plainEnvironment(): Record<string, string> {
  return Object.fromEntries(
    Object.entries(process.env).filter(
      (entry): entry is [string, string] => entry[1] !== undefined,
    ),
  );
}

/**
 * Unpacks the Linux Chromium that comes as a package, with the libraries and fonts it brings, once
 * for each version, under `node_modules/.cache`. It is unpacked beside its place and then moved
 * there, so that two test runs starting together never see half of a browser.
 */
async function unpackedBrowser(): Promise<FoundBrowser> {
  const manifest = join(root, 'node_modules/@sparticuz/chromium/package.json');
  const { version } = JSON.parse(await readFile(manifest, 'utf8')) as { version: string };
  const cache = join(root, 'node_modules/.cache');
  const home = join(cache, `chromium-${version}`);
  if (!(await exists(join(home, 'chromium')))) {
    await mkdir(cache, { recursive: true });
    const staging = await mkdtemp(join(cache, 'unpacking-'));
    // The package unpacks into the folder for temporary files, and reads both of these variables
    // while it is imported: hence a process of its own.
    await promisify(execFile)(
      process.execPath,
      [
        '--input-type=module',
        '--eval',
        "await (await import('@sparticuz/chromium')).default.executablePath()",
      ],
      {
        cwd: root,
        env: { ...process.env, TMPDIR: staging, AWS_LAMBDA_JS_RUNTIME: 'nodejs20.x' },
      },
    );
    await writeFile(
      join(staging, 'fonts/fonts.conf'),
      `<?xml version="1.0"?>\n<!DOCTYPE fontconfig SYSTEM "fonts.dtd">\n<fontconfig>` +
        `<dir>${home}/fonts</dir><dir>/usr/share/fonts</dir>` +
        `<cachedir>${home}/fonts-cache</cachedir></fontconfig>\n`,
    );
    try {
      await rename(staging, home);
    } catch (error) {
      await rm(staging, { recursive: true, force: true });
      if (!(await exists(join(home, 'chromium')))) throw error;
    }
  }
  const inherited = process.env['LD_LIBRARY_PATH'];
  return {
    executablePath: join(home, 'chromium'),
    env: {
      ...plainEnvironment(),
      LD_LIBRARY_PATH: [join(home, 'al2023/lib'), inherited].filter(Boolean).join(':'),
      FONTCONFIG_PATH: join(home, 'fonts'),
    },
  };
}

/**
 * Finds a Chromium to test with: the one named by `CHROME_PATH`, else an installed one, else, on
 * Linux, the one that comes with the packages of the project.
 *
 * @throws Error with a sentence that says what to install or to set, if there is none.
 */
export async function findBrowser(): Promise<FoundBrowser> {
  const named = process.env['CHROME_PATH'];
  if (named) {
    if (await exists(named)) return { executablePath: named, env: plainEnvironment() };
    throw new Error(
      `CHROME_PATH names ${named}, and there is no such file. Correct it, or unset it to have an installed browser found.`,
    );
  }
  for (const executablePath of usualPlaces(process.env)) {
    if (await exists(executablePath)) return { executablePath, env: plainEnvironment() };
  }
  if (process.platform === 'linux' && process.arch === 'x64') return unpackedBrowser();
  throw new Error(
    'No Chrome or Chromium was found to run the browser tests with. Install one, or set CHROME_PATH to the program file of one.',
  );
}

/** What a launcher needs to start the browser found, for whole-page tests and test pages alike. */
export async function launchOptions(): Promise<LaunchOptions> {
  const { executablePath, env } = await findBrowser();
  return { executablePath, env, args: FLAGS, headless: true, chromiumSandbox: false };
}

/** Starts the browser, with further flags of its own where given. Whoever starts it closes it. */
export async function launchBrowser(flags: readonly string[] = []): Promise<Browser> {
  const options = await launchOptions();
  return chromium.launch({ ...options, args: [...(options.args ?? []), ...flags] });
}
