/*
 * The build as it stands in dist/: three pages that a strict content security policy lets run, in syntax
 * that old television browsers read; a desktop program that is shut in; the same bytes from the same sources.
 */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { isBuiltin } from 'node:module';
import { tmpdir } from 'node:os';
import { basename, extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse } from 'acorn';
import { describe, expect, test } from 'vitest';
import { ACTIONS } from '../../../renderer/ui/coach/commands/action-list.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const dist = join(root, 'dist');
const PAGES = ['desk', 'wall', 'remote'];
// What the socket's library takes where it is there; nobody installs it.
const ADD_ONS = ['bufferutil', 'utf-8-validate'];
const emitted = filesBelow(join(dist, 'pages'));
const scripts = emitted.filter((file) => extname(file) === '.js');
const scriptsOf = (page: string): string[] => loadedBy(join(dist, 'pages', page, 'index.html'));

describe('[build] pages', () => {
  test.each(PAGES)('%s has no script, style or handler of its own in the page', (page) => {
    const html = readFileSync(join(dist, 'pages', page, 'index.html'), 'utf8');
    expect(html).toMatch(/<script[^>]* src="\/[^"]+"><\/script>/);
    expect(html).not.toMatch(/<script(?![^>]*\ssrc=)/);
    expect(html).not.toMatch(/<style|\sstyle=|\son[a-z]+=|javascript:/);
  });

  test.each(PAGES)('%s asks for nothing from elsewhere, and everything it asks for is there', (page) => {
    const html = readFileSync(join(dist, 'pages', page, 'index.html'), 'utf8');
    const asked = [...html.matchAll(/\s(?:src|href)="([^"]*)"/g)].map(([, address = '']) => address);
    expect(asked.length).toBeGreaterThan(0);
    expect(asked.filter((address) => !emitted.includes(join(dist, 'pages', address)))).toEqual([]);
  });

  test('the remote has a manifest for the home screen, full screen, and icons of ours in the sizes that it names', () => {
    const home = join(dist, 'pages', 'home');
    const { start_url, display, icons } = JSON.parse(readFileSync(join(home, 'remote.webmanifest'), 'utf8')) as {
      start_url: string;
      display: string;
      icons: { src: string; sizes: string }[];
    };
    expect([start_url, display]).toEqual(['/remote', 'fullscreen']);
    const sizes = icons.map(({ src }) => {
      const png = readFileSync(join(dist, 'pages', src));
      return `${png.readUInt32BE(16)}x${png.readUInt32BE(20)}`;
    });
    expect(sizes).toEqual(icons.map((icon) => icon.sizes));
    expect(sizes).toEqual(['192x192', '512x512']);
  });

  test('the wall loads nothing of what only a coach reads', () => {
    const words = Object.values(ACTIONS).flatMap(({ does }) => (does.includes(' ') ? [does] : []));
    const holding = (page: string): string[] => {
      const text = scriptsOf(page)
        .map((file) => readFileSync(file, 'utf8'))
        .join('\n');
      return words.filter((each) => text.includes(each));
    };
    expect(holding('desk')).toEqual(words);
    expect(holding('wall')).toEqual([]);
  });

  test('nor any of React Aria, which every control of the coach’s rests on', () => {
    const isHeld = (page: string): boolean =>
      scriptsOf(page).some((file) => readFileSync(file, 'utf8').includes('react-aria-pressable'));
    expect(PAGES.map((page) => [page, isHeld(page)])).toEqual([
      ['desk', true],
      ['wall', false],
      ['remote', true],
    ]);
  });

  test('nor any of what seals the frames of remotes and tablets, which is loaded where it is wanted', () => {
    // A constant of the cipher (RFC 8439, 2.3).
    const isHeld = (file: string): boolean => readFileSync(file, 'utf8').includes('expand 32-byte k');
    expect(scripts.filter(isHeld).map((file) => basename(file))).toEqual([
      expect.stringMatching(/^sealed-carrier-[\w-]+\.js$/),
    ]);
    const knowsOf = (file: string): boolean => /\bsealed-carrier-/.test(readFileSync(file, 'utf8'));
    expect(PAGES.map((page) => [page, scriptsOf(page).some(isHeld)])).toEqual(PAGES.map((page) => [page, false]));
    expect(PAGES.map((page) => [page, scriptsOf(page).some(knowsOf)])).toEqual([
      ['desk', true],
      ['wall', false],
      ['remote', true],
    ]);
  });

  test('the text editor is the coach’s alone, and only that page has a word for its style sheet', () => {
    const isHeld = (page: string): readonly boolean[] => [
      scriptsOf(page).some((file) => readFileSync(file, 'utf8').includes('cm-content')),
      readFileSync(join(dist, 'pages', page, 'index.html'), 'utf8').includes('word-for-style-sheets-'),
    ];
    expect(PAGES.map((page) => [page, ...isHeld(page)])).toEqual([
      ['desk', true, true],
      ['wall', false, false],
      ['remote', false, false],
    ]);
  });

  test('what the wall loads at once is no larger than old televisions have been given so far: 454 kB of scripts', () => {
    const bytes = scriptsOf('wall').reduce((sum, file) => sum + readFileSync(file).length, 0);
    expect(bytes).toBeGreaterThan(100_000);
    expect(bytes).toBeLessThanOrEqual(454_000);
  });

  test('no style sheet holds a data address or one of another server', () => {
    const sheets = emitted.filter((file) => extname(file) === '.css');
    expect(sheets.filter((file) => /url\(["']?(data:|https?:|\/\/)/.test(readFileSync(file, 'utf8')))).toEqual([]);
  });

  test('every script is in the syntax of 2018, but the drawings, which leave their tables where they do not load', () => {
    expect(scripts.length).toBeGreaterThanOrEqual(PAGES.length);
    const drawings = scripts.filter((file) => /^drawing-/.test(basename(file)));
    expect(drawings.length).toBe(1);
    for (const page of PAGES) expect(scriptsOf(page)).not.toContain(drawings[0]);
    for (const file of scripts.filter((each) => !drawings.includes(each))) {
      // Loading a module while running is newer in the standard than in the browsers that have it.
      const text = readFileSync(file, 'utf8')
        .replaceAll(/\bimport\(/g, 'load(')
        .replaceAll('import.meta', 'meta');
      expect(() => parse(text, { ecmaVersion: 2018, sourceType: 'module' }), file).not.toThrow();
      expect(text).not.toMatch(/\bglobalThis\b/);
    }
  });
});

describe('[build] the desktop program', () => {
  const loaded = (file: string): Set<string | undefined> =>
    new Set(
      [...readFileSync(join(dist, 'desktop', file), 'utf8').matchAll(/\brequire\("([^"]+)"\)/g)].map(
        ([, name]) => name,
      ),
    );

  test.each(['preload-desk.cjs', 'preload-wall.cjs'])(
    '%s needs nothing that a sandboxed script cannot have',
    (file) => {
      expect(loaded(file)).toEqual(new Set(['electron']));
    },
  );

  test('the main process needs no package, and of networks only what listens', () => {
    const names = [...loaded('main.cjs')].filter((name): name is string => name !== undefined);
    expect(names).toContain('electron');
    // The socket's library is built in; it names Node's modules without their prefix.
    const isOurs = (name: string): boolean => !isBuiltin(name) && !['electron', ...ADD_ONS].includes(name);
    expect(names.filter(isOurs)).toEqual([]);
    const networks = ['node:https', 'node:http2', 'node:tls', 'node:dgram', 'node:dns'];
    expect(names.filter((name) => networks.includes(name))).toEqual([]);
    expect(readFileSync(join(dist, 'desktop', 'main.cjs'), 'utf8')).not.toMatch(/\bfetch\(|new WebSocket\(/);
  });
});

test('[build] what others have made goes along with its licence, and nothing that is only installed does', () => {
  const text = readFileSync(join(dist, 'THIRD-PARTY.txt'), 'utf8');
  const named = [...text.matchAll(/^(\S+) [\d.]+ \(([\w.-]+)\)$/gm)].map(([, name]) => name);
  for (const name of ['react', 'react-dom', 'zustand', 'zod', 'ws', 'howler', '@fontsource/barlow-condensed']) {
    expect(named).toContain(name);
  }
  for (const name of ['electron', 'vite', 'esbuild', 'undici', 'playwright']) expect(named).not.toContain(name);
  expect(text).toMatch(/^Lanecall \d+\.\d+\.\d+,/);
  expect(text).toContain('SIL OPEN FONT LICENSE Version 1.1');
  expect(text.match(/Permission is hereby granted, free of charge/g)!.length).toBeGreaterThanOrEqual(6);
});

test('[build] the same sources give the same bytes, and none of them names this machine', () => {
  const again = mkdtempSync(join(tmpdir(), 'lanecall-build-'));
  try {
    const args = [join(root, 'app/cli/build/build.mjs'), 'stamp', again];
    const { status, stderr } = spawnSync(process.execPath, args, { cwd: tmpdir(), encoding: 'utf8' });
    expect([status, stderr]).toEqual([0, '']);
    const filesOf = (folder: string): string[] =>
      [
        ...['lanecall.mjs', 'THIRD-PARTY.txt'].map((name) => join(folder, name)),
        ...['desktop', 'pages'].flatMap((part) => filesBelow(join(folder, part))),
      ].map((file) => file.slice(folder.length));
    const built = filesOf(dist);
    expect(built).toContain('/desktop/main.cjs');
    expect(filesOf(again)).toEqual(built);
    for (const file of built) {
      const bytes = readFileSync(join(dist, file));
      expect(bytes.equals(readFileSync(join(again, file))), file).toBe(true);
      expect(bytes.includes(root), file).toBe(false);
    }
  } finally {
    rmSync(again, { recursive: true, force: true });
  }
});

/** A page's scripts, and those that they load at once. */
function loadedBy(page: string): string[] {
  const files = new Set<string>();
  const look = (file: string): void => {
    for (const [, name = ''] of readFileSync(file, 'utf8').matchAll(/["'](?:\.|\/assets)\/([\w-]+\.js)["']/g)) {
      const script = join(dist, 'pages', 'assets', name);
      if (files.has(script)) continue;
      files.add(script);
      look(script);
    }
  };
  look(page);
  return [...files];
}

function filesBelow(folder: string): string[] {
  const entries = readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1));
  return entries.flatMap((entry) => {
    const inner = join(folder, entry.name);
    return entry.isDirectory() ? filesBelow(inner) : [inner];
  });
}
