/*
 * How a run stands. A state is a value: commands and passing time make new ones and share what
 * did not change, so the state before a command can be kept for its undo at no cost.
 */

import type { Command } from './command.ts';
import type { Millis } from '../units.ts';
import type { Alignment } from './align.ts';
import type { Place } from './place.ts';
import type { Plan, Rep, Stretch } from '../plan/plan.ts';

export interface RunState extends Alignment {
  /** The session in force, and the text it was read from. */
  readonly plan: Plan;
  /** The plan's stretches, as changed by `cut`, `interval` and `rewrite`. */
  readonly stretches: readonly Stretch[];
  /** Of the current stretch. */
  readonly index: number;
  readonly phase: 'waiting' | 'going' | 'done';
  /** T0 of the stretch that is going. In the other phases: of the last that was, or null. */
  readonly t0: Millis | null;
  /** The T0 before that: the clock runs on from it until the last seconds before a start. */
  readonly t0Before: Millis | null;
  /** End of the talk or break that is going. */
  readonly pauseEnd: Millis;
  /** Since a `stop` of all lanes: what follows the stretch that is going waits for the coach's word. */
  readonly heldAfter: boolean;
  /** Where a `go-to` makes the current stretch begin; null for all of it. */
  readonly from: Place | null;
  /** In lane order. */
  readonly lanes: readonly LaneState[];
  /** When it was done. */
  readonly doneAt: Millis | null;
  /** How many reps or rounds have been cut, by line of the text in force. */
  readonly cuts: ReadonlyMap<number, number>;
  /** Lines of the text in force whose interval has been changed in a lane. */
  readonly retimed: ReadonlySet<number>;
  /** What has left, in runs of consecutive leaves of one lane; in no order between lanes. */
  readonly departed: readonly Departure[];
  readonly marks: readonly Mark[];
  /** Of the last accepted command, `start`, `stop`, and command that R6 counts from; -Infinity for none. */
  readonly commandAt: Millis;
  readonly startedAt: Millis;
  readonly stoppedAt: Millis;
  readonly steeredAt: Millis;
  /** When lanes were resumed last; -Infinity for never. */
  readonly resumedAt: Millis;
  /** When the last stretch ended by itself (R5). */
  readonly endedAt: Millis;
  /** Numbers the stops, so that lanes stopped together are known. */
  readonly stops: number;
  /** The commands that `undo` may still take back, the last one last. */
  readonly undoable: readonly Undoable[];
}

export interface LaneState {
  readonly number: number;
  readonly in: boolean;
  readonly swimmers: number;
  readonly gap: Millis;
  /** In the stretch that is going: whether it takes part, and whether it had a rep when it began to, or has got one by a rewrite. */
  readonly takesPart: boolean;
  readonly hadRep: boolean;
  /** From `next` on pending; each leaves at `origin + offset`. */
  readonly reps: readonly Pending[];
  readonly next: number;
  readonly origin: Millis;
  /** When the lead could leave again. */
  readonly end: Millis;
  /** How far `resume` and `shift` have moved the lane since the stretch began. */
  readonly displacement: Millis;
  /** The number of the stop that holds it; null where it is not stopped. */
  readonly stoppedBy: number | null;
  /** The last leave, of this stretch or an earlier one. */
  readonly last: LastLeave | null;
  /** Whether that was since the lane began to take part in this stretch. */
  readonly leftHere: boolean;
}

/** A rep still to leave; `again` marks one put in by `repeat`, which a cut leaves alone. */
export type Pending = Rep & { readonly again?: true };

export interface LastLeave {
  readonly rep: Pending;
  readonly at: Millis;
  /** As they were when the lead left. */
  readonly swimmers: number;
  readonly gap: Millis;
}

/** Leaves reps[from] to reps[to - 1] of a lane, each at origin + offset. */
export interface Departure {
  readonly lane: number;
  readonly stretch: number;
  readonly reps: readonly Pending[];
  readonly from: number;
  readonly to: number;
  readonly origin: Millis;
  readonly swimmers: number;
  readonly gap: Millis;
}

export interface Mark {
  readonly at: Millis;
  readonly lanes: readonly number[];
  readonly words: string;
}

/** A command, whether it takes leaves away, and the state before it, whose own `undoable` is left empty. */
export interface Undoable {
  readonly command: Command;
  readonly takesLeavesAway: boolean;
  readonly at: Millis;
  readonly before: RunState;
}

/**
 * A run just opened, t = 0, waiting for the coach's word.
 * clockPhase: what the pool's clock shows past the full minute at t = 0, 0 to 59 999 ms.
 */
export function openRun(plan: Plan, clockPhase: Millis): RunState {
  return {
    plan,
    clockPhase,
    startOn: plan.session.startOn,
    stretches: plan.stretches,
    index: 0,
    phase: 'waiting',
    t0: null,
    t0Before: null,
    pauseEnd: 0,
    heldAfter: false,
    from: null,
    lanes: plan.session.lanes.map((lane) => ({
      number: lane.number,
      in: true,
      swimmers: lane.swimmers,
      gap: lane.gap,
      last: null,
      ...NOTHING_PENDING,
    })),
    doneAt: null,
    cuts: new Map(),
    retimed: new Set(),
    departed: [],
    marks: [],
    commandAt: -Infinity,
    startedAt: -Infinity,
    stoppedAt: -Infinity,
    steeredAt: -Infinity,
    resumedAt: -Infinity,
    endedAt: -Infinity,
    stops: 0,
    undoable: [],
  };
}

/** What a lane is in no stretch. */
export const NOTHING_PENDING = {
  takesPart: false,
  hadRep: false,
  reps: [] as readonly Pending[],
  next: 0,
  origin: 0,
  end: 0,
  displacement: 0,
  stoppedBy: null,
  leftHere: false,
};

/** The stretch that is going or waits to begin; throws once nothing is left to be current. */
export function currentStretch(state: RunState): Stretch {
  const stretch = state.stretches[state.index];
  if (!stretch) throw new Error('a run has no current stretch');
  return stretch;
}

export function isPending(lane: LaneState): boolean {
  return lane.next < lane.reps.length;
}

/** Whether there is something pending, and all of it is stopped. */
export function allStopped({ lanes }: Pick<RunState, 'lanes'>): boolean {
  return lanes.some(isPending) && lanes.every((lane) => !isPending(lane) || lane.stoppedBy !== null);
}

/** When the lane's next rep leaves; Infinity with nothing pending. Keeps its time while stopped. */
export function nextLeave(lane: LaneState): Millis {
  const rep = lane.reps[lane.next];
  return rep ? lane.origin + rep.offset : Infinity;
}
