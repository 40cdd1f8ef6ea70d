import { expect, test } from 'vitest';
import type { FaceMark } from '../../../../renderer/wall/faces/clock-face.ts';
import { placeMarks, type PlacedMark } from '../../../../renderer/wall/faces/sweep-marks.ts';
import { handAt } from '../../../../renderer/wall/says/clock-text.ts';
import { view } from '../../../../app/core/run/view.ts';
import { Deck } from '../../../support/run/deck.ts';

function marks(...hands: number[]): FaceMark[] {
  return hands.map((seconds, index) => ({ lane: index + 1, hand: seconds * 1000, look: 'waiting' }));
}

function covered(placed: readonly PlacedMark[]): number {
  let pairs = 0;
  placed.forEach((a, index) => {
    for (const b of placed.slice(index + 1)) {
      const across = (a.width + b.width) / 2 - Math.abs(a.x - b.x);
      const down = (a.height + b.height) / 2 - Math.abs(a.y - b.y);
      if (across > 0 && down > 0) pairs++;
    }
  });
  return pairs;
}

test('lanes that leave at once share a mark that names them all, with a comma between, so that 1 and 2 are not read as 12', () => {
  const texts = (...hands: number[]): readonly string[] => placeMarks(marks(...hands)).map(({ text }) => text);
  expect(texts(30, 30, 30, 30)).toEqual(['1-4']);
  expect(texts(30, 30, 45)).toEqual(['3', '1, 2']);
  expect(texts(0, 30, 0, 0, 0)).toEqual(['2', '1, 3-5']);
  expect(texts(59.9, 0)).toEqual(['1, 2']);
});

test('marks of twelve lanes a second apart, or five, cover none of each other', () => {
  for (const apart of [0, 1, 2, 5]) {
    const placed = placeMarks(marks(...Array.from({ length: 12 }, (_, lane) => (20 + lane * apart) % 60)));
    expect(covered(placed), `${apart} s apart`).toBe(0);
  }
});

test('no mark stands on a numeral: lanes that share one, at each numeral, or up to eight some seconds apart', () => {
  const inkOf = (five: number) => {
    const angle = (five / 12) * 2 * Math.PI;
    const isQuarter = five % 3 === 0;
    const [width, height] = isQuarter ? [20, 15] : [five === 1 ? 6 : 13, 9.5];
    return { x: Math.sin(angle) * 52, y: -Math.cos(angle) * 52, width, height } as PlacedMark;
  };
  const numerals = Array.from({ length: 12 }, (_, five) => inkOf(five));
  const onNumerals = (placed: readonly PlacedMark[]): number => {
    return placed.reduce((sum, mark) => sum + numerals.filter((numeral) => covered([mark, numeral]) > 0).length, 0);
  };
  for (let second = 0; second < 60; second++) {
    for (const lanes of [1, 2, 3, 6]) {
      const together = marks(...Array.from({ length: lanes }, () => second));
      expect(onNumerals(placeMarks(together)), `${lanes} lanes at ${second}`).toBe(0);
    }
    for (const [lanes, apart] of [
      [6, 1],
      [6, 2],
      [6, 5],
      [8, 2],
      [8, 5],
    ] as const) {
      const hands = Array.from({ length: lanes }, (_, lane) => (second + lane * apart) % 60);
      expect(onNumerals(placeMarks(marks(...hands))), `${lanes} lanes ${apart} s apart from ${second}`).toBe(0);
    }
  }
});

test('the one that is due first stands outside', () => {
  const later: FaceMark = { lane: 1, hand: 30_000, look: 'later' };
  const ready: FaceMark = { lane: 2, hand: 31_000, look: 'ready' };
  const [inner, outer] = placeMarks([later, ready]);
  expect([inner!.text, outer!.text]).toEqual(['1', '2']);
  expect(Math.hypot(outer!.x, outer!.y)).toBeGreaterThan(Math.hypot(inner!.x, inner!.y));
});

test('the hand never jumps at a start: it counts from the start ahead, and readings of leaves agree with it', () => {
  const deck = new Deck('start on 5\nlane 1\n4 x 50 @ 0:50\n', 7).at(3, { do: 'start' });
  for (const clock of ['stretch', 'run', 'pool'] as const) {
    for (let t = 3000; t < 40_000; t += 500) {
      const [before, after] = [t, t + 500].map((at) => handAt(clock, view(deck.state, at), at));
      expect((after! - before! + 60_000) % 60_000, clock).toBe(500);
    }
  }
  const at = view(deck.state, 20_000);
  expect(handAt('stretch', at, at.lanes[0]!.next!.at!)).toBe(50_000);
});
