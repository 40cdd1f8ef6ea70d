/* A window on its way to its place: what is asked of the system, how often it is looked, and when it is left alone. */

import { beforeEach, describe, expect, test, vi } from 'vitest';
import type { Rectangle } from 'electron';
import type { WallPlace } from '../../../app/desktop/windows/displays.ts';
import { boundsOf, placing } from '../../../app/desktop/windows/placing.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { tv } from '../../support/desktop/some-displays.ts';

const electron = vi.hoisted(() => ({ screen: { getDisplayMatching: (bounds: Rectangle) => ({ id: bounds.x }) } }));
vi.mock('electron', () => electron);

const AT: Rectangle = { x: 100, y: 50, width: 800, height: 600 };

/** A window that does nothing by itself; a test says what the system has made of it. */
class StillWindow {
  bounds: Rectangle = { x: 0, y: 0, width: 400, height: 300 };
  full = false;
  gone = false;
  /** What was asked of it, and when. */
  readonly asked: string[] = [];
  getBounds = (): Rectangle => this.bounds;
  isFullScreen = (): boolean => this.full;
  isDestroyed = (): boolean => this.gone;
  setBounds = ({ x }: Rectangle): void => void this.asked.push(`${clock.now() - BEGIN}: to ${x}`);
  setFullScreen = (on: boolean): void => void this.asked.push(`${clock.now() - BEGIN}: full ${on}`);
}

const BEGIN = 1_000_000;
let clock: FakeClock;
let window: StillWindow;
let place: WallPlace;

beforeEach(() => {
  clock = new FakeClock({ now: BEGIN });
  window = new StillWindow();
  place = { look: 'window', bounds: AT, why: 'wanted' };
});

function put(moves = true, placesWindows = true): void {
  placing(() => place, { platform: 'linux', placesWindows }, clock.timers).put(window as never, moves);
}

describe('[displays] a window that is not where it belongs', () => {
  test('is asked to go there at once, and again after 100, 100, 150, 150 and 1000 ms; then it is left', () => {
    put();
    clock.advance(60_000);
    expect(window.asked).toEqual([0, 100, 200, 350, 500, 1500].map((at) => `${at}: to 100`));
  });

  test('and is full screen leaves that first', () => {
    window.full = true;
    put();
    clock.advance(99);
    expect(window.asked).toEqual(['0: full false']);
    window.full = false;
    clock.advance(1);
    expect(window.asked).toEqual(['0: full false', '100: to 100']);
  });

  test('of a full screen goes to the display first and fills it then', () => {
    place = { look: 'full screen', display: tv };
    put();
    expect(window.asked).toEqual(['0: to 1280', '0: full true']);
  });

  test('is looked at no more once it was there three times', () => {
    window.bounds = AT;
    put();
    clock.advance(200);
    expect(clock.pending).toBe(0);
    window.bounds = { ...AT, x: 700 };
    clock.advance(60_000);
    expect(window.asked).toEqual([]);
  });

  test('has to be there three times in a row', () => {
    window.bounds = AT;
    put();
    clock.advance(100);
    window.bounds = { ...AT, x: 700 };
    clock.advance(100);
    window.bounds = AT;
    expect(window.asked).toEqual(['200: to 100']);
    clock.advance(150);
    expect(clock.pending).toBe(1);
    clock.advance(60_000);
    expect(window.asked).toHaveLength(1);
  });

  test.each([
    ['is closed', () => (window.gone = true)],
    ['is not wanted any more', () => (place = { look: 'none' })],
  ])('and %s meanwhile is looked at no more', (_, change) => {
    put();
    change();
    clock.advance(100);
    expect([window.asked.length, clock.pending]).toEqual([1, 0]);
  });

  test('that is put anew is looked at for the new place alone', () => {
    const placed = placing(() => place, { platform: 'linux', placesWindows: true }, clock.timers);
    placed.put(window as never, true);
    clock.advance(50);
    placed.put(window as never, true);
    clock.advance(60);
    expect(window.asked).toEqual(['0: to 100', '50: to 100']);
    expect(clock.pending).toBe(1);
  });
});

describe('[displays] a window counts as there', () => {
  const isThere = (bounds: Partial<Rectangle>, { moves = true, placesWindows = true } = {}): boolean => {
    window = new StillWindow();
    window.bounds = { ...AT, ...bounds };
    put(moves, placesWindows);
    return window.asked.length === 0;
  };

  test.each(['x', 'y', 'width', 'height'] as const)('as near as borders and bars make it: %s', (side) => {
    expect([isThere({ [side]: AT[side] + 64 }), isThere({ [side]: AT[side] - 64 })]).toEqual([true, true]);
    expect([isThere({ [side]: AT[side] + 65 }), isThere({ [side]: AT[side] - 65 })]).toEqual([false, false]);
  });

  test('by its size alone where programs do not place windows', () => {
    expect(isThere({ x: 0, y: 900 }, { placesWindows: false })).toBe(true);
    expect(isThere({ width: 300 }, { placesWindows: false })).toBe(false);
  });

  test('wherever it is, where it may have been moved by hand', () => {
    expect(isThere({ x: 900, width: 300 }, { moves: false })).toBe(true);
  });

  test('in full screen where it fills its display, and any display where programs do not place windows', () => {
    place = { look: 'full screen', display: { ...tv, id: 7 } };
    const isFullThere = (x: number, full: boolean, placesWindows = true): boolean => {
      window = new StillWindow();
      Object.assign(window, { bounds: { ...AT, x }, full });
      put(true, placesWindows);
      return window.asked.length === 0;
    };
    expect([isFullThere(7, true), isFullThere(8, true), isFullThere(7, false)]).toEqual([true, false, false]);
    expect([isFullThere(8, true, false), isFullThere(8, false, false)]).toEqual([true, false]);
  });

  test('not in full screen where it belongs in a window', () => {
    window.full = true;
    window.bounds = AT;
    put(false);
    expect(window.asked).toEqual(['0: full false']);
  });
});

test('[displays] the bounds of a place are the window’s, or the whole display', () => {
  expect(boundsOf({ look: 'window', bounds: AT, why: 'gone' })).toBe(AT);
  expect(boundsOf({ look: 'full screen', display: tv })).toBe(tv.bounds);
});
