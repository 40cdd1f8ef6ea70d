/*
 * The tones of a span of the run, before anything is counted in.
 */

import { describe, expect, test } from 'vitest';
import { PLAIN_CUES } from '../../../app/core/sound/cue-choice.ts';
import { tonesOf } from '../../../app/core/sound/tones.ts';
import type { RunState } from '../../../app/core/run/state.ts';
import { afterCommands, runOf } from '../../support/coach/coach-run.ts';

/** Kind, second and lanes of the tones from one second to another. */
function tones(state: RunState, from: number, until: number, followers = true): readonly string[] {
  return tonesOf(state, from * 1000, until * 1000, { ...PLAIN_CUES, followers }).map(
    ({ kind, at, lanes }) => `${kind} ${at / 1000} of ${lanes.join('+')}`,
  );
}

test('until something is chosen starts are counted in, leads sound, and no lane is muted', () => {
  expect(PLAIN_CUES).toEqual({ pips: 'starts', followers: false, signs: false, muted: [] });
});

describe('[cues] a span', () => {
  const state = runOf('start on 1\nlane 1, 2 swimmers\nSet\n3 x 50 @ 1:00', [0, { do: 'start' }]);

  test('has both its ends', () => {
    expect(tones(state, 10, 70)).toEqual(['leave 10 of 1', 'follow 15 of 1', 'leave 70 of 1']);
    expect(tones(state, 15, 15)).toEqual(['follow 15 of 1']);
    expect(tones(state, 70, 70, false)).toEqual(['leave 70 of 1']);
  });

  test('has nothing beside them', () => {
    expect(tones(state, 10.001, 14.999)).toEqual([]);
    expect(tones(state, 15.001, 69.999)).toEqual([]);
  });

  test('has those of a leave long before it', () => {
    const long = runOf('start on 1\nlane 1, 20 swimmers, gap 60\nSet\n50 @ 1:00', [0, { do: 'start' }]);
    expect(tones(long, 1150, 1150)).toEqual(['follow 1150 of 1']);
  });
});

describe('[cues] [R2] further swimmers', () => {
  test('sound behind the last leave too', () => {
    const last = runOf('start on 1\nlane 1, 3 swimmers\nSet\n50 @ 1:00', [0, { do: 'start' }]);
    expect(tones(last, 0, 60)).toEqual(['leave 10 of 1', 'follow 15 of 1', 'follow 20 of 1']);
  });

  test('of two lanes at one time are named by rising number, whoever led first', () => {
    const text = 'start on 1\nlane 1, 2 swimmers\nlane 2, 2 swimmers, gap 10\nSet\n2 x 25 @ 0:40';
    const state = runOf(text, [0, { do: 'start' }], [1000, { do: 'shift', lanes: [1], seconds: 5 }]);
    expect(tones(state, 0, 30)).toEqual(['leave 10 of 2', 'leave 15 of 1', 'follow 20 of 1+2']);
  });

  test('sound too where their lead left before T0, moved forward in the countdown', () => {
    const text = 'start on 60\nlane 1, 3 swimmers\nSet\n50 @ 1:00';
    const state = runOf(text, [0, { do: 'start' }], [5000, { do: 'shift', seconds: -10 }]);
    expect(tones(state, 0, 70)).toEqual(['leave 50 of 1', 'follow 55 of 1', 'follow 60 of 1']);
  });

  test('of a stretch that the coach has left are not heard in the next', () => {
    const text = 'start on 1\nlane 1, 9 swimmers\nOne\n4 x 50 @ 1:00\nTwo\n4 x 50 @ 1:00';
    const state = runOf(text, [0, { do: 'start' }]);
    const next = afterCommands(state, [12_000, { do: 'move-on' }], [16_000, { do: 'start' }]);
    expect(tones(next, 16, 36)).toEqual(['leave 26 of 1', 'follow 31 of 1', 'follow 36 of 1']);
  });
});
