/*
 * How a run stands, in the words of its rules. A state is made afresh for every question, by going
 * through all commands from the beginning, so it may be changed freely while that goes on.
 */

import type { Scenario, WrittenScenario } from '../scenario.ts';
import { gapOf } from '../timetable/timetable-model.ts';
import { stretchesOf, type ModelRep, type ModelStretch } from '../timetable/stretches-model.ts';

export const LEAD = 10_000;
/** A leave so soon after a command is on its way to the loudspeaker. */
export const ON_ITS_WAY = 250;

export interface RunState {
  /** The text in force. */
  written: WrittenScenario;
  /** What the pool's clock shows past the full minute at time 0. */
  readonly poolPhase: number;
  stretches: ModelStretch[];
  current: number;
  phase: 'waiting' | 'going' | 'done';
  /** When the current stretch began, or begins: its time 0. */
  t0: number;
  readonly lanes: LaneState[];
  /** The end of the talk or break that is going. */
  pauseEnd: number;
  /** After a Stop with no lanes named: what follows the stretch that is going waits. */
  isHeld: boolean;
  /** Where `go-to` has the waiting stretch begin, or had the one that is going begin. */
  startFrom: StartingPlace | null;
  doneAt: number | null;
  /** The lines of the reps that have left, in any lane, since the current stretch last began. */
  linesLeft: Set<number>;
  /** How many reps or rounds have been cut from a line. */
  cuts: Map<number, number>;
  /** The last `start` or `stop`: they are one button. */
  lastStartOrStopAt: number | null;
  /** When a stretch last ended by itself or because nothing was left in it. */
  lastEndAt: number | null;
  /** The last command that keeps swims from beginning by themselves too soon after it. */
  lastChangeAt: number | null;
  /** The time of the last leave, end or command: nothing can end before it. */
  now: number;
  readonly leaves: HappenedLeave[];
}

/** A rep, and where it comes in the order of the session. */
export interface StartingPlace {
  readonly line: number;
  readonly rounds: readonly number[];
  readonly rep: number;
  readonly place: number;
}

export interface LaneState {
  readonly number: number;
  /** Among the session's lanes. */
  readonly index: number;
  isIn: boolean;
  swimmers: number;
  gap: number;
  takesPart: boolean;
  /** It had a rep when it began to take part in this stretch, or got one by a rewrite. */
  hadRep: boolean;
  pending: PendingRep[];
  /** The last one that left since the lane began to take part in this stretch. */
  lastLeft: PendingRep | null;
  /** How long after that lead the lane's last swimmer followed. */
  lastTail: number;
  end: number;
  displacement: number;
  /** The number of the command that stopped it. */
  stoppedBy: number | null;
}

export interface PendingRep {
  readonly rep: ModelRep;
  leave: number;
  /** Swum again by `repeat`. */
  readonly again: boolean;
}

export interface HappenedLeave {
  readonly lane: number;
  readonly stretch: number;
  readonly line: number;
  readonly rounds: readonly { readonly round: number; readonly of: number }[];
  readonly rep: number;
  readonly of: number;
  readonly distance: number;
  readonly atMs: number;
}

/** A run just opened: the first stretch waits for the coach's word. */
export function openRun(written: WrittenScenario, poolPhase: number): RunState {
  return {
    written,
    poolPhase,
    stretches: freshStretches(written.scenario),
    current: 0,
    phase: 'waiting',
    t0: 0,
    lanes: written.scenario.lanes.map((lane, index) => ({
      number: lane.number,
      index,
      isIn: true,
      swimmers: lane.swimmers,
      gap: gapOf(written.scenario, index),
      takesPart: false,
      hadRep: false,
      pending: [],
      lastLeft: null,
      lastTail: 0,
      end: 0,
      displacement: 0,
      stoppedBy: null,
    })),
    pauseEnd: 0,
    isHeld: false,
    startFrom: null,
    doneAt: null,
    linesLeft: new Set(),
    cuts: new Map(),
    lastStartOrStopAt: null,
    lastEndAt: null,
    lastChangeAt: null,
    now: 0,
    leaves: [],
  };
}

/** The stretches of a scenario, as objects that the caller may change. */
export function freshStretches(scenario: Scenario): ModelStretch[] {
  const known = knownStretches.get(scenario) ?? stretchesOf(scenario);
  knownStretches.set(scenario, known);
  return known.map((stretch) => ({
    ...stretch,
    lanes: stretch.lanes.map((reps) => reps.map((rep) => ({ ...rep }))),
  }));
}

/** Runs are gone through very often, their sessions worked out only once. */
const knownStretches = new WeakMap<Scenario, ModelStretch[]>();

export function scenarioOf(state: RunState): Scenario {
  return state.written.scenario;
}

export function currentStretch(state: RunState): ModelStretch {
  const stretch = state.stretches[state.current];
  if (!stretch) throw new RangeError(`no stretch ${state.current} of ${state.stretches.length}`);
  return stretch;
}

/** The least time not below the one given at which the pool's clock shows a multiple of `start on`. */
export function align(state: RunState, time: number): number {
  const step = scenarioOf(state).startOn * 1000;
  return Math.ceil((time + state.poolPhase) / step) * step - state.poolPhase;
}

/** The tail that the lane's next leave would have. */
export function tailOfLane(lane: LaneState): number {
  return (lane.swimmers - 1) * lane.gap;
}

/** What the lane's tail adds to its end. Once the last rep has left, its swimmers follow as they were then. */
export function tailAtEnd(lane: LaneState): number {
  if (!lane.hadRep) return 0;
  return hasPending(lane) || lane.lastLeft === null ? tailOfLane(lane) : lane.lastTail;
}

export function isGoingSwim(state: RunState): boolean {
  return state.phase === 'going' && currentStretch(state).kind === 'swim';
}

export function isGoingPause(state: RunState): boolean {
  return state.phase === 'going' && currentStretch(state).kind !== 'swim';
}

export function isStopped(lane: LaneState): boolean {
  return lane.stoppedBy !== null;
}

export function hasPending(lane: LaneState): boolean {
  return lane.pending.length > 0;
}

export function nextLeave(lane: LaneState): number | null {
  return lane.pending[0]?.leave ?? null;
}

/** What a lane swims in a stretch that begins where `startFrom` says. */
export function repsFrom(stretch: ModelStretch, laneIndex: number, startFrom: StartingPlace | null): ModelRep[] {
  return notBefore(stretch.lanes[laneIndex] ?? [], startFrom);
}

/** Those of the reps that do not come before a place in the order of the session. */
export function notBefore(reps: ModelRep[], startFrom: StartingPlace | null): ModelRep[] {
  if (startFrom === null) return reps;
  return reps.filter(
    (rep) => rep.place > startFrom.place || (rep.place === startFrom.place && rep.rep >= startFrom.rep),
  );
}

/** All that the lane has pending, and its end. */
export function moveLeaves(lane: LaneState, by: number): void {
  for (const pending of lane.pending) pending.leave += by;
  lane.end += by;
}
