/* What is taken for a wall screen's name and settings, and what is not. */

import { describe, expect, test } from 'vitest';
import { FIRST_SETTINGS } from '../../app/core/screen/screen-settings.ts';
import { hearHost, readFromScreen, WIRE_VERSION } from '../../app/wire/messages.ts';
import { screenChange, screenSettings, screensFile } from '../../app/wire/screen-settings.ts';

const ROOM = { width: 1920, height: 1080 };

function wishFor(wish: unknown, name: unknown = 'Screen 1') {
  return readFromScreen(JSON.stringify({ say: 'screen', id: 'a', name, wish }));
}

function helloOf(wall: unknown) {
  return readFromScreen(JSON.stringify({ say: 'hello', version: WIRE_VERSION, screen: 'wall', wall }));
}

describe('[screens] settings from outside', () => {
  test('the first settings are accepted', () => {
    expect(screenSettings.parse(JSON.parse(JSON.stringify(FIRST_SETTINGS)))).toEqual(FIRST_SETTINGS);
  });

  test.each([
    { diagonal: 10 },
    { diagonal: 300 },
    { reader: 2 },
    { reader: 60 },
    { inset: 0 },
    { inset: 10 },
    { lanes: [20, 0, 7] },
    { lanes: null },
    { light: 'contrast' },
    {},
  ])('%j can be wished for', (change) => {
    expect(screenChange.safeParse(change).success).toBe(true);
  });

  test.each([
    { diagonal: 9 },
    { diagonal: 301 },
    { diagonal: 55.5 },
    { diagonal: '55' },
    { reader: 1 },
    { reader: 61 },
    { inset: -1 },
    { inset: 11 },
    { lanes: [] },
    { lanes: [3, 3] },
    { lanes: [21] },
    { lanes: [1.5] },
    { lanes: [-1] },
    { lanes: '1-4' },
    { face: 'clock' },
    { light: 'daylight' },
    { words: 'no' },
    { clock: null },
    { colour: 'red' },
  ])('%j cannot be wished for', (change) => {
    expect(screenChange.safeParse(change).success).toBe(false);
    expect(wishFor({ settings: change })).toBeNull();
  });

  test('settings with one missing are refused', () => {
    expect(screenSettings.safeParse({ ...FIRST_SETTINGS, inset: undefined }).success).toBe(false);
  });
});

describe('[screens] messages', () => {
  test.each([{ settings: { pushOff: 'right' } }, { rename: 'Shallow end' }, { forget: true }])(
    '%j is a wish',
    (wish) => {
      expect(wishFor(wish)).toMatchObject({ name: 'Screen 1', wish });
    },
  );

  test.each([
    ['nothing', {}],
    ['two at once', { rename: 'Hall', forget: true }],
    ['to forget not', { forget: false }],
    ['an empty name', { rename: '' }],
    ['a name with spaces too many', { rename: ' Hall' }],
    ['a name of three lines', { rename: 'a\nb\nc' }],
    ['no object', 'forget'],
  ])('%s is not a wish', (_, wish) => {
    expect(wishFor(wish)).toBeNull();
  });

  test.each([[''], ['a'.repeat(41)], [7], [null]])('%j names no screen', (name) => {
    expect(wishFor({ forget: true }, name)).toBeNull();
  });

  test('a wall screen introduces itself, with or without a name', () => {
    const wall = { name: null, search: '?flip', room: ROOM };
    expect(helloOf(wall)).toMatchObject({ wall });
    expect(helloOf({ ...wall, name: '__proto__' })).toMatchObject({ wall: { name: '__proto__' } });
  });

  test.each([
    ['no size', { name: null, search: '' }],
    ['a size of nothing', { name: null, search: '', room: { width: 0, height: 1 } }],
    ['an endless address', { name: null, search: 'a'.repeat(513), room: ROOM }],
    ['settings of its own', { name: 'Hall', search: '', room: ROOM, settings: FIRST_SETTINGS }],
  ])('an introduction with %s is refused', (_, wall) => {
    expect(helloOf(wall)).toBeNull();
  });

  test.each([
    { say: 'screen', name: 'Hall', settings: FIRST_SETTINGS },
    { say: 'screens', screens: [{ name: 'Hall', settings: FIRST_SETTINGS, connected: [{ search: '', room: ROOM }] }] },
    { say: 'which' },
  ])('the host says $say', (message) => {
    expect(hearHost(JSON.stringify(message))).toEqual({ kind: 'message', message });
  });
});

describe('[screens] the file', () => {
  const kept = { name: 'Hall', settings: FIRST_SETTINGS, formerly: ['Screen 1'] };

  test('keeps screens by their names', () => {
    const screens = [kept, { ...kept, name: 'Gym', formerly: [] }];
    expect(screensFile.safeParse({ version: 1, screens }).success).toBe(true);
  });

  test.each([
    ['two of one name', { version: 1, screens: [kept, kept] }],
    ['no version', { screens: [kept] }],
    ['more than that', { version: 1, screens: [kept], windows: [] }],
  ])('with %s is not ours', (_, file) => {
    expect(screensFile.safeParse(file).success).toBe(false);
  });
});
