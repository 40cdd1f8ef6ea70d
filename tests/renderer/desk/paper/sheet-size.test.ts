/* The type of a sheet is as large as lets it fit on one page, down to a limit. */

import { describe, expect, test } from 'vitest';
import type { SheetLine, SheetPart } from '../../../../renderer/desk/paper/sheet-lines.ts';
import { sheetSize } from '../../../../renderer/desk/paper/sheet-size.ts';

const line = (words: string, ...timings: readonly string[]): SheetLine => ({
  key: words,
  depth: 0,
  words,
  timings: timings.map((each) => ({ lanes: timings.length > 1 ? 'lanes 3 and 4' : '', words: each })),
});

const partOf = (lines: readonly SheetLine[]): readonly SheetPart[] => [{ key: 0, name: 'Main set', when: '', lines }];

const sizeOf = (count: number, each: SheetLine): string => sheetSize(partOf(new Array(count).fill(each)), 80);

const SIZES = ['largest', 'large', 'middle', 'small', 'smaller', 'smallest', 'least'];

describe('[paper] the size of a sheet', () => {
  test('a few lines are in the largest type, and more of them in smaller, in every size down to the least', () => {
    const sizes = Array.from({ length: 60 }, (_, index) => sizeOf(index + 1, line('4 × 50 fast', 'on 1:00')));
    expect(sizes[0]).toBe('largest');
    expect([...new Set(sizes)]).toEqual(SIZES);
  });

  test('no sheet is set in smaller type than the least', () => {
    expect(sizeOf(500, line('4 × 50 fast', 'on 1:00'))).toBe('least');
  });

  test('lanes that differ take a row each, and words that are long take more', () => {
    const by = (lanes: number) => line('4 × 50 fast', ...new Array<string>(lanes).fill('on 1:00'));
    const at = (each: SheetLine) => SIZES.indexOf(sizeOf(8, each));
    expect(at(by(6))).toBeGreaterThan(at(by(1)));
    expect(at(line('long words '.repeat(20), 'on 1:00'))).toBeGreaterThan(at(line('4 × 50 fast', 'on 1:00')));
  });
});
