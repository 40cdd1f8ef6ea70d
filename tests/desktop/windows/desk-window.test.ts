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
});
