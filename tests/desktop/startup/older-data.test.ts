/*
 * What an older data folder holds comes over.
 */

import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { bringOver } from '../../../app/desktop/startup/older-data.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';

describe('[desktop] runs of an older data folder', () => {
  test('are brought over once, and nothing that is there already is written over', async () => {
    const [older, folder] = [freshDataFolder(), freshDataFolder()];
    for (const [place, name, text] of [
      [older, 'a.run', 'old a'],
      [older, 'b.run', 'old b'],
      [folder, 'b.run', 'new b'],
    ] as const) {
      mkdirSync(join(place, 'runs'), { recursive: true });
      writeFileSync(join(place, 'runs', name), text);
    }
    await bringOver(older, folder);
    const read = (name: string): string => readFileSync(join(folder, 'runs', name), 'utf8');
    expect([read('a.run'), read('b.run')]).toEqual(['old a', 'new b']);
    rmSync(join(folder, 'runs', 'a.run'));
    await bringOver(older, folder);
    expect(existsSync(join(folder, 'runs', 'a.run'))).toBe(false);
    expect(existsSync(join(older, 'runs.brought-over', 'a.run'))).toBe(true);
  });

  test('are none where there is no such folder', async () => {
    await expect(bringOver('/no/such/folder', freshDataFolder())).resolves.toBeUndefined();
  });
});
