import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** Tests run in one known time zone; a test about time zones sets its own before it starts. */
if (process.env['VITEST']) process.env['TZ'] ??= 'UTC';

/**
 * The service worker keeps every built file for use offline, so it must know their names, and
 * its own text must differ whenever one of them does: that is how a browser notices an update.
 * Puts `self.DAYBOOK_BUILD = { version, files }` in front of the worker's code.
 */
function tellServiceWorkerTheFiles(): Plugin {
  return {
    name: 'tell-service-worker-the-files',
    enforce: 'post',
    apply: 'build',
    generateBundle(_options, bundle) {
      const worker = bundle['service-worker.js'];
      if (worker?.type !== 'chunk') return;
      const hash = createHash('sha256').update(worker.code);
      const built = Object.values(bundle).filter((file) => file !== worker);
      for (const file of built) {
        hash.update(file.fileName).update(file.type === 'chunk' ? file.code : file.source);
      }
      const publicDir = here('components/public');
      const copied = existsSync(publicDir)
        ? readdirSync(publicDir, { recursive: true, withFileTypes: true })
            .filter((entry) => entry.isFile())
            .map((entry) => `${entry.parentPath}/${entry.name}`.slice(publicDir.length + 1))
        : [];
      for (const name of copied) hash.update(name).update(readFileSync(`${publicDir}/${name}`));
      const files = [...built.map((file) => file.fileName), ...copied]
        .map((name) => name.replaceAll('\\', '/'))
        .filter((name) => !name.endsWith('.map'))
        .sort();
      const build = { version: hash.digest('hex').slice(0, 16), files };
      worker.code = `self.DAYBOOK_BUILD=${JSON.stringify(build)};\n${worker.code}`;
    },
  };
}

/**
 * A package of the statistics asks by `eval` whether the browser knows generators. The content policy refuses
 * eval, and would report it; every browser that can run this page knows them.
 */
function askNothingByEval(): Plugin {
  return {
    name: 'ask-nothing-by-eval',
    enforce: 'pre',
    load: (id) =>
      /[\\/]@stdlib[\\/]assert-has-generator-support[\\/]lib[\\/]index\.js$/.test(id)
        ? 'module.exports = function () { return true; };'
        : null,
  };
}

const serviceWorker = here('components/service-worker.ts');

export default defineConfig({
  root: process.env['VITEST'] ? here('.') : here('components'),
  base: './',
  plugins: [askNothingByEval(), tellServiceWorkerTheFiles()],
  worker: { format: 'es', plugins: () => [askNothingByEval()] },
  server: { fs: { allow: [here('.')] } },
  build: {
    outDir: here('dist'),
    emptyOutDir: true,
    target: 'es2022',
    // The page's content policy forbids data: scripts and inline code, so nothing is inlined.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 1500,
    rollupOptions: {
      input: {
        index: here('components/index.html'),
        ...(existsSync(serviceWorker) ? { 'service-worker': serviceWorker } : {}),
      },
      output: {
        // The address of a service worker must never change; every other file is named by content.
        entryFileNames: (chunk) =>
          chunk.name === 'service-worker' ? 'service-worker.js' : 'assets/[name]-[hash].js',
      },
    },
  },
  test: {
    environment: 'node',
    pool: 'forks',
    maxWorkers: 2,
    testTimeout: 60_000,
    hookTimeout: 120_000,
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: ['tests/**/*.test.ts'],
          exclude: ['**/node_modules/**', 'tests/**/*.browser.test.ts', 'tests/flow/**'],
        },
      },
      {
        extends: true,
        test: {
          name: 'flow',
          include: ['tests/flow/**/*.test.ts'],
          globalSetup: ['tests/flow/built-page.ts'],
          testTimeout: 240_000,
        },
      },
    ],
  },
});
