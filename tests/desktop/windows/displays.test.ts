/*
 * Where the wall screen goes, and what the coach is told of it.
 */

import { describe, expect, test } from 'vitest';
import {
  find,
  placeForWall,
  remembered,
  wallNotice,
  type SomeDisplay,
  type WallWish,
} from '../../../app/desktop/windows/displays.ts';
import { laptop, monitor, tv } from '../../support/desktop/some-displays.ts';

const LINUX = { platform: 'linux', placesWindows: true } as const;
const WISH: WallWish = { shown: true, look: 'full screen', display: null };

describe('[displays] the wall screen goes', () => {
  test.each<[string, SomeDisplay[], number, Partial<WallWish>, string]>([
    ['to the external display', [laptop, tv], 1, {}, 'full screen 2'],
    ['to the remembered one of two', [laptop, tv, monitor], 1, { display: remembered(monitor) }, 'full screen 3'],
    [
      'to the remembered one under a new id',
      [laptop, monitor, tv],
      1,
      { display: { ...remembered(tv), id: 77 } },
      'full screen 2',
    ],
    [
      "to the remembered one though its id is now another display's",
      [laptop, { ...monitor, id: 2 }, { ...tv, id: 3 }],
      1,
      { display: remembered(tv) },
      'full screen 3',
    ],
    [
      'to any other while the remembered one is away',
      [laptop, monitor],
      1,
      { display: remembered(tv) },
      'full screen 3',
    ],
    ["never over the coach's window", [laptop, tv], 2, { display: remembered(tv) }, 'full screen 1'],
    ['into a window where there is one display', [laptop], 1, {}, 'window one display'],
    ['into a window where the remembered one is away', [laptop], 1, { display: remembered(tv) }, 'window gone'],
    ['into a window where that is wanted', [laptop, tv], 1, { look: 'window' }, 'window wanted'],
    ['nowhere where it is not shown', [laptop, tv], 1, { shown: false }, 'none'],
    ['nowhere where there is no display at all', [], 1, {}, 'none'],
    ["beside the coach's window where its display has just gone", [tv], 1, {}, 'window one display'],
  ])('%s', (_, displays, coachOn, wish, expected) => {
    const place = placeForWall(displays, coachOn, { ...WISH, ...wish });
    const more = place.look === 'full screen' ? ` ${place.display.id}` : place.look === 'window' ? ` ${place.why}` : '';
    expect(place.look + more).toBe(expected);
  });

  test("a window stands inside the display and leaves the coach's to be seen", () => {
    const place = placeForWall([laptop], 1, WISH);
    if (place.look !== 'window') throw new Error(place.look);
    const { x, y, width, height } = place.bounds;
    expect([x + width, y + height]).toEqual([1280, 800]);
    expect(width * height).toBeLessThan((1280 * 800) / 2);
  });

  test('a display is known again by its label only together with its size', () => {
    const other = { ...tv, id: 9, bounds: { ...tv.bounds, width: 3840 } };
    expect(find([laptop, other], remembered(tv))).toBeUndefined();
  });
});

describe('[displays] the coach is told', () => {
  test.each(['win32', 'darwin', 'linux'] as const)('on %s how to extend instead of mirror', (platform) => {
    const place = placeForWall([laptop], 1, WISH);
    expect(wallNotice(place, WISH, { platform, placesWindows: true })).toMatch(
      /only one display.*extend onto it instead: .+\.$/s,
    );
  });

  test('how to put it there by hand where programs may not place windows', () => {
    const wayland = { platform: 'linux', placesWindows: false } as const;
    expect(wallNotice(placeForWall([laptop, tv], 1, WISH), WISH, wayland)).toMatch(/drag the window to the television/);
  });

  test('which display is away', () => {
    const wish = { ...WISH, display: remembered(tv) };
    expect(wallNotice(placeForWall([laptop], 1, wish), wish, LINUX)).toContain('(Pool TV) is not connected');
  });

  test.each<[string, SomeDisplay[], Partial<WallWish>]>([
    ['is where it should be', [laptop, tv], {}],
    ['is in a window on purpose', [laptop], { look: 'window' }],
    ['is not shown', [laptop], { shown: false }],
  ])('nothing where it %s', (_, displays, change) => {
    const wish = { ...WISH, ...change };
    expect(wallNotice(placeForWall(displays, 1, wish), wish, LINUX)).toBeNull();
  });
});
