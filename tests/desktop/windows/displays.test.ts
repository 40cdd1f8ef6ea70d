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

describe('[displays] the words', () => {
  const one = 'There is only one display, so the wall screen is in a window here.';
  const mirrored = 'If a television shows the same as this display, extend onto it instead:';

  test.each([
    ['win32', 'press the Windows key and P, and choose Extend.'],
    ['darwin', 'in System Settings, Displays, set it to Extended display.'],
    ['linux', "in the system's display settings, choose to join or extend the displays instead of mirroring them."],
  ] as const)('on %s are those of its own settings', (platform, how) => {
    const notice = wallNotice(placeForWall([laptop], 1, WISH), WISH, { platform, placesWindows: true });
    expect(notice).toBe(`${one} ${mirrored} ${how}`);
  });

  test('of a display that is away have its name, where it has one', () => {
    const said = (label: string): string | null => {
      const wish = { ...WISH, display: { ...remembered(tv), label } };
      return wallNotice(placeForWall([laptop], 1, wish), wish, LINUX);
    };
    const rest = 'is not connected, so the wall screen is in a window here until it is. ';
    expect(said('Pool TV')).toContain(`The wall screen's display (Pool TV) ${rest}${mirrored}`);
    expect(said('')).toContain(`The wall screen's display ${rest}${mirrored}`);
  });

  test('where programs may not place windows say how to do it by hand', () => {
    const wayland = { platform: 'linux', placesWindows: false } as const;
    expect(wallNotice(placeForWall([laptop, tv], 1, WISH), WISH, wayland)).toBe(
      'This desktop does not let Lanecall choose a display. If the wall screen is on the wrong one, choose In a window ' +
        'in the menu Wall screen, drag the window to the television, and choose Full screen.',
    );
  });
});

describe('[displays] a window', () => {
  test('is two thirds of its display, at the lower right of what is free there', () => {
    const free = { x: 1300, y: 30, width: 1500, height: 900 };
    const place = placeForWall([laptop, { ...tv, workArea: free }], 1, {
      ...WISH,
      look: 'window',
      display: remembered(tv),
    });
    expect(place).toEqual({
      look: 'window',
      bounds: { x: 1800, y: 330, width: 1000, height: 600 },
      why: 'wanted',
    });
  });
});

describe('[displays] a display is known again', () => {
  const wanted = remembered(tv);

  test('by what is kept of it: id, name and size', () => {
    expect(wanted).toEqual({ id: 2, label: 'Pool TV', width: 1920, height: 1080 });
  });

  test.each([
    ['under its id and name, whatever its size is now', { bounds: { ...tv.bounds, width: 3840 } }, true],
    ['under its name and size, whatever its id is now', { id: 9 }, true],
    ['not by its size alone', { id: 9, label: 'Other' }, false],
    ['not by its id alone', { label: 'Other' }, false],
    ['not with another width', { id: 9, bounds: { ...tv.bounds, width: 1921 } }, false],
    ['not with another height', { id: 9, bounds: { ...tv.bounds, height: 1081 } }, false],
  ])('%s', (_, change, isKnown) => {
    expect(find([laptop, { ...tv, ...change }], wanted) !== undefined).toBe(isKnown);
  });

  test('and otherwise one that is not built in comes first', () => {
    const place = placeForWall([monitor, { ...laptop, id: 5 }, tv], 3, WISH);
    expect(place).toMatchObject({ look: 'full screen', display: { id: 2 } });
    expect(placeForWall([monitor, laptop], 3, WISH)).toMatchObject({ look: 'full screen', display: { id: 1 } });
  });
});
