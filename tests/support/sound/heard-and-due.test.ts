/* What was heard against what was due, with every kind of fault put in. */

import { describe, expect, test } from 'vitest';
import { errorsOf, spreadOf } from './heard-and-due.ts';

const DUE = [1000, 2000, 5000, 9000, 9600];

describe('[heard and due]', () => {
  test('one delay that all have in common is no error, and is told', () => {
    const { errors, delay, missing, extra } = errorsOf(
      DUE,
      DUE.map((time) => time + 120),
    );
    expect(errors).toEqual([0, 0, 0, 0, 0]);
    expect([delay, missing, extra]).toEqual([120, [], []]);
  });

  test('what is late or early beside the others is off by so much', () => {
    const { errors } = errorsOf(
      DUE,
      DUE.map((time, index) => time + 50 + (index === 1 ? 9 : index === 3 ? -4 : 0)),
    );
    expect(errors).toEqual([0, 9, 0, -4, 0]);
  });

  test('a tone that is missing, and one too much, beside its time or far from any', () => {
    const heard = [1010, 1200, 2010, 7000, 9010, 9610];
    const { errors, missing, extra } = errorsOf(DUE, heard);
    expect(errors).toEqual([0, 0, 0, 0]);
    expect(missing).toEqual([5000]);
    expect(extra).toEqual([1200, 7000]);
  });

  test('the spread: sizes in order, and the deviation of the errors themselves', () => {
    const { p50, p99, max, sd } = spreadOf([-3, 1, -1, 1, 2]);
    expect([p50, p99, max]).toEqual([1, 3, 3]);
    expect(sd).toBeCloseTo(Math.sqrt(16 / 5), 9);
  });
});
