/* What a screen pays for each picture, and a host for each command, in a run of 10 000 leaves. */

import { openPlan } from '../../app/core/plan/open-plan.ts';
import type { Plan } from '../../app/core/plan/plan.ts';
import type { Command } from '../../app/core/run/command/command.ts';
import { apply } from '../../app/core/run/fold.ts';
import { openRun, type RunState } from '../../app/core/run/state.ts';
import { view } from '../../app/core/run/view.ts';
import { sessionText } from './plan.ts';
import { medianTime, row, type Row } from './table.ts';

const LEAVES = 10_000;
/** Its first and its last line in the first part. */
const FIRST_SET = 9;
const LAST_SET = 18;

/** In a stretch of 1000 leaves, so far into it. */
const INTO = 400_000;

export function benchRun(): readonly Row[] {
  const text = sessionText(LEAVES);
  const opened = openPlan({ text, lanesText: null });
  if (!opened.ok) throw new Error(JSON.stringify(opened.faults));
  const state = given(openRun(opened.value, 0), { do: 'start' }, 0);
  return [viewRow(state), ...commandRows(opened.value, text, state)];
}

function viewRow(state: RunState): Row {
  const random = lcg(7);
  const times = Array.from({ length: 2000 }, () => Math.floor(random() * 2 * INTO));
  const ms = medianTime(times.length, (index) => void view(state, times[index]!));
  return row(`view at a random time, ${LEAVES} leaves`, `${micros(ms)}`);
}

/** Every command on top of the same state, at the same time. */
function commandRows(plan: Plan, text: string, going: RunState): readonly Row[] {
  const waiting = openRun(plan, 0);
  const stopped = given(going, { do: 'stop' }, INTO - 20_000);
  const marked = given(going, { do: 'swimmers', n: 4 }, INTO - 1000);
  const out = given(going, { do: 'lane-out', lanes: [2] }, INTO - 20_000);
  const cases: readonly (readonly [RunState, Command, what?: string])[] = [
    [waiting, { do: 'start' }],
    [going, { do: 'stop' }],
    [stopped, { do: 'resume' }],
    [stopped, { do: 'rejoin' }],
    [going, { do: 'skip' }],
    [going, { do: 'sit-out' }],
    [going, { do: 'repeat' }],
    [going, { do: 'shift', seconds: 5 }],
    [going, { do: 'interval', seconds: 5 }],
    [going, { do: 'cut', line: LAST_SET, n: 2 }],
    [going, { do: 'rewrite', text: `${text}Swim-down\n100 easy @ 3:00\n` }, 'rewrite, a part added'],
    [waiting, { do: 'rewrite', text: text.replace(/base\+5/g, 'base+10') }, 'rewrite, every line changed'],
    [going, { do: 'go-to', line: FIRST_SET, rep: 3 }],
    [going, { do: 'move-on' }],
    [going, { do: 'restart' }],
    [going, { do: 'lane-out', lanes: [2] }],
    [out, { do: 'lane-in', lanes: [2] }],
    [going, { do: 'swimmers', n: 4 }],
    [going, { do: 'gap', seconds: 10 }],
    [going, { do: 'mark', words: 'cramp' }],
    [going, { do: 'finish' }],
    [marked, { do: 'undo' }],
  ];
  return cases.map(([state, command, what = command.do]) => {
    given(state, command, INTO);
    const ms = medianTime(300, () => void apply(state, command, INTO));
    return row(`${what} on top of ${LEAVES} leaves`, micros(ms));
  });
}

/** The state after a command; a bench of a refusal would measure nothing. */
function given(state: RunState, command: Command, at: number): RunState {
  const answer = apply(state, command, at);
  if (!answer.ok) throw new Error(`${command.do}: ${answer.why}`);
  return answer.state;
}

function micros(ms: number): string {
  return `${(ms * 1000).toFixed(0)} µs`;
}

/** A linear congruential generator with the constants of Numerical Recipes; 0 up to 1. */
function lcg(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}
