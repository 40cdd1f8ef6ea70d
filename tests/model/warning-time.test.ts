import { expect, test } from 'vitest';
import { tooLittleWarning } from './warning-time.ts';

const leaves = (...times: number[]) =>
  times.map((atMs) => ({ lane: 1, stretch: 0, line: 3, rounds: [], rep: 1, of: 1, distance: 50, atMs }));

test('[R6] a lane is warned where its next leave is not earlier, or ten seconds away', () => {
  const t = 100_000;
  const says = (without: number[], withIt: number[]) => tooLittleWarning(leaves(...without), leaves(...withIt), t);
  expect(says([105_000, 165_000], [105_000, 108_000])).toBe(null);
  expect(says([105_000], [107_000])).toBe(null);
  expect(says([105_000], [])).toBe(null);
  expect(says([170_000], [110_000])).toBe(null);
  expect(says([170_000], [109_999])).toContain('leaves at 109999');
  expect(says([], [109_999])).toContain('leaves at 109999');
  // Within the command's own quarter second, and at its very time.
  expect(says([170_000], [100_200])).toContain('leaves at 100200');
  expect(says([], [100_000])).toContain('leaves at 100000');
  // What is on its way cannot be lost, and says nothing of the leave after it.
  expect(says([100_250, 170_000], [100_250, 110_000])).toBe(null);
  expect(says([100_250, 170_000], [100_250, 105_000])).toContain('leaves at 105000');
  expect(says([100_250, 170_000], [170_000])).toContain('loses');
  expect(says([100_251, 170_000], [170_000])).toBe(null);
});
