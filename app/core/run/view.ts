/*
 * What screens know of a run at a time t, by name: they see nothing of the state behind it. All times are in ms since
 * the run was opened; a screen turns them into readings of the clock it shows (`readings.ts`). What costs more
 * than the rest is worked out when it is asked for; what only some screens ask is in `view/`.
 */

import type { Millis } from '../units.ts';
import type { Plan, Stretch } from '../plan/plan.ts';
import { align, LEAD, UNDO_FOR } from './align.ts';
import type { Command } from './command/command.ts';
import { startingFrom } from './place.ts';
import { projectedTimes, type StretchTimes } from './hour/projection.ts';
import { countNow, type CountNow } from './cuts/standing.ts';
import { beginsByItselfAt, nextWaits, settle } from './settle.ts';
import {
  allStopped,
  currentStretch,
  isPending,
  nextLeave,
  type LaneState,
  type Mark,
  type Pending,
  type RunState,
} from './state.ts';
import { SETTLED, type Settled } from './view/settled.ts';

export interface RunView extends Settled {
  readonly t: Millis;
  readonly phase: RunState['phase'];
  /** The session in force, with the text it was read from. */
  readonly plan: Plan;
  /** The plan's stretches as cuts, changed intervals and rewrites have left them. */
  readonly stretches: readonly Stretch[];
  /** Of the current stretch among them. */
  readonly index: number;
  readonly stretch: Stretch;
  /** What comes after the current stretch, null after the last. */
  readonly following: Stretch | null;
  /** Whether that waits for the coach's word. */
  readonly followingWaits: boolean;
  /** Whether it would begin by itself if a Stop did not hold it. */
  readonly held: boolean;
  /** When it begins by itself, as things stand; null where it waits for the coach's word, or nothing follows. */
  readonly followsAt: Millis | null;
  readonly clock: ClockView;
  /** How many reps or rounds are cut, by line of the text in force. */
  readonly cuts: ReadonlyMap<number, number>;
  /** When the talk or break that is going ends. */
  readonly pauseEnd: Millis | null;
  readonly lanes: readonly LaneView[];
  /** The only lanes that keep the stretch open, where all of them are stopped. */
  readonly heldOpenBy: readonly number[];
  /** Whether something is pending, and all of it is stopped. */
  readonly allStopped: boolean;
  /** When lanes were last stopped; -Infinity for never. */
  readonly stoppedAt: Millis;
  /** The number of the last stop, 0 for none: `LaneView.stop` has it where that still holds the lane. */
  readonly lastStop: number;
  /** From the current stretch on, when each begins (the current one may have) and ends as things stand; none once done. */
  readonly projectedTimes: readonly StretchTimes[];
  /** When the session will be over as things stand; when it was done, where it is. */
  readonly projectedEnd: Millis;
  readonly marks: readonly Mark[];
  /** What `undo` would take back, when it was given, and until when. */
  readonly undo: { readonly command: Command; readonly at: Millis; readonly until: Millis } | null;
}

export interface ClockView {
  /** The start from which the stretch's clock counts now; null before the first. */
  readonly from: Millis | null;
  /** Time to T0 in the last 10 s of a countdown, else null; null too where all lanes are stopped: nobody starts then. */
  readonly startsIn: Millis | null;
  /** T0 that readings of leaves to come count from: of the stretch that is going; null while waiting. */
  readonly t0: Millis | null;
  /** What the pool's clock shows past the full minute at t = 0, 0 to 59 999 ms. */
  readonly poolPhase: Millis;
}

