import { existsSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { dirname, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { startTestRunner } from '@web/test-runner';
import type { Reporter, TestRunnerConfig, TestSuiteResult } from '@web/test-runner';
import { defaultReporter } from '@web/test-runner';
import { playwrightLauncher } from '@web/test-runner-playwright';
import { build } from 'esbuild';
import type { Plugin as BundlerPlugin } from 'esbuild';
import { launchOptions } from './browser.ts';

/**
 * Runs every `*.browser.test.ts` under tests in a real Chromium. One file: `npm run test:browser -- --files
 * tests/components/reading-grid.browser.test.ts`. If `DAYBOOK_BROWSER_TOTAL` names a file, the
 * numbers of passed, failed and skipped tests are written there as JSON.
 */
const root = fileURLToPath(new URL('..', import.meta.url));

/**
 * In a bundle `import.meta.url` is the address of the test, not of the module that asked; so
 * `new URL('./x.worker.ts', import.meta.url)` is turned into the address of that file under the root.
 */
const keepModuleAddresses: BundlerPlugin = {
  name: 'keep-module-addresses',
  setup(bundler) {
    bundler.onLoad({ filter: /[\\/](shared|src|components|tests)[\\/].*\.ts$/ }, async (file) => {
      const text = await readFile(file.path, 'utf8');
      const contents = text.replace(
        /new URL\(\s*(['"])(\.[^'"]+)\1,\s*import\.meta\.url,?\s*\)/g,
        (_whole, _quote: string, path: string) => {
          const target = relative(root, resolve(dirname(file.path), path)).replaceAll('\\', '/');
          return `new URL('/${target}', location.origin)`;
        },
      );
      return { contents, loader: 'ts' };
    });
  },
};

async function bundle(entry: string): Promise<string> {
  const result = await build({
    entryPoints: [entry],
    absWorkingDir: root,
    tsconfig: resolve(root, 'tsconfig.json'),
    bundle: true,
    format: 'esm',
    target: 'es2022',
    write: false,
    sourcemap: 'inline',
    logLevel: 'silent',
    loader: { '.css': 'text', '.svg': 'text' },
    external: ['/__web-dev-server__*', '/__web-test-runner__*'],
    plugins: [keepModuleAddresses],
  });
  return result.outputFiles[0]?.text ?? '';
}

/** Serves each test, and each worker a test starts, as one file. */
const bundleTests: NonNullable<TestRunnerConfig['plugins']>[number] = {
  name: 'bundle-tests',
  async serve(context) {
    if (!/\.(browser\.test|worker)\.ts$/.test(context.path)) return undefined;
    const file = resolve(root, `.${decodeURIComponent(context.path)}`);
    if (!existsSync(file)) return undefined;
    try {
      return { body: await bundle(file), type: 'js' };
    } catch (error) {
      // The page reports it as the failure of this file, with what the bundler said.
      const message = error instanceof Error ? error.message : String(error);
      return { body: `throw new Error(${JSON.stringify(message)});`, type: 'js' };
    }
  },
};

interface Total {
  passed: number;
  failed: number;
  skipped: number;
}

function addSuite(suite: TestSuiteResult | undefined, total: Total): void {
  for (const test of suite?.tests ?? []) {
    if (test.skipped) total.skipped += 1;
    else if (test.passed) total.passed += 1;
    else total.failed += 1;
  }
  for (const inner of suite?.suites ?? []) addSuite(inner, total);
}

/** Counts tests; a file that broke outside its tests counts as one failed. */
const counter: Reporter = {
  onTestRunFinished({ sessions }) {
    const total: Total = { passed: 0, failed: 0, skipped: 0 };
    for (const session of sessions) {
      const before = total.failed;
      addSuite(session.testResults, total);
      if (session.passed !== true && total.failed === before) total.failed += 1;
    }
    const file = process.env['DAYBOOK_BROWSER_TOTAL'];
    if (file) writeFileSync(file, JSON.stringify(total));
  },
};

const options = await launchOptions().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
});

await startTestRunner({
  readFileConfig: false,
  config: {
    rootDir: root,
    files: ['tests/**/*.browser.test.ts'],
    browsers: [playwrightLauncher({ product: 'chromium', launchOptions: options })],
    plugins: [bundleTests],
    reporters: [
      defaultReporter({
        reportTestResults: true,
        reportTestProgress: process.stdout.isTTY === true,
      }),
      counter,
    ],
    concurrency: 2,
    testsStartTimeout: 60_000,
    testsFinishTimeout: 180_000,
    testFramework: { config: { timeout: 20_000 } },
  },
});
