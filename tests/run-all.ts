import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * `npm test`: every check there is, one after the other, whether or not an earlier one failed; at
 * the end one sentence for each, and the total. Exit status 1 if any failed. If `DAYBOOK_TOTAL`
 * names a file, the total is written there as JSON: `{"passed":3,"failed":0,"skipped":0}`.
 */
const root = fileURLToPath(new URL('..', import.meta.url));
const scratch = mkdtempSync(join(tmpdir(), 'daybook-tests-'));

interface Total {
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
}

interface Step {
  /** What passes or fails, in words that fit before "passed" and "failed". */
  readonly name: string;
  /** A program under `node_modules`, run by Node, with its arguments. */
  readonly command: readonly [string, ...string[]];
  readonly env?: Readonly<Record<string, string>>;
  /** Reads the number of tests from what the program has written; without it, the step is no test. */
  readonly count?: () => Total;
}

const NO_TESTS: Total = { passed: 0, failed: 0, skipped: 0 };

function readJson(file: string): Record<string, unknown> {
  return JSON.parse(readFileSync(file, 'utf8')) as Record<string, unknown>;
}

function vitest(name: string, project: string, env: Readonly<Record<string, string>>): Step {
  const report = join(scratch, `${project}.json`);
  return {
    name,
    command: [
      'vitest/vitest.mjs',
      'run',
      ...['--project', project],
      ...['--reporter', 'default', '--reporter', 'json', `--outputFile.json=${report}`],
    ],
    env,
    count: () => {
      const { numPassedTests, numFailedTests, numPendingTests, numTodoTests } = readJson(report);
      return {
        passed: Number(numPassedTests),
        failed: Number(numFailedTests),
        skipped: Number(numPendingTests) + Number(numTodoTests),
      };
    },
  };
}

function browserTests(): Step {
  const report = join(scratch, 'browser.json');
  return {
    name: 'The element tests in a real browser',
    command: ['tsx/dist/cli.mjs', 'tests/web-test-runner.ts'],
    env: { DAYBOOK_BROWSER_TOTAL: report },
    count: () => ({ ...NO_TESTS, ...readJson(report) }),
  };
}

const built = join(scratch, 'page');
const STEPS: readonly Step[] = [
  { name: 'The layout of the files', command: ['prettier/bin/prettier.cjs', '--check', '.'] },
  { name: 'The types', command: ['typescript/bin/tsc', '-p', '.'] },
  {
    name: 'The types of what needs no screen',
    command: ['typescript/bin/tsc', '-p', 'src/tsconfig.json'],
  },
  { name: 'The written rules', command: ['eslint/bin/eslint.js', '.', '--max-warnings', '0'] },
  vitest('The tests without a screen', 'unit', {}),
  browserTests(),
  {
    name: 'The build of the page',
    command: ['vite/bin/vite.js', 'build', '--outDir', built, '--logLevel', 'warn'],
    env: { NODE_ENV: 'production' },
  },
  vitest('The tests of the whole page', 'flow', { DAYBOOK_BUILT: built }),
];

function run(step: Step): Promise<boolean> {
  const [program, ...words] = step.command;
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [join(root, 'node_modules', program), ...words], {
      cwd: root,
      env: { ...process.env, TZ: process.env['TZ'] ?? 'UTC', ...step.env },
      stdio: ['ignore', 'inherit', 'inherit'],
    });
    child.on('error', () => resolve(false));
    child.on('exit', (code) => resolve(code === 0));
  });
}

/** A failed step counts as one failure at least: a file that cannot be read holds no failed test. */
function totalOf(step: Step, succeeded: boolean): Total {
  try {
    const total = step.count?.() ?? NO_TESTS;
    return !succeeded && total.failed === 0 ? { ...total, failed: 1 } : total;
  } catch {
    // The program ended before it wrote its report.
    return { ...NO_TESTS, failed: 1 };
  }
}

function words({ passed, failed, skipped }: Total): string {
  return `${passed} passed, ${failed} failed` + (skipped > 0 ? `, ${skipped} skipped` : '');
}

const sentences: string[] = [];
let sum = NO_TESTS;
for (const step of STEPS) {
  console.log(`\n── ${step.name} ──`);
  const started = performance.now();
  const succeeded = await run(step);
  const seconds = ((performance.now() - started) / 1000).toFixed(1);
  const total = totalOf(step, succeeded);
  const number = step.count ? `: ${words(total)}` : '';
  sentences.push(
    `${step.name} ${succeeded && total.failed === 0 ? 'passed' : 'FAILED'}${number} (${seconds} s).`,
  );
  sum = {
    passed: sum.passed + total.passed,
    failed: sum.failed + total.failed,
    skipped: sum.skipped + total.skipped,
  };
}
rmSync(scratch, { recursive: true, force: true });
const totalFile = process.env['DAYBOOK_TOTAL'];
if (totalFile) writeFileSync(totalFile, JSON.stringify(sum));
console.log(`\n${sentences.join('\n')}\n${words(sum)}`);
process.exitCode = sum.failed > 0 ? 1 : 0;
