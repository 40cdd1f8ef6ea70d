/*
 * The shape of the tree: what stands at the top, how files are named and how long they are, and that
 * the project speaks of itself alone.
 */

import { readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const TOP = [
  ...['app', 'renderer', 'tests', 'assets'],
  ...['package.json', 'package-lock.json', 'tsconfig.json', 'electron-builder.yml'],
  ...['README.md', 'DEVELOPERS.md', 'LICENSE'],
];
const SOURCES = ['.ts', '.tsx', '.mjs', '.css'];
const WORDLESS_NAMES = ['utils', 'util', 'helpers', 'helper', 'common', 'manager', 'misc', 'index'];

const files = ['app', 'renderer', 'tests'].flatMap(filesBelow);
const sources = files.filter((file) => SOURCES.includes(extname(file)));

describe('[layout]', () => {
  test('nothing else stands at the top level', () => {
    const visible = readdirSync(root).filter((name) => !name.startsWith('.'));
    expect(visible.filter((name) => ![...TOP, 'node_modules', 'dist'].includes(name))).toEqual([]);
  });

  test('there are sources to look at', () => {
    expect(sources.length).toBeGreaterThan(20);
  });

  test('files are named in kebab-case', () => {
    const named = (file: string) => /^[a-z0-9]+(-[a-z0-9]+)*(\.[a-z0-9]+)+$/.test(basename(file));
    expect(files.filter((file) => SOURCES.includes(extname(file)) && !named(file))).toEqual([]);
  });

  test('a file is named for what it holds', () => {
    const words = (file: string) => basename(file).split(/[.-]/).slice(0, -1);
    expect(sources.filter((file) => words(file).some((word) => WORDLESS_NAMES.includes(word)))).toEqual([]);
  });

  test('no file of code is longer than 400 lines', () => {
    expect(sources.filter((file) => textOf(file).split('\n').length > 401)).toEqual([]);
  });

  test('a folder has at most a dozen files', () => {
    const inside = (folder: string): number => files.filter((file) => dirname(file) === folder).length;
    expect([...new Set(files.map((file) => dirname(file)))].filter((folder) => inside(folder) > 12)).toEqual([]);
  });

  test('a file that a document names is there', () => {
    const named = ['README.md', 'DEVELOPERS.md'].flatMap((page) =>
      Array.from(textOf(page).matchAll(/`([\w.-]+(?:\/[\w.-]+)+\.(?:tsx?|css|mjs))`/g), ([, file = '']) => file),
    );
    expect(named.length).toBeGreaterThan(50);
    expect(named.filter((file) => !files.some((known) => `/${known}`.endsWith(`/${file}`)))).toEqual([]);
  });

  test('no file exports all of another', () => {
    expect(sources.filter((file) => /^export \* from/m.test(textOf(file)))).toEqual([]);
  });

  test('no file leaves work to be remembered or a rule switched off', () => {
    const marks = new RegExp(
      [
        'TO' + 'DO',
        'FIX' + 'ME',
        '@ts-' + 'ignore',
        '@ts-' + 'expect-error',
        'eslint-' + 'disable',
        'oxlint-' + 'disable',
      ].join('|'),
    );
    const here = join('tests', 'rules', 'walls.test.ts');
    expect(sources.filter((file) => file !== here && marks.test(textOf(file)))).toEqual([]);
  });

  test("the lockfile has every package's checksum and names no registry", () => {
    const lockfile = readFileSync(join(root, 'package-lock.json'), 'utf8');
    expect(lockfile).not.toContain('"resolved"');
    const packages = Object.entries(
      (JSON.parse(lockfile) as { packages: Record<string, { integrity?: string }> }).packages,
    );
    expect(packages.filter(([place, { integrity }]) => place !== '' && integrity === undefined)).toEqual([]);
  });

  test('every package is wanted in one exact version', () => {
    const { dependencies = {}, devDependencies = {} } = JSON.parse(textOf('package.json')) as Record<
      string,
      Record<string, string> | undefined
    >;
    const wanted = Object.entries({ ...dependencies, ...devDependencies });
    expect(wanted.filter(([, version]) => !/^(npm:[\w/@-]+@)?\d+\.\d+\.\d+$/.test(version))).toEqual([]);
  });
});

function textOf(file: string): string {
  return readFileSync(join(root, file), 'utf8');
}

function filesBelow(folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const inner = join(folder, entry.name);
    return entry.isDirectory() ? filesBelow(inner) : [inner];
  });
}
