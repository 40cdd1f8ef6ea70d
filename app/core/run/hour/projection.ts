/*
 * When the session will be over, as things stand. It is worked out as if stopped lanes were resumed now and a start
 * that is waited for were given now. Everything after that follows the plan's own rule.
 */

import type { Millis } from '../../units.ts';
import type { Stretch } from '../../plan/plan.ts';
import { stretchLength } from '../../plan/schedule.ts';
import { align, LEAD } from '../align.ts';
import { resumeLanes } from '../commands/start-stop/resume.ts';
import { startingFrom } from '../place.ts';
import { latestEnd, startAfter } from '../settle.ts';
import { currentStretch, type RunState } from '../state.ts';

/** The projected end of the session, for a state settled at t; once the session is done, the time when it was. */
export function projectedEnd(state: RunState, t: Millis): Millis {
  if (state.phase === 'done') return state.doneAt!;
  const times = projectedTimes(state, t);
  return times[times.length - 1]!.end;
}

/** When a stretch begins and ends as things stand, in ms since the run was opened. */
export interface StretchTimes {
  readonly start: Millis;
  readonly end: Millis;
}

/** Of each stretch from the current one on. The current one's start may be past. */
export function projectedTimes(state: RunState, t: Millis): readonly StretchTimes[] {
  if (state.phase === 'done') return [];
  const start = state.phase === 'going' ? state.t0! : startNow(state, t);
  const times = [{ start, end: currentEnd(state, t) }];
  for (let index = state.index + 1; index < state.stretches.length; index++) {
    const stretch = state.stretches[index]!;
    const next = startAfter(state, stretch, state.stretches[index - 1]!, times[times.length - 1]!.end);
    times.push({ start: next, end: next + lengthOf(state, stretch) });
  }
  return times;
}

function currentEnd(state: RunState, t: Millis): Millis {
  const stretch = currentStretch(state);
  if (state.phase === 'waiting') {
    const lanes = stretch.lanes.map((lane) => startingFrom(lane, state.from));
    return startNow(state, t) + lengthOf(state, { ...stretch, lanes });
  }
  if (stretch.kind !== 'swim') return Math.max(state.pauseEnd, t);
  return Math.max(latestEnd(resumeLanes(state, new Set(state.lanes.keys()), t).lanes), t);
}

function startNow(state: RunState, t: Millis): Millis {
  return currentStretch(state).kind === 'swim' ? align(state, t + LEAD) : t;
}

/** The length of a stretch that has not begun, for the lanes that are in, with their tails as they now are. */
function lengthOf(state: RunState, stretch: Stretch): Millis {
  return stretchLength(
    stretch,
    state.lanes.map((lane) => (lane.in ? lane : null)),
  );
}
