/*
 * What may be chosen of the cues: counts before every leave or none, tones for further swimmers, signs
 * for the coach's Stop and Resume, lanes that are not heard. Worked out by hand from small sessions.
 */

import { describe, expect, test } from 'vitest';
import { PLAIN_CUES, type CueChoice } from '../../../app/core/sound/cue-choice.ts';
import { cuesDue } from '../../../app/core/sound/cues.ts';
import type { RunState } from '../../../app/core/run/state.ts';
import { afterCommands, runOf } from '../../support/coach/coach-run.ts';

/** Kind, second and lanes of what is due between two seconds of the run. */
function heard(state: RunState, from: number, until: number, choice: Partial<CueChoice> = {}): readonly string[] {
  const cues = cuesDue(state, from * 1000, until * 1000, { ...PLAIN_CUES, ...choice });
  return cues.map(({ at, kind, lanes }) => `${kind} ${at / 1000} of ${lanes.join('+')}`);
}

const TWO_LANES = 'start on 1\nlane 1\nlane 2\nSet\n4 x 50 @ 1:00/1:10';
const going = runOf(TWO_LANES, [0, { do: 'start' }]);

describe('[cues] counts before every leave', () => {
  test('each leave is counted in, whoever else leaves later', () => {
    expect(heard(going, 60, 81, { pips: 'always' })).toEqual([
      'pip 67 of 1',
      'pip 68 of 1',
      'pip 69 of 1',
      'leave 70 of 1',
      'pip 77 of 2',
      'pip 78 of 2',
      'pip 79 of 2',
      'leave 80 of 2',
    ]);
  });

  test('none where another tone falls into the count, or within half a second before it', () => {
    const apart = (seconds: string): readonly string[] =>
      heard(runOf(`start on 1\nlane 1\nlane 2\nSet\n2 x 50 @ 1:00/${seconds}`, [0, { do: 'start' }]), 65, 75, {
        pips: 'always',
      }).filter((cue) => cue.includes(' of 2'));
    expect(apart('1:03')).toEqual(['leave 73 of 2']);
    expect(apart('1:03.5')).toEqual(['leave 73.5 of 2']);
    expect(apart('1:03.6')).toEqual(['pip 70.6 of 2', 'pip 71.6 of 2', 'pip 72.6 of 2', 'leave 73.6 of 2']);
    expect(apart('1:00.3')).toEqual(['leave 70.3 of 2']);
  });

  test('a tone that comes after the leave does not keep it from being counted in', () => {
    const near = runOf('start on 1\nlane 1\nlane 2\nSet\n2 x 50 @ 1:00/1:00.3', [0, { do: 'start' }]);
    expect(heard(near, 65, 70.1, { pips: 'always' })).toEqual([
      'pip 67 of 1',
      'pip 68 of 1',
      'pip 69 of 1',
      'leave 70 of 1',
    ]);
  });

  test('none at all where none are wanted', () => {
    expect(heard(going, 0, 15, { pips: 'never' })).toEqual(['leave 10 of 1+2']);
  });
});

describe('[cues] a start is counted in', () => {
  test('after a resume, however long ago and whatever was commanded since', () => {
    const text = 'start on 60\nlane 1\nlane 2\nSet\n8 x 50 @ 1:00';
    const state = runOf(
      text,
      [0, { do: 'start' }],
      [65_000, { do: 'stop' }],
      // The leaves of 2:00 would be too soon: 3:00.
      [115_000, { do: 'resume' }],
      [140_000, { do: 'swimmers', lanes: [2], n: 3 }],
    );
    expect(heard(state, 140, 181)).toEqual(['pip 177 of 1+2', 'pip 178 of 1+2', 'pip 179 of 1+2', 'leave 180 of 1+2']);
  });

  test('of those that go on, where others stay stopped', () => {
    const state = afterCommands(going, [62_000, { do: 'stop' }], [70_000, { do: 'resume', lanes: [1] }]);
    expect(heard(state, 70, 81)).toEqual(['pip 77 of 1', 'pip 78 of 1', 'pip 79 of 1', 'leave 80 of 1']);
  });

  test('of those that swim, where a lane is out', () => {
    const out = afterCommands(going, [62_000, { do: 'lane-out', lanes: [2] }]);
    const state = afterCommands(out, [63_000, { do: 'stop' }], [70_000, { do: 'resume' }]);
    expect(heard(state, 70, 81)).toEqual(['pip 77 of 1', 'pip 78 of 1', 'pip 79 of 1', 'leave 80 of 1']);
  });

  test('after an undo that stands for a resume', () => {
    const text = 'start on 1\nlane 1\nlane 2\nSet\n8 x 50 @ 0:20';
    const state = runOf(text, [0, { do: 'start' }], [25_000, { do: 'stop' }], [33_000, { do: 'undo' }]);
    expect(heard(state, 33, 44)).toEqual(['pip 40 of 1+2', 'pip 41 of 1+2', 'pip 42 of 1+2', 'leave 43 of 1+2']);
  });
});

