/* What goes with a command: each lane's next rep as it was shown, the last Stop, and what Undo would take back. */

import { describe, expect, test } from 'vitest';
import { view } from '../../../app/core/run/view.ts';
import { seenIn } from '../../../renderer/link/seen.ts';
import { runOf } from '../../support/coach/coach-run.ts';

const TEXT = 'lane 1\nlane 2\nMain set\n2 rounds\n  2 rounds\n    3 x 50 @ 1:00\n';

describe('[seen] expected reps', () => {
  // Three reps of the first round and one of the second have left.
  const shown = view(runOf(TEXT, [0, { do: 'start' }], [1000, { do: 'lane-out', lanes: [2] }]), 200_000);

  test('by lane the line, the rounds from the outermost and the rep; null for a lane that has none to come', () => {
    expect(seenIn(shown, { do: 'skip' })).toEqual({ expected: { 1: { line: 6, rounds: [1, 2], rep: 2 }, 2: null } });
  });

  test('only of the lanes that are named', () => {
    expect(seenIn(shown, { do: 'skip', lanes: [2] })).toEqual({ expected: { 2: null } });
    expect(seenIn(shown, { do: 'skip', lanes: [9] })).toEqual({ expected: { 9: null } });
  });

  test('none for a command that neither drops, moves nor repeats reps', () => {
    expect(seenIn(shown, { do: 'stop' })).toEqual({});
  });
});

describe('[seen] the last Stop and what Undo takes back', () => {
  const stopped = view(runOf(TEXT, [0, { do: 'start' }], [15_000, { do: 'stop' }]), 20_000);
  const fresh = view(runOf(TEXT, [0, { do: 'start' }]), 20_000);

  test.each(['start', 'move-on'] as const)('%s names the last Stop, null for none', (name) => {
    expect(seenIn(stopped, { do: name })).toEqual({ lastStop: 15_000 });
    expect(seenIn(fresh, { do: name })).toEqual({ lastStop: null });
  });

  test.each(['resume', 'rejoin'] as const)('%s names it with what each lane has next', (name) => {
    expect(seenIn(stopped, { do: name })).toMatchObject({
      lastStop: 15_000,
      expected: { 1: { rep: 2 }, 2: { rep: 2 } },
    });
  });

  test('undo names the command that it would take back, null once that is too old', () => {
    expect(seenIn(stopped, { do: 'undo' })).toEqual({ undoes: { command: 'stop', at: 15_000 } });
    expect(seenIn(fresh, { do: 'undo' })).toEqual({ undoes: null });
  });
});
