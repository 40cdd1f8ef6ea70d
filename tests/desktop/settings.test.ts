/*
 * What is kept of the windows from one start to the next.
 */

import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { FIRST_SETTINGS, keepSettings, readSettings, settingsOf, writeSettings } from '../../app/desktop/settings.ts';
import { freshDataFolder } from '../support/host/folders/data-folder.ts';

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

  test('at a first start is the wall screen on a display of its own, and no place for the coach', () => {
    const wall = { shown: true, look: 'full screen', display: null };
    expect(FIRST_SETTINGS).toEqual({ wall, desk: null });
  });

  test('is plain JSON that a person can read', async () => {
    const folder = freshDataFolder();
    await writeSettings(folder, FIRST_SETTINGS);
    const text = readFileSync(join(folder, 'windows.json'), 'utf8');
    expect(text).toContain('\n  "wall": {\n    "shown": true,\n');
    expect(text.endsWith('}\n')).toBe(true);
  });

  test('is used only whole: a display or a place of which something is missing or odd was never chosen', () => {
    const display = { id: 7, label: 'Pool TV', width: 1920, height: 1080 };
    const desk = { x: -5, y: 0, width: 200, height: 200 };
    expect(settingsOf({ wall: { display }, desk })).toEqual({ wall: { ...FIRST_SETTINGS.wall, display }, desk });
    for (const field of Object.keys(display)) {
      for (const odd of [undefined, 1.5, null]) {
        expect(settingsOf({ wall: { display: { ...display, [field]: odd } } }).wall.display, field).toBeNull();
      }
    }
    for (const field of Object.keys(desk)) {
      for (const odd of [undefined, 1.5, '7']) {
        expect(settingsOf({ desk: { ...desk, [field]: odd } }).desk, field).toBeNull();
      }
    }
  });

  test('is no place where the window would be too small to be seen: 200 each way at least', () => {
    expect(settingsOf({ desk: { x: 0, y: 0, width: 199, height: 200 } }).desk).toBeNull();
    expect(settingsOf({ desk: { x: 0, y: 0, width: 200, height: 199 } }).desk).toBeNull();
  });

  test.each([
    [{ shown: false, look: 'window' }, false, 'window'],
    [{ shown: null, look: 'round' }, true, 'full screen'],
    [{ shown: true, look: 'full screen' }, true, 'full screen'],
  ])('of a wall screen set to %j is shown: %s, %s', (wall, shown, look) => {
    expect(settingsOf({ wall }).wall).toEqual({ shown, look, display: null });
  });

  test('changes at once, and every change is on the disk when that is asked', async () => {
    const folder = freshDataFolder();
    const kept = await keepSettings(folder);
    expect(kept.now()).toEqual(FIRST_SETTINGS);
    await kept.written();
    expect(existsSync(join(folder, 'windows.json'))).toBe(false);
    const desk = { x: 1, y: 2, width: 800, height: 600 };
    kept.change({ desk });
    kept.change({ wall: { ...FIRST_SETTINGS.wall, shown: false } });
    expect(kept.now()).toEqual({ wall: { ...FIRST_SETTINGS.wall, shown: false }, desk });
    await kept.written();
    expect((await keepSettings(folder)).now()).toEqual(kept.now());
  });
});
