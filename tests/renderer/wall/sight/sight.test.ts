/* From how far away a wall screen can be read, and what it offers to those who stand farther. */

import { describe, expect, test } from 'vitest';
import { FIRST_SETTINGS, type ScreenSettings } from '../../../../app/core/screen/screen-settings.ts';
import { layoutFor, type Room } from '../../../../renderer/wall/layout.ts';
import { readWallChoice, type WallChoice } from '../../../../renderer/wall/screen/wall-choice.ts';
import {
  heightsIn,
  helpsFor,
  metres,
  reachesOf,
  reachText,
  sightOf,
  type Help,
} from '../../../../renderer/wall/sight/sight.ts';

function roomOf(lanes: number, choice: WallChoice, width = 1920, height = 1080): Room {
  return { width, height, lanes, swimmers: 4, widest: '88:88', inset: 0.05, shows: choice };
}

function choiceWith(change: Partial<ScreenSettings> = {}): WallChoice {
  return readWallChoice('', { ...FIRST_SETTINGS, ...change });
}

function reachesWith(lanes: number, change: Partial<ScreenSettings> = {}): ReadonlyMap<string, number> {
  const choice = choiceWith(change);
  const room = roomOf(lanes, choice);
  const reaches = reachesOf(heightsIn(layoutFor(room, choice.face), choice), { ...room, diagonal: choice.diagonal });
  return new Map(reaches.map(({ kind, least }) => [kind, least]));
}

const CHANGES: { readonly [kind in Help['kind']]: Partial<ScreenSettings> } = {
  'fewer words': { words: false, after: false },
  'two columns': { twoColumns: true },
  shared: {},
  'leaves only': { words: false, after: false, twoColumns: true, leavesOnly: true },
  digits: { face: 'digits' },
};

const lanesUpTo = (n: number): readonly number[] => Array.from({ length: n }, (_, lane) => lane + 1);

test('[sight] the design case: leaves of six lanes on 55 inches are read from 15 m, and the clock from farther', () => {
  const reaches = reachesWith(6);
  expect(reaches.get('leave')).toBeGreaterThanOrEqual(15);
  expect(reaches.get('clock')).toBeGreaterThan(reaches.get('leave')!);
  expect(reaches.get('seconds')).toBeLessThan(reaches.get('leave')!);
});

test('[sight] a larger screen is read from farther in the same measure', () => {
  expect(reachesWith(6, { diagonal: 110 }).get('leave')).toBeCloseTo(2 * reachesWith(6).get('leave')!, 6);
});

test("[sight] a dial's clock is read by its numerals", () => {
  const reaches = reachesWith(6, { face: 'sweep' });
  expect(reaches.get('clock')).toBeGreaterThan(5);
  expect(reaches.get('clock')).toBeLessThan(reachesWith(6).get('clock')!);
});

test('[sight] what is left out is not told', () => {
  expect([...reachesWith(6, { words: false }).keys()]).not.toContain('head');
  expect([...reachesWith(6, { leavesOnly: true }).keys()]).toEqual(['clock', 'leave', 'seconds', 'number', 'rep']);
});

test('[sight] in whole metres, rounded down', () => {
  expect(reachText({ least: 18.94, preferred: 15.1 })).toBe('to 18 m, well to 15 m');
  expect(reachText({ least: 14.96, preferred: 11.99 })).toBe('to 15 m, well to 12 m');
});

describe('[sight] what helps', () => {
  const helps = (lanes: number, change: Partial<ScreenSettings> = {}) => {
    const choice = choiceWith(change);
    return helpsFor(roomOf(lanes, choice), choice, lanesUpTo(lanes));
  };

  test('two columns, lanes shared, clock and leaves only: each with how far its leaves are read then', () => {
    const found = helps(6);
    expect(found.map(({ kind }) => kind)).toEqual(['two columns', 'shared', 'leaves only']);
    expect(found.find(({ kind }) => kind === 'shared')!.lanes).toEqual([1, 2, 3]);
    const turned = choiceWith({ laneOne: 'bottom' });
    const shared = helpsFor(roomOf(6, turned), turned, [...lanesUpTo(6)].reverse()).find(
      ({ kind }) => kind === 'shared',
    );
    expect(shared!.lanes).toEqual([1, 2, 3]);
  });

  test('only what makes leaves larger: two columns are there already with eight lanes, one lane has nobody to share with', () => {
    expect(helps(8).map(({ kind }) => kind)).not.toContain('two columns');
    expect(helps(1).map(({ kind }) => kind)).not.toContain('shared');
    expect(helps(6, { leavesOnly: true }).map(({ kind }) => kind)).toEqual(['shared']);
    expect(helpsFor(roomOf(0, choiceWith()), choiceWith(), [])).toEqual([]);
  });

  test('beside how far the leaves can be read as they are; nothing while there are none', () => {
    const choice = choiceWith();
    const sight = sightOf(roomOf(6, choice), choice, lanesUpTo(6))!;
    expect(sight.least).toBeCloseTo(reachesWith(6).get('leave')!, 6);
    expect(sight.helps).toEqual(helps(6));
    expect(sightOf(roomOf(0, choice), choice, [])).toBeNull();
  });

  test('digits in place of a dial, whose numerals cannot be read from 15 m: its clock is read from there then', () => {
    for (const lanes of [2, 3, 4, 6, 8, 10, 12]) {
      const found = helps(lanes, { face: 'sweep' }).find(({ kind }) => kind === 'digits');
      expect(found?.least, `${lanes} lanes`).toBeGreaterThanOrEqual(15);
      expect(reachesWith(lanes, { face: 'digits' }).get('clock')).toBeCloseTo(found!.least, 6);
    }
    expect(helps(6).map(({ kind }) => kind)).not.toContain('digits');
  });

  test('what it promises is what the setting then gives', () => {
    const { least } = helps(6).find(({ kind }) => kind === 'leaves only')!;
    expect(reachesWith(6, { leavesOnly: true }).get('leave')).toBeCloseTo(least, 6);
  });

  test('each is at least a metre farther as it is said, and none makes the clock smaller', () => {
    for (const face of ['digits', 'sweep'] as const) {
      for (const diagonal of [24, 32, 55, 110]) {
        for (let lanes = 1; lanes <= 12; lanes++) {
          const now = reachesWith(lanes, { face, diagonal });
          for (const { kind, least, lanes: kept } of helps(lanes, { face, diagonal })) {
            const then = reachesWith(kept.length, { face, diagonal, ...CHANGES[kind] });
            const larger = kind === 'digits' ? 'clock' : 'leave';
            expect(metres(least), `${kind}, ${lanes} lanes`).toBeGreaterThan(metres(now.get(larger)!));
            const enough = Math.min(metres(now.get('leave')!), FIRST_SETTINGS.reader);
            expect(metres(then.get('leave')!), `${kind}, ${lanes} lanes`).toBeGreaterThanOrEqual(enough);
            expect(then.get('clock'), `${kind}, ${lanes} lanes`).toBeGreaterThanOrEqual(now.get('clock')!);
          }
        }
      }
    }
    // Without its words the head is lower, and the clock in it smaller.
    expect(helps(6).map(({ kind }) => kind)).not.toContain('fewer words');
  });
});
