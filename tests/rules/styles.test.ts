/*
 * Style sheets are drawn from the tokens: a colour or a length in px has its name in one place. What a part measures by
 * itself is said in rem, em, fr or parts of the screen.
 */

import { readdirSync, readFileSync } from 'node:fs';
import { dirname, extname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const renderer = fileURLToPath(new URL('../../renderer', import.meta.url));
/** Where values get their names. The wall's own are in a file that only the wall loads. */
const NAMED = ['ui/tokens.css', 'ui/widths.css', 'wall/colours.css'];
const COLOUR = /#[0-9a-f]{3,8}\b|\b(?:rgba?|hsla?|hwb|lab|lch|oklab|oklch|color)\(/gi;
const PIXELS = /(?<![\w-])-?[\d.]*[1-9][\d.]*px\b/g;

const files = filesBelow(renderer);
const sheets = files.filter((file) => extname(file) === '.css');
const scripts = files.filter((file) => ['.ts', '.tsx'].includes(extname(file)));

describe('[styles]', () => {
  test('there are sheets to look at, and the places of names are among them', () => {
    expect(sheets.length).toBeGreaterThan(10);
    expect(NAMED.filter((file) => !sheets.includes(join(renderer, file)))).toEqual([]);
  });

  test('no sheet writes a colour or a length in px that has no name', () => {
    const plain = sheets.filter((file) => !NAMED.includes(placeOf(file)));
    expect(plain.flatMap((file) => found(file, COLOUR, PIXELS))).toEqual([]);
  });

  test('no script writes a colour, and none gives an element a length in px as a number', () => {
    expect(scripts.flatMap((file) => found(file, COLOUR))).toEqual([]);
    expect(scripts.flatMap((file) => found(file, /style=\{\{[^}]*[:\s]\d*[1-9]\d*\s*[,}]/g))).toEqual([]);
  });

  test('in the places of names a value is only given a name', () => {
    for (const file of NAMED) {
      const named = textOf(join(renderer, file)).replaceAll(/^\s*--[\w-]+: [^;]+;$|^@(custom-media|media) .*$/gm, '');
      expect(named.match(COLOUR), file).toBeNull();
      expect(named.match(PIXELS), file).toBeNull();
    }
  });

  test('every name that is used is given somewhere, and every name that tokens give is used', () => {
    const text = [...sheets, ...scripts].map(textOf).join('\n');
    const used = new Set([...text.matchAll(/var\((--[\w-]+)/g)].map(([, name = '']) => name));
    const given = (from: string): string[] =>
      [...from.matchAll(/(?:^|[\s'`{(])(--[\w-]+)(?=:|'|`)/g)].map(([, name = '']) => name);
    const tokens = NAMED.map((file) => textOf(join(renderer, file))).join('\n');
    expect(given(tokens).filter((name) => !used.has(name))).toEqual([]);
    const all = new Set(given(text));
    // Places in a lane's strip, which the wall works out and names one by one.
    const drawn = /^--(number|leave|seconds|rep|interval|words|after|leaving)-(x|width)$/;
    expect([...used].filter((name) => !all.has(name) && !drawn.test(name))).toEqual([]);
  });
});

/**
 * The few classes that are the same on every page: what only a screen reader reads, the cells of times (ui/digits.css),
 * what stands where nothing could be drawn (ui/region.css), and those of the text editor that is a package.
 */
const GLOBAL =
  /^(cm-\w+|hidden|caps|digits|digits-(cell|colon|point|tenth)|is-long|region-failed|page-(opening|failed))$/;
/** The wall is built by itself: no name of it can meet another's. */
const BUILT_BY_ITSELF = /^wall\//;

describe('[styles] modules', () => {
  const modules = sheets.filter((file) => file.endsWith('.module.css'));

  test('only the few classes that every page shares are global', () => {
    const shared = sheets.filter((file) => !BUILT_BY_ITSELF.test(placeOf(file)));
    const named = (file: string): string[] =>
      (modules.includes(file) ? globalsOf(file) : [...classesOf(file)])
        .filter((name) => !GLOBAL.test(name))
        .map((name) => `${placeOf(file)}: ${name}`);
    expect(shared.flatMap(named)).toEqual([]);
    expect(shared.flatMap((file) => [...classesOf(file)]).length).toBeGreaterThan(50);
  });

  const uses = modules.map((file) => ({ file, classes: classesOf(file), used: namesAskedOf(file) }));

  test('there are modules to look at', () => {
    expect(modules.length).toBeGreaterThan(5);
    expect(uses.every(({ classes }) => classes.size > 0)).toBe(true);
  });

  test('every class that a script asks of its module is there', () => {
    const missing = ({ file, classes, used }: (typeof uses)[number]): string[] =>
      [...used].filter((name) => !classes.has(name)).map((name) => `${placeOf(file)}: ${name}`);
    expect(uses.flatMap(missing)).toEqual([]);
  });

  test('every class of a module is used by a script', () => {
    const idle = ({ file, classes, used }: (typeof uses)[number]): string[] =>
      [...classes].filter((name) => !used.has(name)).map((name) => `${placeOf(file)}: ${name}`);
    expect(uses.flatMap(idle)).toEqual([]);
  });

  test('a script asks for classes by name, never by a name that it puts together', () => {
    const importing = scripts.filter((file) => textOf(file).includes('.module.css'));
    expect(importing.length).toBeGreaterThan(5);
    expect(importing.flatMap((file) => found(file, /\b\w*[sS]tyles\b(?!\.\w| from ')/g))).toEqual([]);
    expect(importing.flatMap((file) => importsOf(file)).filter(({ name }) => !/^styles$|Styles$/.test(name))).toEqual(
      [],
    );
  });
});

/** Its own: not those of others that it reaches by `:global`. */
function classesOf(module: string): Set<string> {
  const text = textOf(module)
    .replaceAll(/:global\([^)]*\)|@import [^;]*;|\{[^{}]*\}/g, ' ')
    .replaceAll(/\d\.\d/g, ' ');
  return new Set([...text.matchAll(/\.([a-zA-Z][\w-]*)/g)].map(([, name = '']) => name));
}

/** Those of others that a module reaches. */
function globalsOf(module: string): string[] {
  return [...textOf(module).matchAll(/:global\(\.([\w-]+)\)/g)].map(([, name = '']) => name);
}

function namesAskedOf(module: string): Set<string> {
  return new Set(
    scripts.flatMap((file) =>
      importsOf(file)
        .filter(({ from }) => from === module)
        .flatMap(({ name }) => [...textOf(file).matchAll(new RegExp(`\\b${name}\\.(\\w+)`, 'g'))])
        .map(([, asked = '']) => asked),
    ),
  );
}

/** The modules that a script imports, and what it calls each. */
function importsOf(file: string): { readonly name: string; readonly from: string }[] {
  return [...textOf(file).matchAll(/import (\w+) from '([^']+\.module\.css)'/g)].map(([, name = '', from = '']) => ({
    name,
    from: resolve(dirname(file), from),
  }));
}

function found(file: string, ...patterns: RegExp[]): string[] {
  return patterns.flatMap((pattern) =>
    [...textOf(file).matchAll(pattern)].map(([text]) => `${placeOf(file)}: ${text}`),
  );
}

function placeOf(file: string): string {
  return relative(renderer, file).replaceAll('\\', '/');
}

/** Without comments. */
function textOf(file: string): string {
  return readFileSync(file, 'utf8').replaceAll(/\/\*[^]*?\*\/|(?<=^|\s)\/\/ .*$/gm, '');
}

function filesBelow(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const inner = join(folder, entry.name);
    return entry.isDirectory() ? filesBelow(inner) : [inner];
  });
}
