/* The type of a sheet is as large as lets it fit on one page, down to a limit. */

import { describe, expect, test } from 'vitest';
import type { SheetLine, SheetPart } from '../../../../renderer/desk/paper/sheet-lines.ts';
import { sheetSize, timingRows } from '../../../../renderer/desk/paper/sheet-size.ts';

const line = (words: string, ...timings: readonly string[]): SheetLine => ({
  key: words,
  depth: 0,
  words,
  timings: timings.map((each) => ({ lanes: timings.length > 1 ? 'lanes 3 and 4' : '', words: each })),
});

const partOf = (lines: readonly SheetLine[], name = 'Main set'): SheetPart => ({ key: 0, name, when: '', lines });

const FAST = line('4 × 50 fast', 'on 1:00');

const sizeOf = (count: number, each: SheetLine, facts = 'Harbour squad'): number =>
  sheetSize([partOf(new Array(count).fill(each))], 60, facts);

const byLane = (lanes: number): SheetLine => line('4 × 50 fast', ...new Array<string>(lanes).fill('on 1:00'));

describe('[paper] the size of a sheet', () => {
  test('a few lines are in the largest type, and with more of them it only gets smaller, down to the least', () => {
    const sizes = Array.from({ length: 60 }, (_, index) => sizeOf(index + 1, FAST));
    expect([sizes[0], sizes.at(-1)]).toEqual([72, 12]);
    expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
  });

  test('no sheet is set in smaller type than the least', () => {
    expect(sizeOf(500, FAST)).toBe(12);
  });

  test('the usual lines of a lane fill the height of a page to more than 85 %', () => {
    // Less title, facts and caution it has 797 px; a line takes 1.35 em.
    for (const count of [8, 11, 14, 18, 25]) expect(count * sizeOf(count, FAST) * 1.35).toBeGreaterThan(0.85 * 797);
  });

  test('lanes that differ, long words, long headings and names below the title leave less room', () => {
    expect(sizeOf(12, byLane(6))).toBeLessThan(sizeOf(12, FAST));
    expect(sizeOf(8, line('long words '.repeat(20), 'on 1:00'))).toBeLessThan(sizeOf(8, FAST));
    expect(sizeOf(20, FAST, 'Ana, Bram, Chidi, Dilek, '.repeat(20))).toBeLessThan(sizeOf(20, FAST));
    const headed = (name: string): number => sheetSize(new Array(8).fill(partOf([FAST], name)), 60, '');
    expect(headed('A part with a very long name '.repeat(6))).toBeLessThan(headed('Main set'));
  });

  test('timings of lanes stand in as many columns as there is room for', () => {
    expect([72, 28, 14].map((type) => timingRows(byLane(10), type))).toEqual([10, 5, 3]);
    expect(timingRows(FAST, 28)).toBe(1);
    expect(timingRows(line('talk'), 28)).toBe(0);
  });

  test('three timings are in one row or in one column, never in two columns', () => {
    expect([14, 24, 30].map((type) => timingRows(byLane(3), type))).toEqual([1, 1, 3]);
    expect(timingRows(byLane(4), 30)).toBe(2);
  });
});
