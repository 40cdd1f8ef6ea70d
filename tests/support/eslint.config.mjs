/*
 * What the linter holds that the compiler and the formatter do not: nothing loose in the types, React's own rules, and
 * a core without dates or chance. Rules that need to know types, as that no promise is left alone, stand in oxlint.json:
 * a linter on the native compiler holds them in a fifth of the time.
 */

import js from '@eslint/js';
import { defineConfig } from 'eslint/config';
import reactHooks from 'eslint-plugin-react-hooks';
import tseslint from 'typescript-eslint';

const TIMERS = { setTimeout: 'readonly', clearTimeout: 'readonly', setInterval: 'readonly', clearInterval: 'readonly' };
const GLOBALS = { process: 'readonly', URL: 'readonly', ...TIMERS };
const TYPESCRIPT = ['**/*.ts', '**/*.tsx'];

export default defineConfig(
  { ignores: ['dist/**', 'node_modules/**'] },
  { linterOptions: { noInlineConfig: true, reportUnusedDisableDirectives: 'error' } },
  js.configs.recommended,
  {
    files: ['**/*.mjs'],
    languageOptions: { globals: GLOBALS },
  },
  {
    files: TYPESCRIPT,
    extends: [tseslint.configs.recommended],
    rules: {
      '@typescript-eslint/no-explicit-any': 'error',
      // The compiler knows better which names a folder has.
      'no-undef': 'off',
    },
  },
  {
    files: [...TYPESCRIPT, '**/*.mjs'],
    rules: {
      eqeqeq: 'error',
      'max-lines': ['error', 400],
      'no-warning-comments': ['error', { terms: ['todo', 'fixme', 'xxx'] }],
    },
  },
  { files: ['app/**', 'renderer/**'], rules: { 'no-console': 'error' } },
  // The one place from which pages report what went wrong.
  { files: ['renderer/link/mishap.ts'], rules: { 'no-console': ['error', { allow: ['error'] }] } },
  {
    // Windows are made in one place, and nothing opens other programs, updates itself or speaks to a network.
    files: ['app/desktop/**'],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          paths: [
            { name: 'electron', importNames: ['autoUpdater', 'clipboard', 'globalShortcut', 'net', 'shell'] },
            ...['http', 'https', 'net', 'dgram', 'tls', 'dns'].map((name) => ({ name: `node:${name}` })),
          ],
        },
      ],
    },
  },
  {
    files: ['app/desktop/**'],
    ignores: ['app/desktop/windows/program-window.ts'],
    rules: {
      'no-restricted-syntax': [
        'error',
        {
          selector: "NewExpression[callee.name='BrowserWindow']",
          message: 'Windows are made in windows/program-window.ts.',
        },
        {
          selector: "MemberExpression[object.name='dialog'][property.name!='showErrorBox']",
          message: 'A box of the system holds the main process up.',
        },
      ],
    },
  },
  {
    files: ['app/desktop/preload/**'],
    rules: {
      'no-restricted-imports': [
        'error',
        { paths: [{ name: 'electron', allowImportNames: ['contextBridge', 'ipcRenderer'] }] },
      ],
    },
  },
  { files: ['renderer/**'], extends: [reactHooks.configs.flat.recommended] },
  {
    // The core is told what time it is, and gives the same answer to the same question every time.
    files: ['app/core/**'],
    rules: {
      'no-restricted-globals': ['error', 'Date', 'globalThis', 'Intl'],
      'no-restricted-properties': ['error', { object: 'Math', property: 'random' }],
      'no-restricted-syntax': [
        'error',
        { selector: "TSTypeReference[typeName.name='Date']", message: 'No dates here.' },
      ],
    },
  },
  {
    files: ['tests/**'],
    rules: {
      'no-restricted-properties': [
        'error',
        ...['test', 'it', 'describe'].flatMap((object) =>
          ['only', 'skip', 'todo'].map((property) => ({ object, property })),
        ),
      ],
    },
  },
);