describe('[cues] [R2] tones for further swimmers', () => {
  const squad = 'start on 1\nlane 1, 3 swimmers\nlane 2, 2 swimmers, gap 7\nSet\n4 x 50 @ 1:00/1:10';
  const state = runOf(squad, [0, { do: 'start' }]);

  test('one for each, at the gap of the lane, and none unless they are wanted', () => {
    expect(heard(state, 10, 60)).toEqual(['leave 10 of 1+2']);
    expect(heard(state, 10, 60, { followers: true })).toEqual([
      'leave 10 of 1+2',
      'follow 15 of 1',
      'follow 17 of 2',
      'follow 20 of 1',
    ]);
  });

  test('swimmers of two lanes at one time are one tone, and a leave needs no softer one beside it', () => {
    const five = runOf('start on 1\nlane 1, 3 swimmers\nlane 2, 3 swimmers\nSet\n4 x 50 @ 1:00/1:05', [
      0,
      { do: 'start' },
    ]);
    expect(heard(five, 10, 86, { followers: true })).toEqual([
      'leave 10 of 1+2',
      'follow 15 of 1+2',
      'follow 20 of 1+2',
      'leave 70 of 1',
      'leave 75 of 2',
      'follow 80 of 1+2',
      'follow 85 of 2',
    ]);
  });

  test('two swimmers of one lane at one time are one tone of it', () => {
    const close = runOf('start on 1\nlane 1, 3 swimmers\nSet\n2 x 25 @ 0:05', [0, { do: 'start' }]);
    expect(heard(close, 10, 60, { followers: true })).toEqual([
      'leave 10 of 1',
      'leave 15 of 1',
      'follow 20 of 1',
      'follow 25 of 1',
    ]);
  });

  test('a window that begins between two of them has the second', () => {
    expect(heard(state, 16, 18, { followers: true })).toEqual(['follow 17 of 2']);
  });

  test('none for a lane that is stopped, or once everything that is still to leave is', () => {
    const one = afterCommands(state, [12_000, { do: 'stop', lanes: [1] }]);
    expect(heard(one, 12, 60, { followers: true })).toEqual(['follow 17 of 2']);
    const all = afterCommands(state, [12_000, { do: 'stop' }]);
    expect(heard(all, 12, 60, { followers: true })).toEqual([]);
    const single = runOf('start on 1\nlane 1, 3 swimmers\nlane 2, 9 swimmers\nSet\n4/1 x 50 @ 1:00', [
      0,
      { do: 'start' },
    ]);
    expect(heard(single, 12, 26, { followers: true })).toHaveLength(3);
    expect(heard(afterCommands(single, [12_000, { do: 'stop' }]), 12, 60, { followers: true })).toEqual([]);
  });

  test('none after the stretch has been left by the coach', () => {
    for (const command of ['move-on', 'restart', 'finish'] as const) {
      expect(heard(afterCommands(state, [12_000, { do: command }]), 12, 60, { followers: true })).toEqual([]);
    }
  });

  test('they are no count’s room: a count gives way to them', () => {
    const tail = runOf('start on 1\nlane 1, 3 swimmers\nlane 2\nSet\n2 x 50 @ 0:25/0:12', [0, { do: 'start' }]);
    // Lane 2 leaves at 22, lane 1's third swimmer at 20.
    expect(heard(tail, 18, 22.1, { followers: true, pips: 'always' })).toEqual(['follow 20 of 1', 'leave 22 of 2']);
    expect(heard(tail, 18, 22.1, { pips: 'always' })).toHaveLength(4);
  });
});

