/*
 * The state of a run. A state is a value: commands and the passing of time make new states that share what did not
 * change. So the state before a command can be kept for its undo at no cost.
 */

import type { Command } from './command/command.ts';
import type { Millis } from '../units.ts';
import type { Alignment } from './align.ts';
import type { Place } from './place.ts';
import type { Plan, Rep, Stretch } from '../plan/plan.ts';

export interface RunState extends Alignment {
  /** The session in force, and the text it was read from. */
  readonly plan: Plan;
  /** The plan's stretches, as changed by `cut`, `interval` and `rewrite`. */
  readonly stretches: readonly Stretch[];
  /** The index of the current stretch in `stretches`. */
  readonly index: number;
  readonly phase: 'waiting' | 'going' | 'done';
  /** T0 of the stretch that is going; in the other phases, of the last stretch that was; null if there was none. */
  readonly t0: Millis | null;
  /** The T0 before that: the clock runs on from it until the last seconds before a start. */
  readonly t0Before: Millis | null;
  /** When the talk or break that is going ends. */
  readonly pauseEnd: Millis;
  /** Set by a `stop` of all lanes: what follows the stretch that is going waits for the coach's word. */
  readonly heldAfter: boolean;
  /** The place at which a `go-to` makes the current stretch begin; null for its beginning. */
  readonly from: Place | null;
  /** In lane order. */
  readonly lanes: readonly LaneState[];
  /** When the session was done; null before that. */
  readonly doneAt: Millis | null;
  /** How many reps or rounds have been cut, by line of the text in force. */
  readonly cuts: ReadonlyMap<number, number>;
  /** Lines of the text in force whose interval has been changed in a lane. */
  readonly retimed: ReadonlySet<number>;
  /** What has left. Each entry is a row of consecutive leaves of one lane; entries of different lanes are in no order. */
  readonly departed: readonly Departure[];
  /**
   * The length of `departed` when the current stretch last began. Times cannot tell: a `shift` before T0 can put a
   * leave before it.
   */
  readonly departedBefore: number;
  readonly marks: readonly Mark[];
  /** When the last command, start, stop, and command that R6 counts from were accepted; -Infinity for none. */
  readonly commandAt: Millis;
  readonly startedAt: Millis;
  readonly stoppedAt: Millis;
  readonly steeredAt: Millis;
  /** When lanes were last resumed; -Infinity for never. */
  readonly resumedAt: Millis;
  /** When a stretch last ended by itself (R5); -Infinity for never. */
  readonly endedAt: Millis;
  /** How many stops there have been. The number of a stop tells which lanes it stopped together. */
  readonly stops: number;
  /** The commands that `undo` may still take back, the latest last. */
  readonly undoable: readonly Undoable[];
}

export interface LaneState {
  readonly number: number;
  readonly in: boolean;
  readonly swimmers: number;
  readonly gap: Millis;
  /**
   * Whether the lane takes part in the stretch that is going; and whether it had a rep when it began to, or got one by
   * a rewrite.
   */
  readonly takesPart: boolean;
  readonly hadRep: boolean;
  /** The reps from `next` on are pending; each leaves at `origin + offset`. */
  readonly reps: readonly Pending[];
  readonly next: number;
  readonly origin: Millis;
  /** When the lead could leave again. */
  readonly end: Millis;
  /** How far `resume` and `shift` have moved the lane since the stretch began. */
  readonly displacement: Millis;
  /** The number of the stop that holds the lane; null if it is not stopped. */
  readonly stoppedBy: number | null;
  /** The last leave, of this stretch or an earlier one. */
  readonly last: LastLeave | null;
  /** Whether `last` was after the lane began to take part in this stretch. */
  readonly leftHere: boolean;
  /** When the first of the reps that have been sat out since its last leave was to leave; null where none was. */
  readonly satOutFrom: Millis | null;
}

/** A rep that has not left. `again` marks one that `repeat` put in: a cut leaves it alone. */
export type Pending = Rep & { readonly again?: true };

export interface LastLeave {
  readonly rep: Pending;
  readonly at: Millis;
  /** As they were when the lead left. */
  readonly swimmers: number;
  readonly gap: Millis;
}

/** The leaves of reps[from] to reps[to - 1] in a lane, each at origin + offset. */
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

/** A command that can be undone, with the state before it. The `undoable` of that state is empty. */
export interface Undoable {
  readonly command: Command;
  readonly takesLeavesAway: boolean;
  readonly at: Millis;
  readonly before: RunState;
}

/**
 * A run at t = 0, waiting for the coach's word. clockPhase: what the pool's clock shows past the full minute at t = 0,
 * from 0 to 59 999 ms.
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
    departedBefore: 0,
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

/** The fields of a lane that takes part in no stretch. */
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
  satOutFrom: null,
};

/** The stretch that is going or waits to begin. Throws if the run has no stretches left. */
export function currentStretch(state: RunState): Stretch {
  const stretch = state.stretches[state.index];
  if (!stretch) throw new Error('the run has no current stretch');
  return stretch;
}

export function isPending(lane: LaneState): boolean {
  return lane.next < lane.reps.length;
}

/** What has left since the current stretch last began. */
export function departedHere({ departed, departedBefore }: RunState): readonly Departure[] {
  return departed.slice(departedBefore);
}

/** The time of the first leave of a departure. */
export function firstOf({ reps, from, origin }: Departure): Millis {
  return origin + reps[from]!.offset;
}

/** Whether something is pending and every pending lane is stopped. */
export function allStopped({ lanes }: Pick<RunState, 'lanes'>): boolean {
  return lanes.some(isPending) && lanes.every((lane) => !isPending(lane) || lane.stoppedBy !== null);
}

/** When the lane's next rep leaves; Infinity if nothing is pending. A stopped lane keeps its time. */
export function nextLeave(lane: LaneState): Millis {
  const rep = lane.reps[lane.next];
  return rep ? lane.origin + rep.offset : Infinity;
}
