import js from '@eslint/js';
import { defineConfig } from 'eslint/config';
import { configs as lit } from 'eslint-plugin-lit';
import litA11y from 'eslint-plugin-lit-a11y';
import tseslint from 'typescript-eslint';

/** Only one set of these selectors can hold for a file, so each set below repeats the common part. */
const everywhere = [
  {
    selector:
      ':matches(ImportDeclaration, ExportNamedDeclaration, ExportAllDeclaration, ImportExpression)' +
      '[source.value=/^\\.{1,2}\\u002F/]' +
      ':not([source.value=/\\.(ts|json|css|svg)(\\?[a-z&]+)?$/])',
    message: 'Write the file extension in an import path: ./poisson.ts',
  },
  {
    selector:
      'CallExpression[callee.property.name="only"][callee.object.name=/^(describe|it|test|suite)$/]',
    message: 'Remove .only: it silently leaves out all the other tests.',
  },
];

/** What a pure function may not reach for: it gets time, luck and language as arguments. */
const pure = [
  {
    selector: 'NewExpression[callee.name="Date"][arguments.length=0]',
    message: 'Pass the time as an argument: the same call must always give the same answer.',
  },
  {
    selector: 'CallExpression[callee.property.name=/^toLocale(Date|Time)?String$/]',
    message: 'Format without the locale of the machine: the same call must give the same text.',
  },
];

export default defineConfig(
  { ignores: ['dist/', 'node_modules/', 'coverage/'] },
  { linterOptions: { noInlineConfig: true, reportUnusedDisableDirectives: 'error' } },
  js.configs.recommended,
  {
    files: ['**/*.ts'],
    extends: [tseslint.configs.recommendedTypeChecked],
    languageOptions: {
      parserOptions: { project: './tsconfig.json', tsconfigRootDir: import.meta.dirname },
    },
    rules: {
      'no-restricted-syntax': ['error', ...everywhere],
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', varsIgnorePattern: '^_', ignoreRestSiblings: true },
      ],
      '@typescript-eslint/consistent-type-imports': 'error',
      // A promise-returning method may have nothing to wait for yet: the interface says so.
      '@typescript-eslint/require-await': 'off',
      eqeqeq: ['error', 'always', { null: 'ignore' }],
    },
  },
  {
    files: ['shared/**/*.ts', 'src/**/*.ts'],
    ignores: ['src/cli/**', 'src/storage/**', '**/*.worker.ts'],
    rules: {
      'no-restricted-syntax': ['error', ...everywhere, ...pure],
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: 'Pass the time as an argument.' },
        { object: 'Math', property: 'random', message: 'Pass a seeded generator as an argument.' },
      ],
    },
  },
  {
    files: ['shared/**/*.ts', 'src/**/*.ts', 'components/**/*.ts'],
    ignores: ['src/cli/**'],
    rules: { 'no-console': 'error' },
  },
  {
    files: ['components/**/*.ts', 'tests/**/*.browser.test.ts'],
    extends: [lit['flat/recommended']],
    plugins: { 'lit-a11y': litA11y },
    rules: {
      ...litA11y.configs.recommended.rules,
      // Lit calls an element's own listeners with the element as `this`.
      '@typescript-eslint/unbound-method': 'off',
    },
  },
  {
    files: ['tests/**/*.browser.test.ts'],
    // `expect(x).to.be.true` is how these assertions are written.
    rules: { '@typescript-eslint/no-unused-expressions': 'off' },
  },
);
