/*
 * What holds of the cues of any evening, whatever is commanded and chosen.
 */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ON_ITS_WAY } from '../../../app/core/run/align.ts';
import { apply } from '../../../app/core/run/fold.ts';
import { leavesOf } from '../../../app/core/run/record.ts';
import { settle } from '../../../app/core/run/settle.ts';
import { openRun, type RunState } from '../../../app/core/run/state.ts';
import type { CueChoice } from '../../../app/core/sound/cue-choice.ts';
import { cuesDue, type Cue } from '../../../app/core/sound/cues.ts';
import { planOf } from '../../support/run/deck.ts';
import { evenings, type Evening } from '../../support/run/evening.ts';
import { runs } from '../../support/run/runs.ts';

const RUNS = { numRuns: runs(60) };

const choices: fc.Arbitrary<CueChoice> = fc.record({
  pips: fc.constantFrom('starts', 'always', 'never'),
  followers: fc.boolean(),
  signs: fc.boolean(),
  muted: fc.subarray([1, 2, 3]),
});

/** The state from each accepted command on, up to the next. */
interface Span {
  readonly state: RunState;
  readonly from: number;
  readonly until: number;
}

function spansOf({ text, phase, steps }: Evening): readonly Span[] {
  const spans: Span[] = [];
  let state = openRun(planOf(text), phase);
  let at = 0;
  let since = 0;
  for (const { after, command } of steps) {
    at += after;
    const answer = apply(state, command, at);
    if (!answer.ok) continue;
    spans.push({ state, from: since, until: at });
    state = answer.state;
    since = at;
  }
  return [...spans, { state, from: since, until: since + 600_000 }];
}

/** What a screen hears of the whole evening: of each span the cues that are due in it. */
function heardOf(spans: readonly Span[], choice: CueChoice): readonly Cue[] {
  return spans.reduce<Cue[]>((all, { state, from, until }) => [...all, ...cuesDue(state, from, until, choice)], []);
}

const isTone = ({ kind }: Cue): boolean => kind === 'leave' || kind === 'follow';

describe('[cues] of any evening', () => {
  test('every leave of a lane that is heard sounds once, at its time, and nothing else does as a leave', () => {
    fc.assert(
      fc.property(evenings, choices, (evening, choice) => {
        const spans = spansOf(evening);
        const last = spans[spans.length - 1]!;
        const happened = leavesOf(settle(last.state, last.until - 1))
          .filter(({ at, lane }) => at < last.until && !choice.muted.includes(lane))
          .map(({ at, lane }) => `${at} ${lane}`);
        const leaves = heardOf(spans, choice).filter(({ kind }) => kind === 'leave');
        const told = leaves.reduce<string[]>(
          (all, { at, lanes }) => [...all, ...lanes.map((lane) => `${at} ${lane}`)],
          [],
        );
        expect([...told].sort()).toEqual([...happened].sort());
        expect(new Set(leaves.map(({ at }) => at)).size).toBe(leaves.length);
      }),
      RUNS,
    );
  });

  test('pips come in threes, a second apart before a leave, and no tone falls among them', () => {
    fc.assert(
      fc.property(evenings, choices, (evening, choice) => {
        for (const { state, from, until } of spansOf(evening)) {
          // Far enough on both sides for whole counts, as if nothing more were commanded.
          const cues = cuesDue(state, from, until + 4000, choice);
          const pips = cues.filter(({ kind, at }) => kind === 'pip' && at >= from + 3000 && at < until);
          for (const { at, lanes } of pips) {
            const leave = cues.find((cue) => cue.kind === 'leave' && cue.at > at)!;
            const left = (leave.at - at) / 1000;
            expect([1, 2, 3]).toContain(left);
            expect(lanes).toEqual(leave.lanes);
            for (const second of [1, 2, 3]) {
              expect(cues.filter((cue) => cue.kind === 'pip' && cue.at === leave.at - second * 1000)).toHaveLength(1);
            }
            const among = cues.filter((cue) => isTone(cue) && cue.at >= leave.at - 3500 && cue.at < leave.at);
            expect(among).toEqual([]);
          }
        }
      }),
      RUNS,
    );
  });

  test('a span has what its parts have, and every cue its own key', () => {
    fc.assert(
      fc.property(evenings, choices, fc.double({ min: 0, max: 1, noNaN: true }), (evening, choice, share) => {
        for (const { state, from, until } of spansOf(evening)) {
          const middle = Math.round(from + share * (until - from));
          const whole = cuesDue(state, from, until, choice);
          expect([...cuesDue(state, from, middle, choice), ...cuesDue(state, middle, until, choice)]).toEqual(whole);
          expect(new Set(whole.map(({ key }) => key)).size).toBe(whole.length);
        }
      }),
      RUNS,
    );
  });

  test('a sign keeps half a second from every other sound', () => {
    fc.assert(
      fc.property(evenings, choices, (evening, choice) => {
        for (const { state, from } of spansOf(evening)) {
          const cues = cuesDue(state, from, from + 5000, { ...choice, signs: true });
          const sign = cues.find(({ kind }) => kind === 'stop' || kind === 'resume');
          if (!sign) continue;
          for (const cue of cues) if (cue !== sign) expect(Math.abs(cue.at - sign.at)).toBeGreaterThanOrEqual(500);
        }
      }),
      RUNS,
    );
  });

  test('[R1] once everything is stopped there is no tone and no pip but of what was on its way', () => {
    let stops = 0;
    fc.assert(
      fc.property(evenings, choices, (evening, choice) => {
        for (const { state, from } of spansOf(evening)) {
          const answer = apply(state, { do: 'stop' }, from + 5000);
          const stopped = answer.ok && answer.state.lanes.some(({ stoppedBy }) => stoppedBy !== null);
          if (!stopped) continue;
          stops++;
          const cues = cuesDue(answer.state, from + 5000 + ON_ITS_WAY + 1, from + 605_000, choice);
          expect(cues.filter(({ kind }) => kind !== 'stop')).toEqual([]);
        }
      }),
      RUNS,
    );
    expect(stops).toBeGreaterThan(RUNS.numRuns / 3);
  });
});
