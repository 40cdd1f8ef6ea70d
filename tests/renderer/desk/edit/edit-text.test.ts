/*
 * A text that is edited during a run: nothing that was typed is lost, and nothing that has begun is changed.
 */

import { describe, expect, test } from 'vitest';
import { brokenLock, isTyped, mergeEdit, withLockedLines } from '../../../../renderer/desk/edit/edit-text.ts';

const IN_FORCE = 'Squad\n\nMain\n4 x 50 fast\n6 x 75 free\nDown\n200 easy\n';

describe('lines that have begun', () => {
  test('are not changed by typing, and typing below them is taken', () => {
    expect(isTyped(IN_FORCE, IN_FORCE, IN_FORCE.replace('4 x 50', '4 x 5'), 4)).toBe(false);
    expect(isTyped(IN_FORCE, IN_FORCE, IN_FORCE.replace('6 x 75', '6 x 7'), 4)).toBe(true);
    expect(isTyped(IN_FORCE, IN_FORCE, IN_FORCE.replace('fast\n', 'fast\n\n'), 4)).toBe(true);
    expect(isTyped(IN_FORCE, IN_FORCE, IN_FORCE.replace('Squad\n', ''), 4)).toBe(false);
  });

  test('one that begins while it is changed is named, and typing goes on until it is put back', () => {
    const typed = IN_FORCE.replace('6 x 75 free', '8 x 75 free').replace('200 easy', '100 easy');
    expect(brokenLock(IN_FORCE, typed, 4)).toBeNull();
    expect(brokenLock(IN_FORCE, typed, 5)).toBe(5);
    expect(isTyped(IN_FORCE, typed, typed.replace('100 easy', '100 easy choice'), 5)).toBe(true);
    expect(withLockedLines(IN_FORCE, typed, 5)).toBe(IN_FORCE.replace('200 easy', '100 easy'));
  });

  test('a line put in among those that have begun stands below them when they are put back', () => {
    const typed = IN_FORCE.replace('6 x 75 free', '2 x 25 sprint\n6 x 75 free');
    expect(withLockedLines(IN_FORCE, typed, 5)).toBe(IN_FORCE.replace('6 x 75 free', '6 x 75 free\n2 x 25 sprint'));
  });

  test('of a change across the last line that has begun, what stands below that line is kept', () => {
    const typed = 'Squad\n\nMain\n4 x 50 fast\nA\nB\nC\n';
    expect(withLockedLines(IN_FORCE, typed, 5)).toBe('Squad\n\nMain\n4 x 50 fast\n6 x 75 free\nB\nC\n');
    // No set is made of what was typed in place of the line that has begun.
    expect(withLockedLines('A\nB\nC\nD', 'A\nB2\nC2\nD', 2)).toBe('A\nB\nC2\nD');
  });

  test('a line typed below one that was changed and has begun is kept when that is put back', () => {
    expect(withLockedLines('A\nB\nC\nD', 'A\nB2\nNEW\nC\nD', 2)).toBe('A\nB\nNEW\nC\nD');
    expect(withLockedLines('A\nB\nC\nD', 'A\nB2\nNEW\nC2\nD', 3)).toBe('A\nB\nC\nC2\nD');
    expect(withLockedLines('A\nB\nC\nD', 'A\nC\nD', 2)).toBe('A\nB\nC\nD');
  });

  test('with ends of lines as another system writes them', () => {
    const windows = IN_FORCE.replaceAll('\n', '\r\n');
    // A text area has none of those.
    const typed = IN_FORCE.replace('6 x 75 free', '8 x 75 free');
    expect(brokenLock(windows, typed, 4)).toBeNull();
  });
});

describe('a text that was changed from elsewhere meanwhile', () => {
  test('both changes stand where they are about different lines', () => {
    const mine = { base: IN_FORCE, text: IN_FORCE.replace('200 easy', '100 easy') };
    const merged = mergeEdit(mine, IN_FORCE.replace('6 x 75', '4 x 75'));
    expect(merged).toEqual({
      text: IN_FORCE.replace('6 x 75', '4 x 75').replace('200 easy', '100 easy'),
      theirs: 'line 5 is changed',
      clash: false,
    });
  });

  test('of the same line what was typed here stands, and that is said', () => {
    const mine = { base: IN_FORCE, text: IN_FORCE.replace('6 x 75', '8 x 75') };
    const merged = mergeEdit(mine, IN_FORCE.replace('6 x 75', '4 x 75').replace('200 easy', '100 easy'));
    expect(merged.text).toBe(mine.text.replace('200 easy', '100 easy'));
    expect(merged.clash).toBe(true);
  });
});
