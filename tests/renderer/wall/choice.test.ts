import { describe, expect, test } from 'vitest';
import { FIRST_SETTINGS, type ScreenSettings } from '../../../app/core/screen/screen-settings.ts';
import { driftAt } from '../../../renderer/wall/screen/drift.ts';
import { chosenLanes, readWallChoice } from '../../../renderer/wall/screen/wall-choice.ts';

describe('what the address asks for', () => {
  const all = [1, 2, 3, 4, 5, 6];
  const lanesOf = (search: string): readonly number[] => chosenLanes(all, readWallChoice(search));

  test('all lanes without a wish', () => expect(lanesOf('')).toEqual(all));
  test('a range', () => expect(lanesOf('?lanes=1-4')).toEqual([1, 2, 3, 4]));
  test('a list, in lane order', () => expect(lanesOf('?lanes=3,1')).toEqual([1, 3]));
  test('both, and backwards', () => expect(lanesOf('?lanes=6,3-2')).toEqual([2, 3, 6]));
  test('lanes that are not there are left out', () => expect(lanesOf('?lanes=5-12')).toEqual([5, 6]));
  test('where none of them is there a next leave is not hidden: all lanes', () => {
    expect(lanesOf('?lanes=9')).toEqual(all);
  });
  test('what cannot be read asks for nothing', () => expect(lanesOf('?lanes=one')).toEqual(all));
  test('turned round for the other side', () => expect(lanesOf('?flip&lanes=1-3')).toEqual([3, 2, 1]));
  test('push-off side and order by themselves; what is said of one holds against ?flip', () => {
    const asked = (search: string): readonly string[] => {
      const { pushOff, laneOne } = readWallChoice(search);
      return [pushOff, laneOne];
    };
    expect(
      ['', '?flip', '?from=right', '?order=up', '?flip&from=left', '?flip&order=down', '?from=above'].map(asked),
    ).toEqual([
      ['left', 'top'],
      ['right', 'bottom'],
      ['right', 'top'],
      ['left', 'bottom'],
      ['left', 'bottom'],
      ['right', 'top'],
      ['left', 'top'],
    ]);
    expect(lanesOf('?order=up')).toEqual([6, 5, 4, 3, 2, 1]);
  });

  test('an inset of 0 to 10 %, else 5', () => {
    const insets = ['', '0', '2.5', '10', '11', '-1', 'wide'].map((inset) => readWallChoice(`?inset=${inset}`).inset);
    expect(insets).toEqual([0.05, 0, 0.025, 0.1, 0.05, 0.05, 0.05]);
  });

  test("a face, digits by default; a sweep shows the pool's clock unless another is asked for", () => {
    const asked = (search: string): readonly string[] => {
      const { face, clock, top } = readWallChoice(search);
      return [face.name, clock, top];
    };
    expect(['', '?face=sun', '?face=sweep', '?face=sweep&clock=run&top=00', '?top=12'].map(asked)).toEqual([
      ['digits', 'stretch', '60'],
      ['digits', 'stretch', '60'],
      ['sweep', 'pool', '60'],
      ['sweep', 'run', '00'],
      ['digits', 'stretch', '60'],
    ]);
  });

  test('what is left out, by settings and by address; clock and leaves only leaves all of it out', () => {
    const shown = (search: string, change: Partial<ScreenSettings> = {}): readonly boolean[] => {
      const choice = readWallChoice(search, { ...FIRST_SETTINGS, ...change });
      return [choice.words, choice.after, choice.end, choice.names];
    };
    expect(shown('')).toEqual([true, true, false, false]);
    expect(shown('?without=words')).toEqual([false, true, false, false]);
    expect(shown('?without=after,words&names&end')).toEqual([false, false, true, true]);
    expect(shown('', { after: false, names: true })).toEqual([true, false, false, true]);
    expect(shown('', { leavesOnly: true, end: true, names: true })).toEqual([false, false, false, false]);
    expect(shown('?only=leaves&end&names')).toEqual([false, false, false, false]);
  });

  test('settings hold where the address asks for nothing, and the address holds against them', () => {
    const settings: ScreenSettings = {
      ...FIRST_SETTINGS,
      clock: 'run',
      face: 'sweep',
      lanes: [4, 2],
      laneOne: 'bottom',
      inset: 0,
      light: 'bright hall',
      diagonal: 75,
      reader: 25,
    };
    const kept = readWallChoice('', settings);
    expect(chosenLanes(all, kept)).toEqual([4, 2]);
    expect([kept.clock, kept.face.name, kept.inset, kept.light, kept.diagonal, kept.reader]).toEqual([
      ...['run', 'sweep', 0, 'bright hall', 75, 25],
    ]);
    const asked = readWallChoice('?lanes=1&face=digits&light=contrast&inset=3&reader=10&diagonal=900', settings);
    expect(chosenLanes(all, asked)).toEqual([1]);
    expect([asked.clock, asked.face.name, asked.inset, asked.light, asked.diagonal, asked.reader]).toEqual([
      ...['stretch', 'digits', 0.03, 'contrast', 75, 10],
    ]);
    expect(readWallChoice('?light=sun', settings).light).toBe('bright hall');
  });

  test('end and minutes in hand only where they are asked for', () => {
    expect(['', '?end'].map((search) => readWallChoice(search).end)).toEqual([false, true]);
  });

  test('a clock, the one of the stretch by default', () => {
    expect(['', '?clock=run', '?clock=pool', '?clock=sun'].map((search) => readWallChoice(search).clock)).toEqual([
      'stretch',
      'run',
      'pool',
      'stretch',
    ]);
  });
});

describe('the drift of the picture', () => {
  test('moves by at most a pixel each way every half minute, within its reach, and comes everywhere', () => {
    const places = new Set<string>();
    let before = driftAt(0, 3);
    for (let time = 0; time < 84 * 30_000; time += 30_000) {
      const { x, y } = driftAt(time, 3);
      expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThanOrEqual(3);
      expect(Math.abs(x - before.x)).toBeLessThanOrEqual(1);
      expect(Math.abs(y - before.y)).toBeLessThanOrEqual(1);
      expect(driftAt(time + 29_999, 3)).toEqual({ x, y });
      places.add(`${x} ${y}`);
      before = { x, y };
    }
    expect(places.size).toBeGreaterThan(35);
  });
});
