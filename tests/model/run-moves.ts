/*
 * The commands that move through the session or change what is to come of it: move on, restart,
 * go to, rewrite.
 */

import type { Command } from './command.ts';
import { beginStretch, waitAt } from './run-events.ts';
import { currentStretch, freshStretches, scenarioOf, type RunState } from './run-state.ts';
import { everyItem, lastLineBefore, linesOf, type Scenario, type WrittenScenario } from './scenario.ts';
import { waitOf, type ModelRep } from './stretches-model.ts';

/** What texts mean. A text that is not among them has faults. */
export type KnownTexts = ReadonlyMap<string, WrittenScenario>;

type Refusal = string | null;

const END_GUARD = 3000;

export function moveOn(state: RunState, t: number): Refusal {
  if (justEnded(state, t)) return 'a stretch has just ended';
  const stretch = currentStretch(state);
  const next = state.stretches[state.current + 1];
  if (state.phase === 'waiting') {
    passOver(state, state.current, state.current + 1);
    waitAt(state, state.current + 1, t);
    return null;
  }
  const goesOnAtOnce =
    next !== undefined &&
    next.kind !== 'swim' &&
    next.partIndex === stretch.partIndex &&
    waitOf(next, stretch, scenarioOf(state)) === 'auto';
  if (goesOnAtOnce) beginStretch(state, state.current + 1, t);
  else waitAt(state, state.current + 1, t);
  return null;
}

export function restart(state: RunState, t: number): Refusal {
  if (justEnded(state, t)) return 'a stretch has just ended';
  if (state.phase === 'waiting' && state.current === 0) return 'nothing comes before the first';
  const index = state.phase === 'going' ? state.current : state.current - 1;
  // A stretch that was under way when cuts left nothing of it goes once it is no longer begun.
  if (state.stretches[index]?.isCutAway) state.stretches.splice(index, 1);
  waitAt(state, index, t);
  return null;
}

export function goTo(state: RunState, command: Command): Refusal {
  const isIt = (rep: ModelRep): boolean =>
    rep.line === command.line &&
    rep.rep === command.rep &&
    JSON.stringify(rep.rounds.map(({ round }) => round)) === JSON.stringify(command.rounds ?? []);
  const index = state.stretches.findIndex((stretch) => stretch.lanes.some((reps) => reps.some(isIt)));
  const rep = state.stretches[index]?.lanes.flat().find(isIt);
  if (!rep) return 'no such rep';
  passOver(state, state.current, index);
  waitAt(state, index, command.atMs);
  state.startFrom = { place: rep.place, rep: rep.rep };
  return null;
}

/** The new text takes the place of what was to come after the last part that has begun. */
export function rewrite(state: RunState, command: Command, texts: KnownTexts): Refusal {
  const rewritten = texts.get(command.text ?? '');
  if (!rewritten) return 'the text has faults';
  const firstNew = state.lastBegunPart + 1;
  const lastKept = lastLineBefore(state.written, firstNew);
  const kept = linesOf(state.written).slice(0, lastKept);
  const lines = linesOf(rewritten).slice(0, lastKept);
  if (JSON.stringify(kept) !== JSON.stringify(lines)) return 'what has begun is not the same';
  if (settingsOf(state.written.scenario) !== settingsOf(rewritten.scenario))
    return 'lanes or settings are not the same';
  const addsToBegun = rewritten.scenario.parts
    .slice(0, firstNew)
    .some((part) => everyItem(part.items).some((item) => item.line > lastKept));
  if (addsToBegun) return 'what is new does not begin with a heading';

  const isKept = (stretch: { partIndex: number }): boolean => stretch.partIndex < firstNew;
  const keptStretches = state.stretches.filter(isKept);
  const startsInNew = state.phase === 'waiting' && !isKept(currentStretch(state));
  state.stretches = [...keptStretches, ...freshStretches(rewritten.scenario).filter((stretch) => !isKept(stretch))];
  state.written = rewritten;
  state.cuts = new Map([...state.cuts].filter(([line]) => line <= lastKept));
  if (startsInNew) waitAt(state, keptStretches.length, command.atMs);
  return null;
}

function justEnded(state: RunState, t: number): boolean {
  return state.lastEndAt !== null && t - state.lastEndAt < END_GUARD;
}

/** Stretches before `to`, from `from` on, will not be swum now: their parts count as begun. */
function passOver(state: RunState, from: number, to: number): void {
  for (const stretch of state.stretches.slice(from, to)) {
    state.lastBegunPart = Math.max(state.lastBegunPart, stretch.partIndex);
  }
}

function settingsOf(scenario: Scenario): string {
  return JSON.stringify({ ...scenario, title: null, parts: null });
}
