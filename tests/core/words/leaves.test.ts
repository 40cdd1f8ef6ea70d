/*
 * Leaves in a sentence.
 */

import { describe, expect, test } from 'vitest';
import { leavesOf } from '../../../app/core/run/record.ts';
import { leavesText } from '../../../app/core/words/leaves.ts';
import { Deck } from '../../support/run/deck.ts';

const allOf = (text: string) => leavesOf(new Deck(text).at(0, { do: 'start' }).settled(3600));

describe('[away] leaves are told', () => {
  test('by lane and set, of so many at most', () => {
    const leaves = allOf('lane 1\nlane 2\n4 x 50 free @ 1:00\n100 @ 2:00\n1:00 easy\n1:00');
    expect(leavesText(leaves, 99)).toBe(
      [1, 2]
        .map((lane) => `lane ${lane}: 50 free, reps 1 to 4; lane ${lane}: 100, rep 1; lane ${lane}: easy, rep 1`)
        .map((told, index) => `${told}; lane ${index + 1}: rep 1`)
        .join('; '),
    );
    expect(leavesText(leaves, 7)).toMatch(/^lane 1: 50 free, reps 1 to 4; .*lane 2: easy, rep 1; and 1 more set$/);
    expect(leavesText(leaves, 1)).toBe('lane 1: 50 free, reps 1 to 4; and 7 more sets');
    expect(leavesText([], 3)).toBe('');
  });

  test('by lane also where all lanes swim the same set', () => {
    expect(leavesText(allOf('lane 1\nlane 2\n2 x 50 @ 1:00'), 9)).toBe(
      'lane 1: 50, reps 1 and 2; lane 2: 50, reps 1 and 2',
    );
  });

  test('by lane and time in whatever order they are given', () => {
    const leaves = allOf('lane 1\nlane 2\n4 x 50 free @ 1:00\n100 @ 2:00');
    expect(leavesText([...leaves].reverse(), 9)).toBe(leavesText(leaves, 9));
    expect(leavesText([...leaves].reverse(), 1)).toBe('lane 1: 50 free, reps 1 to 4; and 3 more sets');
  });
});
