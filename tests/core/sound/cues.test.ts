/*
 * Which tones and pips are due: worked out by hand from small sessions, and held against the leaves that
 * the run itself records.
 */

import { describe, expect, test } from 'vitest';
import { openPlan } from '../../../app/core/plan/open-plan.ts';
import { apply } from '../../../app/core/run/fold.ts';
import type { Command } from '../../../app/core/run/command/command.ts';
import { leavesOf } from '../../../app/core/run/record.ts';
import { settle } from '../../../app/core/run/settle.ts';
import { openRun, type RunState } from '../../../app/core/run/state.ts';
import { cuesDue, type Cue } from '../../../app/core/sound/cues.ts';

function run(text: string): RunState {
  const plan = openPlan({ text, lanesText: null });
  if (!plan.ok) throw new Error(JSON.stringify(plan.faults));
  return openRun(plan.value, 0);
}

function after(state: RunState, ...commands: readonly [number, Command][]): RunState {
  return commands.reduce((before, [at, command]) => {
    const answer = apply(before, command, at);
    if (!answer.ok) throw new Error(answer.why);
    return answer.state;
  }, state);
}

const texts = (cues: readonly Cue[]): readonly string[] =>
  cues.map(({ at, kind, lanes }) => `${kind} ${at / 1000} of ${lanes.join('+')}`);

const TWO_LANES = 'lane 1\nlane 2\nSet\n4 x 50 @ 1:00/1:10';

describe('[cues] leaves', () => {
  test('a lane that leaves alone has a tone of its own, lanes that leave together one', () => {
    // A start given at 0 is on the 10 s of warning: T0 = 10 s.
    const state = after(run(TWO_LANES), [0, { do: 'start' }]);
    const tones = texts(cuesDue(state, 0, 300_000)).filter((text) => text.startsWith('leave'));
    expect(tones).toEqual([
      'leave 10 of 1+2',
      'leave 70 of 1',
      'leave 80 of 2',
      'leave 130 of 1',
      'leave 150 of 2',
      'leave 190 of 1',
      'leave 220 of 2',
    ]);
  });

  test('the span is half open: a cue at its start is in it, one at its end is not', () => {
    const state = after(run(TWO_LANES), [0, { do: 'start' }]);
    expect(texts(cuesDue(state, 70_000, 80_000))).toEqual(['leave 70 of 1']);
    expect(texts(cuesDue(state, 70_001, 80_001))).toEqual(['leave 80 of 2']);
    expect(cuesDue(state, 70_001, 80_000)).toEqual([]);
  });

  test('a stopped lane has none until it is resumed', () => {
    const stopped = after(run(TWO_LANES), [0, { do: 'start' }], [60_000, { do: 'stop', lanes: [2] }]);
    expect(texts(cuesDue(stopped, 60_000, 140_000))).toEqual(['leave 70 of 1', 'leave 130 of 1']);
    const resumed = after(stopped, [100_000, { do: 'resume', lanes: [2] }]);
    expect(texts(cuesDue(resumed, 100_000, 140_000))).toEqual(['leave 110 of 2', 'leave 130 of 1']);
  });

  test('a stretch that begins by itself is looked ahead into', () => {
    // 50 on 1:00, a break of 0:30, then another 50: T0 10, end 70, break until 100, T0 100.
    const state = after(run('Set\n1 x 50 @ 1:00\nbreak 0:30\n1 x 50 @ 1:00'), [0, { do: 'start' }]);
    expect(texts(cuesDue(state, 50_000, 200_000))).toContain('leave 100 of 1');
  });

  test('a talk, a wait and the end are silent', () => {
    const waiting = run('Set\ntalk 0:30 turns\n1 x 50 @ 1:00');
    expect(cuesDue(waiting, 0, 600_000)).toEqual([]);
    expect(cuesDue(after(waiting, [0, { do: 'start' }]), 0, 600_000)).toEqual([]);
    expect(cuesDue(after(waiting, [0, { do: 'finish' }]), 0, 600_000)).toEqual([]);
  });

  test('in windows put together every leave of the run sounds once, at its time', () => {
    const text =
      'between auto 0:20\nlane 1, 3 swimmers\nlane 2, 2 swimmers\nlane 3\nA\n3 rounds\n 2 x 50 @ 0:50/0:55/1:05\n 1 x 25 @ 0:35\nB\n5 x 50 @ 0:45';
    const state = after(run(text), [1_234, { do: 'start' }], [95_000, { do: 'skip', lanes: [3] }]);
    const heard = new Map<string, Cue>();
    for (let from = 95_000; from < 900_000; from += 250) {
      for (const cue of cuesDue(settle(state, from), from, from + 2_000)) {
        expect(heard.get(cue.key) ?? cue).toEqual(cue);
        heard.set(cue.key, cue);
      }
    }
    const tones = [...heard.values()].filter(({ kind }) => kind === 'leave');
    const leaves = leavesOf(settle(state, Infinity), 94_999);
    const told = tones.reduce((all, { at, lanes }) => all.concat(lanes.map((lane) => `${at} ${lane}`)), [] as string[]);
    expect(told.sort()).toEqual(leaves.map(({ at, lane }) => `${at} ${lane}`).sort());
    expect(leaves.length).toBeGreaterThan(20);
  });
});

