/*
 * From one snapshot to the next: what is folded on, what is folded anew, and what cannot be followed.
 */

import { describe, expect, test } from 'vitest';
import type { Result } from '../../../app/core/result.ts';
import { followRun, type FollowedRun, type SnapshotRun, type Texts } from '../../../renderer/link/follow-run.ts';

const HASH = 'a'.repeat(32);
const OTHER_HASH = 'b'.repeat(32);

const TEXTS: Texts = new Map([
  [HASH, { text: 'Main set\n4 x 50 fast @ 1:00\n', lanesText: null }],
  [OTHER_HASH, { text: 'Main set\n8 x 50 fast @ 1:00\n', lanesText: null }],
]);

const START = { at: 90, command: { do: 'start' } };
const STOP = { at: 12_000, command: { do: 'stop' } };

const OPENED: SnapshotRun = {
  id: 'run-1',
  text: HASH,
  openedAt: 700_000,
  clockPhase: 0,
  openedAtTimeOfDay: 70_200_000,
  commands: [],
};

function value(followed: Result<FollowedRun, string>): FollowedRun {
  if (!followed.ok) throw new Error(followed.faults);
  return followed.value;
}

const after = (...commands: SnapshotRun['commands']): FollowedRun =>
  value(followRun(null, { ...OPENED, commands }, TEXTS));

describe('[link] a snapshot of the run that is followed', () => {
  test('is folded on from where it was, the plan not read again', () => {
    const before = after(START);
    // Without its text it can only be folded on.
    const { run } = value(followRun(before, { ...OPENED, commands: [START, STOP] }, new Map()));
    expect(run.commands).toEqual([START, STOP]);
    expect(run.state).toEqual(after(START, STOP).run.state);
    expect(run.plan).toBe(before.run.plan);
  });

  test('brings the times in which the host was not there, and where its clock now stands', () => {
    const away = [{ from: 1000, to: 5000 }];
    const { run } = value(followRun(after(START), { ...OPENED, commands: [START], openedAt: 5, away }, TEXTS));
    expect(run).toMatchObject({ openedAt: 5, away });
  });

  test('of a host that says nothing of having been away: it never was', () => {
    expect(after(START).run.away).toEqual([]);
    expect(value(followRun(after(START), { ...OPENED, commands: [START, STOP] }, TEXTS)).run.away).toEqual([]);
  });

  test('without a command has none', () => {
    expect(after().run.commands).toEqual([]);
  });
});

describe('[link] a snapshot is folded from the beginning', () => {
  test.each<[string, SnapshotRun['commands']]>([
    ['another command in the place of the last', [STOP, { at: 13_000, command: { do: 'resume' } }]],
    ['another command in the place of one', [{ at: 95, command: { do: 'start' } }, STOP]],
    ['the same command at another time', [{ at: 91, command: { do: 'start' } }]],
    ['fewer commands', [START]],
  ])('where it has %s', (_, commands) => {
    const before = after(START, STOP);
    const { run } = value(followRun(before, { ...OPENED, commands }, TEXTS));
    expect(run.commands).toEqual(commands);
    expect(run.state).toEqual(after(...commands).run.state);
  });

  test('where it is of another run', () => {
    const { run } = value(followRun(after(START), { ...OPENED, id: 'run-2', commands: [START] }, TEXTS));
    expect(run.id).toBe('run-2');
  });

  test('where it is of another text', () => {
    const { run } = value(followRun(after(START), { ...OPENED, text: OTHER_HASH, commands: [START] }, TEXTS));
    expect(run.plan.stretches[0]!.lanes[0]!.reps).toHaveLength(8);
  });

  test("where the pool's clock has been matched", () => {
    const { run } = value(followRun(after(START), { ...OPENED, clockPhase: 15_000, commands: [START] }, TEXTS));
    expect([run.clockPhase, run.state.clockPhase]).toEqual([15_000, 15_000]);
  });
});

describe('[link] what cannot be followed', () => {
  test.each<[string, Texts]>([
    ['whose text has not come', new Map()],
    ['whose text has faults', new Map([[HASH, { text: '4 x\n', lanesText: null }]])],
  ])('a session %s: the screen cannot read it', (_, texts) => {
    expect(followRun(null, OPENED, texts)).toEqual({
      ok: false,
      faults: 'This screen cannot read the session: reload it.',
    });
  });

  test.each([
    ['a command that is not known here', { do: 'fly' }],
    ['a rewrite whose text has not come', { do: 'rewrite', textHash: 'c'.repeat(32) }],
  ])('%s: the screen cannot go on', (_, command) => {
    const commands = [START, { at: 100, command }];
    expect(followRun(after(START), { ...OPENED, commands }, TEXTS)).toEqual({
      ok: false,
      faults: 'This screen cannot follow the run: reload it.',
    });
  });
});
