/*
 * `cut`: the last reps of a set, or the last rounds, are not swum, in this stretch and later ones.
 */

import type { Command } from './command.ts';
import type { Refusal } from '../invent/named-lanes.ts';
import { waitAt } from './run-events.ts';
import { repsFrom, scenarioOf, type RunState } from './run-state.ts';
import { everyItemInLanes, repsWritten, type Scenario, type ScenarioItem } from '../scenario.ts';
import { isLeftWithNothing, type ModelRep, type ModelRound, type ModelStretch } from '../timetable/stretches-model.ts';

export function cut(state: RunState, command: Command): Refusal {
  const [line, n] = [command.line ?? 0, command.n ?? 0];
  // Where rounds and their set stand on one line, the rounds come first and are what is cut.
  const items = scenarioOf(state).parts.flatMap((part) => part.items);
  const found = everyItemInLanes(items, scenarioOf(state)).find(
    ({ item }) => item.line === line && item.kind !== 'lanes',
  );
  if (!found || !canBeCut(found.item)) return 'no set or rounds that can be cut';
  const { item, own } = found;
  const inAll = (state.cuts.get(line) ?? 0) + n;
  if (inAll > mostCuts(item, own)) return 'one rep or round at least must stay';
  state.cuts.set(line, inAll);

  const isCut = item.kind === 'rounds' ? roundsToCut(state, line, n) : repsToCut(state, line, n);
  const dropsPending = dropPending(state, isCut);
  const dropsToCome = loseFromStretches(state, isCut);
  if (!dropsPending && !dropsToCome) return 'nothing of it is to come';
  return null;
}

/** Whether a rep is cut, or, for talks and breaks, what stands in these rounds. */
interface CutRule {
  rep(rep: ModelRep, laneIndex: number): boolean;
  pause(pause: ModelStretch): boolean;
}

function canBeCut(item: ScenarioItem): boolean {
  return item.kind === 'rounds' || (item.kind === 'set' && item.timing.kind !== 'untimed');
}

function mostCuts(item: ScenarioItem, scenario: Scenario): number {
  if (item.kind === 'rounds') return item.times - 1;
  if (item.kind !== 'set') return 0;
  const counts = scenario.lanes.map((_lane, laneIndex) => repsWritten(item.shape, laneIndex));
  return Math.min(...counts.filter((count) => count > 0)) - 1;
}

/** Of every passage through the set, in every lane, the last n reps that it still has. */
function repsToCut(state: RunState, line: number, n: number): CutRule {
  const doomed = new Set<ModelRep>();
  for (const stretch of state.stretches) {
    for (const reps of stretch.lanes) {
      const ofLine = reps.filter((rep) => rep.line === line);
      for (const place of new Set(ofLine.map((rep) => rep.place))) {
        ofLine
          .filter((rep) => rep.place === place)
          .slice(-n)
          .forEach((rep) => doomed.add(rep));
      }
    }
  }
  return { rep: (rep) => doomed.has(rep), pause: () => false };
}

/** Of every passage through the rounds, the last n that are still there. */
function roundsToCut(state: RunState, line: number, n: number): CutRule {
  const present = new Map<string, Set<number>>();
  const note = (rounds: readonly ModelRound[]): void => {
    const found = passage(rounds, line);
    if (found) present.set(found.key, (present.get(found.key) ?? new Set()).add(found.round));
  };
  for (const stretch of state.stretches) {
    note(stretch.rounds);
    for (const rep of stretch.lanes.flat()) note(rep.rounds);
  }
  const isLate = (rounds: readonly ModelRound[]): boolean => {
    const found = passage(rounds, line);
    if (!found) return false;
    const latest = [...(present.get(found.key) ?? [])].sort((a, b) => a - b).slice(-n);
    return latest.includes(found.round);
  };
  return { rep: (rep) => isLate(rep.rounds), pause: (pause) => isLate(pause.rounds) };
}

/** Which passage through the rounds of a line it is, by the rounds around it, and which of these rounds. */
function passage(rounds: readonly ModelRound[], line: number): { key: string; round: number } | null {
  const depth = rounds.findIndex((round) => round.line === line);
  const own = rounds[depth];
  if (!own) return null;
  return { key: JSON.stringify(rounds.slice(0, depth).map(({ round }) => round)), round: own.round };
}

function dropPending(state: RunState, isCut: CutRule): boolean {
  let dropsAny = false;
  for (const lane of state.lanes) {
    let earlier = 0;
    const stay = [];
    for (const pending of lane.pending) {
      if (!pending.again && isCut.rep(pending.rep, lane.index)) {
        earlier += pending.rep.interval + pending.rep.leftover;
        dropsAny = true;
      } else {
        stay.push({ ...pending, leave: pending.leave - earlier });
      }
    }
    lane.pending = stay;
    lane.end -= earlier;
  }
  return dropsAny;
}

/** Takes what is cut out of this stretch and later ones; true where one not begun has lost something. */
function loseFromStretches(state: RunState, isCut: CutRule): boolean {
  const firstNotBegun = state.phase === 'waiting' ? state.current : state.current + 1;
  let losesAny = false;
  state.stretches.forEach((stretch, index) => {
    if (index < state.current) return;
    stretch.lanes.forEach((reps, laneIndex) => {
      const stay = reps.filter((rep) => !isCut.rep(rep, laneIndex));
      if (stay.length < reps.length && index >= firstNotBegun) losesAny = true;
      reps.splice(0, reps.length, ...stay);
    });
  });
  for (const stretch of state.stretches.slice(state.current)) {
    if (stretch.kind !== 'swim' && isCut.pause(stretch)) stretch.isCutAway = true;
  }
  const before = state.stretches.length;
  dropTheEmpty(state, firstNotBegun, state.now);
  return losesAny || state.stretches.length < before;
}

/**
 * Stretches from the index on that are left with nothing go, and the one that is waited for where
 * nothing is left from the place that a `go-to` named. What comes after it waits in its place.
 */
export function dropTheEmpty(state: RunState, firstNotBegun: number, t: number): void {
  const waitedFor = state.phase === 'waiting' ? state.stretches[state.current] : undefined;
  const isGone = (stretch: ModelStretch): boolean =>
    isLeftWithNothing(stretch) || (stretch === waitedFor && hasNothingToStartWith(state, stretch));
  state.stretches = state.stretches.filter((stretch, index) => index < firstNotBegun || !isGone(stretch));
  if (waitedFor && !state.stretches.includes(waitedFor)) waitAt(state, state.current, t);
}

function hasNothingToStartWith(state: RunState, stretch: ModelStretch): boolean {
  if (stretch.kind !== 'swim') return false;
  return stretch.lanes.every((_reps, laneIndex) => repsFrom(stretch, laneIndex, state.startFrom).length === 0);
}
