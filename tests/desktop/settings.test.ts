/*
 * What is kept of the windows from one start to the next.
 */

import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { FIRST_SETTINGS, readSettings, settingsOf, writeSettings } from '../../app/desktop/settings.ts';
import { freshDataFolder } from '../support/host/data-folder.ts';

describe('[desktop] what is kept of the windows', () => {
  test('is there again, whole', async () => {
    const folder = freshDataFolder();
    const settings = {
      wall: { shown: false, look: 'window', display: { id: 7, label: 'Pool TV', width: 1920, height: 1080 } },
      desk: { x: 1, y: 2, width: 800, height: 600 },
    } as const;
    await writeSettings(folder, settings);
    expect(await readSettings(folder)).toEqual(settings);
    // They are kept where the folder has been taken away meanwhile, too.
    rmSync(folder, { recursive: true });
    await writeSettings(folder, settings);
    expect(await readSettings(folder)).toEqual(settings);
  });

  test('counts as not chosen where it is missing, torn or cannot be written', async () => {
    const folder = freshDataFolder();
    expect(await readSettings(folder)).toEqual(FIRST_SETTINGS);
    writeFileSync(join(folder, 'windows.json'), '{"wall": {"sho');
    expect(await readSettings(folder)).toEqual(FIRST_SETTINGS);
    mkdirSync(join(folder, 'taken', 'windows.json'), { recursive: true });
    await expect(writeSettings(join(folder, 'taken'), FIRST_SETTINGS)).resolves.toBeUndefined();
  });

  test.each([
    null,
    7,
    [],
    { wall: 7, desk: 'x' },
    { wall: { display: { id: 'x' } }, desk: { x: 0, y: 0, width: 1, height: 1 } },
  ])('is read with what can be used of %j', (value) => {
    expect(settingsOf(value)).toEqual(FIRST_SETTINGS);
  });
});