export interface LaneView {
  readonly number: number;
  /** finished: it has left for all that it swims here; sits-out: at the wall until the others are through. */
  readonly state: 'out' | 'stopped' | 'pending' | 'finished' | 'sits-out' | 'absent';
  readonly swimmers: number;
  readonly gap: Millis;
  /** Whether it has a rep still to leave in the stretch that is going. */
  readonly pending: boolean;
  /** The number of the stop that holds it: the same for lanes stopped together, higher for later ones; null where it is not stopped. */
  readonly stop: number | null;
  /** Whether a rep has left since the lane began to take part in this stretch. */
  readonly leftHere: boolean;
  /** The rep to come; while waiting, the first of the stretch to begin, with no time yet. */
  readonly next: NextRep | null;
  /** The one after it. */
  readonly after: NextRep | null;
  /** The last leave, with how many of the lane's swimmers are away. */
  readonly last: LastView | null;
  /** What commands have dropped since that leave, or since this stretch began; null where nothing was, or nothing is to come. */
  readonly leftOut: LeftOut | null;
  /** Where `resume` (with all lanes of its stop) and `rejoin` would put the next leave; null where it is not stopped, or nothing would be left. */
  readonly resumeAt: Millis | null;
  readonly rejoinAt: Millis | null;
  /** When the lead could leave again; where the rest is sat out, when it is through with what it swims. */
  readonly end: Millis;
}

export interface NextRep extends CountNow {
  readonly rep: Pending;
  readonly words: string;
  readonly at: Millis | null;
}

export interface LeftOut {
  /** How many reps, one at least. */
  readonly reps: number;
  /** The last of them. */
  readonly rep: NextRep;
  /** Whether the times of the others have stayed: the lane sits out for as long as these would have taken. */
  readonly satOut: boolean;
}

export interface LastView extends CountNow {
  readonly rep: Pending;
  readonly at: Millis;
  /** Swimmers of the lane when its lead left, and how many of them have left by now. */
  readonly swimmers: number;
  readonly away: number;
  /** When the tail leaves. */
  readonly tailAt: Millis;
}

/** The run at t, not before the last command's time. Cheap: it costs by the lanes and stretches, not by the leaves. */
export function view(state: RunState, t: Millis): RunView {
  const now = settle(state, t);
  const stretch = currentStretch(now);
  const times = lazily(() => projectedTimes(now, t));
  const following = now.stretches[now.index + 1] ?? null;
  const last = now.undoable[now.undoable.length - 1];
  return {
    t,
    phase: now.phase,
    plan: now.plan,
    stretches: now.stretches,
    index: now.index,
    stretch,
    following,
    followingWaits: nextWaits(now),
    held: now.phase === 'going' && now.heldAfter && following !== null && !nextWaits({ ...now, heldAfter: false }),
    get followsAt() {
      return followsAt(now, times);
    },
    clock: clockView(now, t),
    cuts: now.cuts,
    pauseEnd: now.phase === 'going' && stretch.kind !== 'swim' ? now.pauseEnd : null,
    lanes: now.lanes.map((lane, index) => laneView(now, lane, index, t)),
    heldOpenBy: heldOpenBy(now),
    allStopped: allStopped(now),
    stoppedAt: now.stoppedAt,
    lastStop: now.stops,
    get projectedTimes() {
      return times();
    },
    get projectedEnd() {
      return now.phase === 'done' ? now.doneAt! : times()[times().length - 1]!.end;
    },
    marks: now.marks,
    undo: last && t <= last.at + UNDO_FOR ? { command: last.command, at: last.at, until: last.at + UNDO_FOR } : null,
    [SETTLED]: now,
  };
}

function lazily<Value>(work: () => Value): () => Value {
  let kept: { readonly value: Value } | null = null;
  return () => {
    if (kept === null) kept = { value: work() };
    return kept.value;
  };
}

function followsAt(state: RunState, times: () => readonly StretchTimes[]): Millis | null {
  const following = state.stretches[state.index + 1];
  if (state.phase !== 'going' || !following || nextWaits(state)) return null;
  return beginsByItselfAt(state, following, currentStretch(state), times()[0]!.end);
}

/** The clock counts from the last T0, until the last 10 s before the next count down. */
function clockView(state: RunState, t: Millis): ClockView {
  const t0 = state.phase === 'going' ? state.t0 : null;
  if (t0 === null || t >= t0) return { from: state.t0, startsIn: null, t0, poolPhase: state.clockPhase };
  const counts = t0 - t <= LEAD && !allStopped(state);
  return { from: state.t0Before, startsIn: counts ? t0 - t : null, t0, poolPhase: state.clockPhase };
}

