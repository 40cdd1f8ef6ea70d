/*
 * Where the coach's window opens.
 */

import { describe, expect, test, vi } from 'vitest';
import { deskLook } from '../../../app/desktop/windows/desk-window.ts';
import { laptop, tv } from '../../support/desktop/some-displays.ts';

vi.mock('electron', () => ({ BrowserWindow: {}, screen: {} }));

describe("[desktop] the coach's window opens", () => {
  test('where it was, if there is still a display there', () => {
    const before = { x: 1400, y: 100, width: 900, height: 700 };
    expect(deskLook([laptop, tv], 1, before)).toMatchObject(before);
    expect(deskLook([laptop], 1, before)).toMatchObject({ x: 0, y: 0, width: 1280, height: 800 });
  });

  test("at first on the machine's own display", () => {
    expect(deskLook([tv, laptop], tv.id, null).x).toBeLessThan(1280);
    expect(deskLook([], 0, null)).toMatchObject({ width: 1280 });
  });

  test('at first on the primary display where the system says of none that it is built in', () => {
    const plain = { ...laptop, internal: false };
    expect(deskLook([tv, plain], plain.id, null).x).toBeLessThan(1280);
    expect(deskLook([plain, tv], tv.id, null).x).toBeGreaterThanOrEqual(1280);
  });

  test('in the middle of what is free there, as large as it may be', () => {
    const wide = { ...tv, internal: true, workArea: { x: 1280, y: 40, width: 1921, height: 1041 } };
    expect(deskLook([laptop, wide], wide.id, null)).toMatchObject({ x: 0, y: 0, width: 1280, height: 800 });
    expect(deskLook([wide], wide.id, null)).toEqual({
      title: 'Lanecall',
      takesFocus: true,
      x: 1601,
      y: 131,
      width: 1280,
      height: 860,
    });
    expect(deskLook([], 0, null)).toMatchObject({ x: 0, y: 0, width: 1280, height: 860 });
  });

  test('on any display where none is built in and the primary one is not known', () => {
    expect(deskLook([tv], 99, null).x).toBeGreaterThanOrEqual(1280);
  });

  test.each([
    ['80 of its width are', { x: 1200 }, true],
    ['79 of its width are', { x: 1201 }, false],
    ['its other end is by 80', { x: -820 }, true],
    ['its other end is by 79', { x: -821 }, false],
    ['its title bar is at the very top', { y: 0 }, true],
    ['its title bar is above', { y: -1 }, false],
    ['80 of its height are', { y: 720 }, true],
    ['79 of its height are', { y: 721 }, false],
  ])('where it was, as long as it can be taken hold of there: %s', (_, change, isKept) => {
    const before = { x: 100, y: 100, width: 900, height: 700, ...change };
    expect(deskLook([laptop], 1, before)).toMatchObject(isKept ? before : { x: 0, y: 0, width: 1280, height: 800 });
  });

  test('where it was on a display that does not begin at the corner', () => {
    const far = { ...tv, workArea: { x: 1280, y: 100, width: 1920, height: 980 } };
    const at = (x: number, y: number) => deskLook([far], 2, { x, y, width: 400, height: 300 });
    expect([at(3120, 1000).x, at(960, 100).x]).toEqual([3120, 960]);
    expect([at(3121, 1000).x, at(960, 99).x, at(959, 100).x]).toEqual([1600, 1600, 1600]);
  });
});
