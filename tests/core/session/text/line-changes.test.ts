/*
 * What two texts have not in common, line by line.
 */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { changedText, changesOf, overlap, withChanges } from '../../../../app/core/session/text/line-changes.ts';

const text = fc.array(fc.constantFrom('a', 'b', 'c', ''), { maxLength: 8 });

describe('changes between two texts', () => {
  test('made in the one, they give the other, and none touches the next', () => {
    fc.assert(
      fc.property(text, text, (before, after) => {
        const changes = changesOf(before, after);
        expect(withChanges(before, changes)).toEqual(after);
        expect(withChanges(before, [...changes].reverse())).toEqual(after);
        changes.forEach((change, index) => {
          expect(change.to - change.from + change.by.length).toBeGreaterThan(0);
          const next = changes[index + 1];
          if (next) expect(next.from).toBeGreaterThan(change.to);
        });
      }),
    );
  });

  test('no more lines are changed than need be', () => {
    fc.assert(
      fc.property(text, text, (before, after) => {
        const changed = changesOf(before, after).reduce((sum, { from, to, by }) => sum + to - from + by.length, 0);
        expect(changed).toBe(before.length + after.length - 2 * mostInCommon(before, after));
      }),
    );
  });

  test('lines that stayed between two changes are not among them', () => {
    expect(changesOf(['a', 'b', 'c', 'd'], ['a', 'B', 'c', 'd', 'e'])).toEqual([
      { from: 1, to: 2, by: ['B'] },
      { from: 4, to: 4, by: ['e'] },
    ]);
    expect(changesOf(['a'], ['a'])).toEqual([]);
  });

  test('of two lines that have changed places the second stays', () => {
    expect(changesOf(['a', 'b'], ['b', 'a'])).toEqual([
      { from: 0, to: 1, by: [] },
      { from: 2, to: 2, by: ['a'] },
    ]);
  });

  test('what stands in either text alone is one change', () => {
    expect(changesOf([], ['a'])).toEqual([{ from: 0, to: 0, by: ['a'] }]);
    expect(changesOf(['a', 'b'], ['a'])).toEqual([{ from: 1, to: 2, by: [] }]);
    expect(changesOf(['b'], ['a', 'b'])).toEqual([{ from: 0, to: 0, by: ['a'] }]);
    expect(changesOf([], [])).toEqual([]);
    expect(changesOf(['a', 'a'], ['a'])).toEqual([{ from: 1, to: 2, by: [] }]);
    expect(changesOf(['a'], ['a', 'a'])).toEqual([{ from: 1, to: 1, by: ['a'] }]);
  });

  test('changes overlap where they are about the same line, or put something in at one place', () => {
    const at = (from: number, to: number) => ({ from, to, by: ['x'] });
    expect(overlap(at(1, 3), at(2, 4))).toBe(true);
    expect(overlap(at(1, 1), at(1, 1))).toBe(true);
    expect(overlap(at(1, 3), at(3, 4))).toBe(false);
    expect(overlap(at(3, 4), at(1, 3))).toBe(false);
    expect(overlap(at(5, 6), at(1, 3))).toBe(false);
    expect(overlap(at(1, 2), at(2, 2))).toBe(false);
  });

  test('said in a few words, by their lines', () => {
    expect(changedText(['a', 'b', 'c'], ['a', 'B', 'c'])).toBe('line 2 is changed');
    expect(changedText(['a', 'b', 'c'], ['a', 'x', 'y', 'z', 'c', 'd'])).toBe(
      'lines 2 to 4 are changed, line 6 is new',
    );
    expect(changedText(['a', 'b', 'c'], ['c'])).toBe('lines 1 and 2 are gone');
    expect(changedText(['a', 'b', 'c', 'd', 'e', 'f', 'g'], ['A', 'b', 'C', 'd', 'E', 'f', 'G'])).toBe(
      'line 1 is changed, line 3 is changed, line 5 is changed, line 7 is changed',
    );
    const many = Array.from({ length: 12 }, (_, index) => `${index}`);
    expect(
      changedText(
        many,
        many.map((line, index) => (index % 2 ? `${line}!` : line)),
      ),
    ).toBe('line 2 is changed, line 4 is changed, line 6 is changed, line 8 is changed, and 2 more');
  });
});

/** How many lines two texts have in common, in their order, worked out plainly. */
function mostInCommon([a, ...before]: readonly string[], [b, ...after]: readonly string[]): number {
  if (a === undefined || b === undefined) return 0;
  if (a === b) return 1 + mostInCommon(before, after);
  return Math.max(mostInCommon([a, ...before], after), mostInCommon(before, [b, ...after]));
}
