/*
 * The outline of a session while it runs.
 */

import { describe, expect, test } from 'vitest';
import { view } from '../../../../app/core/run/view.ts';
import { outlineParts, type OutlineRow } from '../../../../renderer/desk/outline/outline-rows.ts';
import type { RunState } from '../../../../app/core/run/state.ts';
import { afterCommands, HARBOUR, runOf } from '../../../support/coach/coach-run.ts';

const at = (state: RunState, t: number): readonly OutlineRow[] =>
  outlineParts(view(state, t), () => true).flatMap(({ row, lines }) => [row, ...lines]);
const short = (rows: readonly OutlineRow[]): readonly string[] =>
  rows.map(
    ({ kind, depth, text, progress, note }) =>
      `${kind === 'part' ? '' : '  '.repeat(depth)}${text}: ${progress}${note ? `, ${note}` : ''}`,
  );

describe('the outline', () => {
  test('a session just opened: its first line is next, all the rest to come', () => {
    expect(short(at(runOf(HARBOUR), 0))).toEqual([
      'Warm-up: now, waits for Start',
      '  200 easy: now',
      'Main set: to-come',
      '  3 rounds: to-come',
      '    150 steady: to-come',
      '    4 x 50 fast: to-come',
      '  talk 1:30 turns: to-come',
      'Swim-down: to-come',
      '  4 x 50 easy: to-come',
    ]);
  });

  test('what has passed is done, rounds say which one is swum', () => {
    // T0 of the main set is 20 s; lane 1 swims 150 (2:15), then 4 x 50: at 3:00 it is in the 50s.
    const state = runOf(HARBOUR, [0, { do: 'start' }], [4_000, { do: 'move-on' }], [10_000, { do: 'start' }]);
    expect(short(at(state, 200_000))).toEqual([
      'Warm-up: done',
      '  200 easy: done',
      'Main set: now',
      '  3 rounds: now, in round 1',
      '    150 steady: to-come',
      '    4 x 50 fast: now',
      '  talk 1:30 turns: to-come',
      'Swim-down: to-come',
      '  4 x 50 easy: to-come',
    ]);
  });

  test('after the end everything is done', () => {
    const state = runOf(HARBOUR, [0, { do: 'finish' }]);
    expect(at(state, 10).every(({ progress }) => progress === 'done')).toBe(true);
  });

  test('cuts already made leave less to cut; untimed sets and talks offer none', () => {
    const cutOf = (rows: readonly OutlineRow[], text: string) => rows.find((row) => row.text === text)?.cut;
    const rows = at(runOf(HARBOUR), 0);
    expect(cutOf(rows, '3 rounds')).toEqual({ kind: 'rounds', most: 2 });
    expect(cutOf(rows, '4 x 50 fast')).toEqual({ kind: 'reps', most: 3 });
    expect(cutOf(rows, '200 easy')).toBeNull();
    expect(cutOf(rows, 'talk 1:30 turns')).toBeNull();
    const cut = afterCommands(runOf(HARBOUR), [100, { do: 'cut', line: 12, n: 2 }]);
    expect(cutOf(at(cut, 200), '1 round')).toBeNull();
  });

  test('a line can be gone to by its rounds and reps, and the core takes that', () => {
    const state = runOf(HARBOUR);
    const target = at(state, 0).find(({ text }) => text === '4 x 50 fast')?.target;
    expect(target).toEqual({ line: 14, rounds: [{ of: 3, round: 1 }], reps: 4 });
    const gone = afterCommands(state, [0, { do: 'go-to', line: 14, rounds: [3], rep: 4 }]);
    expect(view(gone, 0).lanes[0]?.next?.rep).toMatchObject({ rep: 4, of: 4 });
  });

  test('a set is what is swum until the next one is at hand, and only then done', () => {
    const text = 'lane 1 base 1:30\nSet\n6:00 choice\n4 x 50 back @ 1:00';
    const state = runOf(text, [0, { do: 'start' }]);
    expect(short(at(state, 300_000))).toEqual(['Set: now', '  6:00 choice: now', '  4 x 50 back: to-come']);
    expect(short(at(state, 361_000))).toEqual(['Set: now', '  6:00 choice: done', '  4 x 50 back: now']);
  });
});