function laneView(state: RunState, lane: LaneState, index: number, t: Millis): LaneView {
  const stopped = lane.stoppedBy !== null;
  const waiting = state.phase === 'waiting' && lane.in ? firstReps(state, index) : null;
  const origin = waiting ? null : lane.origin;
  const reps = (waiting ?? lane.reps).slice(waiting ? 0 : lane.next, (waiting ? 0 : lane.next) + 2);
  const coming = reps.map((rep) => comingRep(state, rep, origin, index));
  // On its way to the loudspeaker by a command just given, but not due yet: shown as to come until it is.
  const due = lane.last !== null && lane.last.at > t ? lane.last : null;
  if (due) coming.unshift(comingRep(state, due.rep, due.at - due.rep.offset, index));
  return {
    number: lane.number,
    state: laneStanding(state, lane, coming.length > 0, t),
    swimmers: lane.swimmers,
    gap: lane.gap,
    pending: isPending(lane),
    stop: lane.stoppedBy,
    leftHere: lane.leftHere,
    next: coming[0] ?? null,
    after: coming[1] ?? null,
    last: due ? null : lastView(state, lane, index, t),
    leftOut: due || waiting ? null : leftOut(state, lane, index),
    resumeAt: stopped ? resumeTime(state, lane, t) : null,
    rejoinAt: stopped ? rejoinTime(lane, t) : null,
    end: coming.length > 0 ? lane.end : (lane.satOutFrom ?? lane.end),
  };
}

function laneStanding(state: RunState, lane: LaneState, leaves: boolean, t: Millis): LaneView['state'] {
  if (!lane.in) return 'out';
  if (lane.stoppedBy !== null) return 'stopped';
  if (leaves) return 'pending';
  const { leftHere, satOutFrom } = lane;
  // What it left for before is swum to its end.
  if (satOutFrom !== null && (!leftHere || t >= satOutFrom)) return 'sits-out';
  return leftHere ? 'finished' : 'absent';
}

function firstReps(state: RunState, laneIndex: number): readonly Pending[] {
  const own = currentStretch(state).lanes[laneIndex];
  return own ? startingFrom(own, state.from).reps : [];
}

function comingRep(state: RunState, rep: Pending, origin: Millis | null, lane: number): NextRep {
  const at = origin === null ? null : origin + rep.offset;
  return { rep, words: rep.words, at, ...countNow(state, rep, lane) };
}

function leftOut(state: RunState, lane: LaneState, index: number): LeftOut | null {
  const { reps, next, last, leftHere, origin, displacement } = lane;
  const satOut = lane.satOutFrom !== null;
  // A lane that came in late has missed what is before its first rep; a skip brings the first nearer.
  const isDropped = leftHere || satOut || origin < (state.t0 ?? -Infinity) + displacement;
  let from = next;
  while (isDropped && from > 0 && !(leftHere && reps[from - 1] === last?.rep)) from--;
  if (from === next || next === reps.length) return null;
  return { reps: next - from, rep: comingRep(state, reps[next - 1]!, null, index), satOut };
}

function lastView(state: RunState, { last }: LaneState, lane: number, t: Millis): LastView | null {
  if (!last) return null;
  const { rep, at, swimmers, gap } = last;
  const away = Math.max(1, Math.min(swimmers, 1 + Math.floor((t - at) / gap)));
  return { rep, at, swimmers, away, tailAt: at + (swimmers - 1) * gap, ...countNow(state, rep, lane) };
}

function resumeTime(state: RunState, lane: LaneState, t: Millis): Millis {
  const first = Math.min(...state.lanes.filter((other) => other.stoppedBy === lane.stoppedBy).map(nextLeave));
  return nextLeave(lane) + (first >= t + LEAD ? 0 : align(state, t + LEAD) - first);
}

function rejoinTime(lane: LaneState, t: Millis): Millis | null {
  const rep = lane.reps.find((candidate, index) => index >= lane.next && lane.origin + candidate.offset >= t + LEAD);
  return rep ? lane.origin + rep.offset : null;
}

function heldOpenBy(state: RunState): readonly number[] {
  const open = state.lanes.filter(isPending);
  const someoneElse = state.lanes.some((lane) => lane.takesPart && !isPending(lane));
  if (!someoneElse || open.some((lane) => lane.stoppedBy === null)) return [];
  return open.map((lane) => lane.number);
}
