/*
 * What the smoke says, and when it ends with a failure.
 */

import { describe, expect, test } from 'vitest';
import { failed, held, Report, unseen } from './report.ts';

describe('[smoke] the report', () => {
  test('has one line a check, and ends well where nothing failed', async () => {
    const said: string[] = [];
    const report = new Report((line) => said.push(line));
    await report.check('a window opens', () => Promise.resolve(held()));
    await report.check('a second display', () => Promise.resolve(unseen('there is one')));
    expect(report.end()).toBe(0);
    expect(said).toEqual([
      'held: a window opens',
      'cannot be seen here: a second display (there is one)',
      'Nothing failed.',
    ]);
  });

  test('counts what failed and what threw, goes on after both, and ends with 1', async () => {
    const said: string[] = [];
    const report = new Report((line) => said.push(line));
    await report.check('a', () => Promise.resolve(failed('black')));
    await report.check('b', () => Promise.reject(new Error('gone\nat a line')));
    await report.check('c', () => Promise.resolve(held('well')));
    expect(report.end()).toBe(1);
    expect(said).toEqual(['FAILED: a (black)', 'FAILED: b (gone)', 'held: c (well)', '2 failed.']);
  });
});