describe('[cues] pips', () => {
  test('three, at 3, 2 and 1 s before all lanes leave together after a start', () => {
    const state = after(run(TWO_LANES), [0, { do: 'start' }]);
    expect(texts(cuesDue(state, 0, 10_001))).toEqual([
      'pip 7 of 1+2',
      'pip 8 of 1+2',
      'pip 9 of 1+2',
      'leave 10 of 1+2',
    ]);
  });

  test('none where all lanes leave together again without a start', () => {
    const state = after(run('lane 1\nlane 2\nSet\n4 x 50 @ 1:00'), [0, { do: 'start' }]);
    expect(texts(cuesDue(state, 11_000, 100_000))).toEqual(['leave 70 of 1+2']);
  });

  test('none where a lane leaves at another time', () => {
    const state = after(run(TWO_LANES), [0, { do: 'start' }], [1_000, { do: 'shift', lanes: [2], seconds: 5 }]);
    expect(texts(cuesDue(state, 1_000, 20_000))).toEqual(['leave 10 of 1', 'leave 15 of 2']);
  });

  test('after a resume of all lanes together, and not at the leave after it', () => {
    const state = after(
      run('lane 1\nlane 2\nSet\n4 x 50 @ 1:00'),
      [0, { do: 'start' }],
      [65_000, { do: 'stop' }],
      [82_000, { do: 'resume' }],
    );
    // align(82 + 10) on multiples of 5 s: 95 s.
    expect(texts(cuesDue(state, 82_000, 160_000))).toEqual([
      'pip 92 of 1+2',
      'pip 93 of 1+2',
      'pip 94 of 1+2',
      'leave 95 of 1+2',
      'leave 155 of 1+2',
    ]);
  });

  test('none after a resume of one lane while another goes on', () => {
    const state = after(
      run('lane 1\nlane 2\nSet\n4 x 50 @ 1:00'),
      [0, { do: 'start' }],
      [20_000, { do: 'stop', lanes: [2] }],
      [82_000, { do: 'resume', lanes: [2] }],
    );
    expect(texts(cuesDue(state, 82_000, 131_000))).toEqual(['leave 95 of 2', 'leave 130 of 1']);
  });

  test('a lane that is out or has nothing in the stretch does not keep the others from being counted in', () => {
    const out = after(run(TWO_LANES), [0, { do: 'lane-out', lanes: [2] }], [1_000, { do: 'start' }]);
    expect(texts(cuesDue(out, 1_000, 15_001))).toEqual(['pip 12 of 1', 'pip 13 of 1', 'pip 14 of 1', 'leave 15 of 1']);
    const absent = after(run('lane 1\nlane 2\nSet\n2/0 x 50 @ 1:00'), [0, { do: 'start' }]);
    expect(texts(cuesDue(absent, 0, 10_001))).toHaveLength(4);
  });

  test('a start that begins by itself is counted in too', () => {
    const state = after(run('between auto 0:30\nA\n1 x 50 @ 1:00\nB\n1 x 50 @ 1:00'), [0, { do: 'start' }]);
    // T0 10, end 70, align(70 + 30) = 100.
    expect(texts(cuesDue(state, 60_000, 100_001))).toEqual([
      'pip 97 of 1',
      'pip 98 of 1',
      'pip 99 of 1',
      'leave 100 of 1',
    ]);
  });

  test('none at all where one of the three would be within half a second of another tone', () => {
    // T0 10, end 12, break until 13, T0 13: a pip would fall on the tone at 10.
    const near = after(run('start on 1\nSet\n1 x 25 @ 0:02\nbreak 0:01\n1 x 25 @ 1:00'), [0, { do: 'start' }]);
    expect(texts(cuesDue(near, 9_500, 13_001))).toEqual(['leave 10 of 1', 'leave 13 of 1']);
    const apart = after(run('start on 1\nSet\n1 x 25 @ 0:03\nbreak 0:01\n1 x 25 @ 1:00'), [0, { do: 'start' }]);
    expect(texts(cuesDue(apart, 9_500, 14_001))).toEqual([
      'leave 10 of 1',
      'pip 11 of 1',
      'pip 12 of 1',
      'pip 13 of 1',
      'leave 14 of 1',
    ]);
  });

  test('keys name a cue whatever else is due, and tell kinds apart', () => {
    const state = after(run(TWO_LANES), [0, { do: 'start' }]);
    const narrow = cuesDue(state, 9_000, 10_001).map(({ key }) => key);
    const wide = cuesDue(state, 0, 300_000).map(({ key }) => key);
    expect(narrow).toEqual(['pip 9000', 'leave 10000']);
    expect(wide).toEqual(expect.arrayContaining(narrow));
    expect(new Set(wide).size).toBe(wide.length);
  });
});