describe('[cues] signs', () => {
  const signs = { signs: true };

  test('a stop and a resume have one each, 0.3 s after the command; none unless they are wanted', () => {
    const stopped = afterCommands(going, [30_000, { do: 'stop' }]);
    expect(heard(stopped, 30, 60, signs)).toEqual(['stop 30.3 of 1+2']);
    expect(heard(stopped, 30, 60)).toEqual([]);
    const resumed = afterCommands(stopped, [40_000, { do: 'resume', lanes: [2] }]);
    expect(heard(resumed, 40, 60, signs)).toEqual(['resume 40.3 of 2']);
    expect(heard(afterCommands(resumed, [45_000, { do: 'rejoin' }]), 45, 60, signs)).toEqual(['resume 45.3 of 1']);
  });

  test('another command after it takes the sign that has not sounded back', () => {
    const state = afterCommands(going, [30_000, { do: 'stop' }], [30_100, { do: 'resume' }]);
    expect(heard(state, 30.1, 60, signs)).toEqual(['resume 30.4 of 1+2']);
    expect(heard(afterCommands(going, [30_000, { do: 'stop' }], [30_100, { do: 'undo' }]), 30.1, 60, signs)).toEqual(
      [],
    );
  });

  test('an undo that stands for a resume has the sign of one', () => {
    const state = runOf(TWO_LANES.replace('1:00/1:10', '0:20'), [0, { do: 'start' }], [25_000, { do: 'stop' }]);
    expect(heard(afterCommands(state, [33_000, { do: 'undo' }]), 33, 35, signs)).toEqual(['resume 33.3 of 1+2']);
  });

  test('[R1] the tone of a leave on its way comes first, and half a second later the sign', () => {
    const state = afterCommands(going, [69_900, { do: 'stop' }]);
    expect(heard(state, 69.9, 90, signs)).toEqual(['leave 70 of 1', 'stop 70.5 of 1+2']);
  });

  test('it keeps half a second from every other sound, and is left out where there is no room for 2 s', () => {
    const stopped = afterCommands(going, [69_700, { do: 'stop', lanes: [2] }]);
    expect(heard(stopped, 69.7, 75, signs)).toEqual(['leave 70 of 1', 'stop 70.5 of 2']);
    const busy = runOf('start on 1\nlane 1\nlane 2\nlane 3\nSet\n9 x 25 @ 0:01/0:01.4/1:00', [0, { do: 'start' }]);
    const crowded = afterCommands(busy, [11_000, { do: 'stop', lanes: [3] }]);
    expect(heard(crowded, 11, 14, signs).filter((cue) => cue.startsWith('stop'))).toEqual([]);
  });

  test('it stands among the other sounds by its time, and is named by that of its command', () => {
    const stopped = afterCommands(going, [69_700, { do: 'stop', lanes: [2] }]);
    expect(heard(stopped, 60, 75, signs)).toEqual(['leave 70 of 1', 'stop 70.5 of 2']);
    expect(cuesDue(stopped, 69_700, 75_000, { ...PLAIN_CUES, ...signs }).map(({ key }) => key)).toEqual([
      'leave 70000',
      'stop 69700',
    ]);
    const early = afterCommands(going, [60_000, { do: 'stop', lanes: [1] }]);
    expect(heard(early, 60, 81, signs)).toEqual(['stop 60.3 of 1', 'leave 80 of 2']);
  });

  test('half a second from the next sound is enough', () => {
    const stopped = afterCommands(going, [69_200, { do: 'stop', lanes: [2] }]);
    expect(heard(stopped, 69, 75, signs)).toEqual(['stop 69.5 of 2', 'leave 70 of 1']);
  });

  test('it is for the lanes that the command has stopped or let go on, and for no other', () => {
    const one = afterCommands(going, [30_000, { do: 'stop', lanes: [1] }]);
    const both = afterCommands(one, [45_000, { do: 'stop' }]);
    expect(heard(both, 45, 60, signs)).toEqual(['stop 45.3 of 2']);
    expect(heard(afterCommands(both, [50_000, { do: 'restart' }]), 50, 60, signs)).toEqual([]);
    expect(heard(afterCommands(one, [45_000, { do: 'mark' }]), 45, 60, signs)).toEqual([]);
    const text = 'start on 1\nlane 1\nlane 2\nlane 3\nSet\n8 x 50 @ 0:20';
    const three = runOf(
      text,
      [0, { do: 'start' }],
      [1000, { do: 'lane-out', lanes: [3] }],
      [12_000, { do: 'stop', lanes: [2] }],
      [25_000, { do: 'stop', lanes: [1] }],
    );
    expect(heard(afterCommands(three, [33_000, { do: 'undo' }]), 33, 35, signs)).toEqual(['resume 33.3 of 1']);
  });

  test('holding a break stops no lane and has none', () => {
    const state = runOf('Set\n1 x 50 @ 1:00\nbreak 0:30\n1 x 50 @ 1:00', [0, { do: 'start' }]);
    expect(heard(afterCommands(state, [75_000, { do: 'stop' }]), 75, 80, signs)).toEqual([]);
  });
});

describe('[cues] lanes that are not heard', () => {
  test('have no tone; who leaves with them keeps it', () => {
    expect(heard(going, 10, 81, { muted: [1] })).toEqual(['leave 10 of 2', 'leave 80 of 2']);
    expect(heard(going, 0, 300, { muted: [1, 2] })).toEqual([]);
  });

  test('neither fall into a count nor keep the others from being counted in', () => {
    const shifted = afterCommands(going, [1_000, { do: 'shift', lanes: [2], seconds: 2 }]);
    expect(heard(shifted, 1, 13)).toEqual(['leave 10 of 1', 'leave 12 of 2']);
    expect(heard(shifted, 1, 13, { muted: [1] })).toEqual([
      'pip 9 of 2',
      'pip 10 of 2',
      'pip 11 of 2',
      'leave 12 of 2',
    ]);
  });

  test('have no sign', () => {
    const stopped = afterCommands(going, [30_000, { do: 'stop', lanes: [1] }]);
    expect(heard(stopped, 30, 60, { signs: true, muted: [1] })).toEqual([]);
  });
});
