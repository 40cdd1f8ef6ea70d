/* What finds lost and doubled leaves must itself find them. */

import { expect, test } from 'vitest';
import { wronglyCalled } from './called-leaves.ts';

const first = { lane: 1, at: 10_000 };
const second = { lane: 2, at: 10_000 };
const later = { lane: 1, at: 50_000 };

test('[account] every leave called once is right, in whatever order', () => {
  expect(wronglyCalled('host', [first, second, later], [later, first, second])).toEqual([]);
});

test('[account] a leave that was lost, doubled or made up is named', () => {
  expect(wronglyCalled('host', [first, second], [first])).toEqual(['host: lane 2 at 10000 ms was never called']);
  expect(wronglyCalled('host', [first], [first, first])).toEqual([
    'host: lane 1 at 10000 ms happened 1 times and was called 2 times',
  ]);
  expect(wronglyCalled('host', [first], [first, later])).toEqual([
    'host: lane 1 at 50000 ms was called and did not happen',
  ]);
});
