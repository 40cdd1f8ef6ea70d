/*
 * Up to where two texts are compared line by line. Apart from the other tests of changes, so that those are quick.
 */

import { expect, test } from 'vitest';
import { changesOf } from '../../../../app/core/session/text/line-changes.ts';

test('a text too large to be compared line by line counts as changed from its first change to its last', () => {
  const before = Array.from({ length: 3000 }, (_, line) => `x${line}`);
  const after = before.map((line, index) => (index === 5 || index === 2990 ? `${line}!` : line));
  expect(changesOf(before, after)).toEqual([{ from: 5, to: 2991, by: after.slice(5, 2991) }]);
});

test('two thousand lines are still compared line by line', () => {
  const before = Array.from({ length: 2000 }, (_, line) => `x${line}`);
  const after = before.map((line, index) => (index === 0 || index === 1999 ? `${line}!` : line));
  expect(changesOf(before, after)).toEqual([
    { from: 0, to: 1, by: ['x0!'] },
    { from: 1999, to: 2000, by: ['x1999!'] },
  ]);
});
