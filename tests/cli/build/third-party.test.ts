/*
 * The licences that go along with the program: of what is bundled, from the packages' own files.
 */

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import { packageFolder, thirdPartyText } from '../../../app/cli/build/third-party.mjs';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';

let modules: string;
beforeEach(() => {
  modules = join(freshDataFolder(), 'node_modules');
});

/** A package with these files besides its own description; a file of it that is bundled. */
function packaged(name: string, license: string, files: Record<string, string>): string {
  const folder = join(modules, name);
  mkdirSync(join(folder, 'dist'), { recursive: true });
  writeFileSync(join(folder, 'package.json'), JSON.stringify({ name, version: '1.2.3', license }));
  for (const [file, text] of Object.entries(files)) writeFileSync(join(folder, file), text);
  return join(folder, 'dist', 'index.js');
}

describe('[build] licences of others', () => {
  test('stand under the names of their packages, once each, with notices', () => {
    const paint = packaged('paint', 'MIT', { LICENSE: 'Permission of paint\r\n' });
    const sound = packaged('@band/sound', 'Apache-2.0', { 'LICENSE.md': 'Permission of sound', NOTICE: 'Thanks' });
    const text = thirdPartyText('0.9.1', [paint, '/clone/app/core/plan.ts', `\0${paint}?commonjs`, sound]);
    expect(text).toMatch(/^Lanecall 0\.9\.1,/);
    expect(text.match(/^\S+ 1\.2\.3 .*$/gm)).toEqual(['@band/sound 1.2.3 (Apache-2.0)', 'paint 1.2.3 (MIT)']);
    expect(text).toMatch(/Permission of sound\n\nThanks\n\n-+\n\npaint 1\.2\.3 \(MIT\)\n\nPermission of paint\n$/);
  });

  test('stop the build where one was not allowed, or is nowhere to be read', () => {
    const copyleft = packaged('other', 'GPL-3.0', { LICENSE: 'x' });
    expect(() => thirdPartyText('0.9.1', [copyleft])).toThrow(/^other is bundled under GPL-3\.0/);
    const silent = packaged('silent', 'MIT', {});
    expect(() => thirdPartyText('0.9.1', [silent])).toThrow(/^silent is bundled and has no text/);
  });

  test('are found for the innermost package, and for none of our own files', () => {
    expect(packageFolder('/a/node_modules/b/node_modules/@c/d/e.js')).toBe(
      join('/a', 'node_modules', 'b', 'node_modules', '@c', 'd'),
    );
    expect(packageFolder('/a/app/core/units.ts')).toBeNull();
  });
});
