/*
 * The record of a run: what each lane was to swim and did swim, every command, how long each part took, and what the
 * coach has added since. Made from what is kept, never kept itself.
 */

import type { Plan } from '../plan/plan.ts';
import { totalsOf } from '../plan/totals.ts';
import { commandRecords, type CommandRecord } from '../run/feedback/command-record.ts';
import { leavesOf, wasCalled, type Away, type Leave } from '../run/record.ts';
import type { LengthUnit, Millis, Tenths } from '../units.ts';
import { notCalledText, notRunningText } from '../words/away.ts';
import { markText } from './mark-text.ts';
import { NOTHING_ADDED, type Afterwards } from './afterwards.ts';
import { courseOf, type KeptCourse } from './course/course.ts';
import { eveningOf, type Evening } from './evening.ts';
import { handTime } from './times/hand-time.ts';
import type { Ended, KeptRun } from './kept-run.ts';
import { sessionLoad } from './history/load.ts';
import { spansUntil, type Span } from './course/spans.ts';

/** What was swum, without what each command did and what is drawn: what a history needs of a run, in half the time. */
export interface SwumRecord {
  readonly run: string;
  readonly title: string;
  readonly openedAt: string;
  readonly openedAtTimeOfDay: Millis;
  readonly ended: Ended;
  /** From its opening to its end, or as far as somebody was there. */
  readonly duration: Millis;
  readonly unit: LengthUnit;
  /** In lane order. */
  readonly lanes: readonly LaneRecord[];
  readonly parts: readonly PartRecord[];
  /** When each stretch went on, by time. */
  readonly spans: readonly Span[];
  /** The words of each mark that has any, with those that were added to it. */
  readonly marks: readonly string[];
  readonly added: Afterwards;
  readonly load: number | null;
}

export interface RunRecord extends SwumRecord {
  readonly commands: readonly GivenRecord[];
  readonly evening: Evening;
  /** Times before its end in which the program was not running, by time. */
  readonly notRunning: readonly AwayRecord[];
}

export interface AwayRecord extends Away {
  /** How long, and what was not called. */
  readonly words: string;
}

/** Planned is what the text in force at the end says. */
export interface LaneRecord {
  readonly lane: number;
  /** At the end. */
  readonly swimmers: number;
  readonly names: readonly string[] | null;
  readonly planned: { readonly leaves: number; readonly distance: Tenths };
  readonly distance: Tenths;
  readonly leaves: readonly LeaveRecord[];
}

export interface LeaveRecord extends Leave {
  readonly part: string;
  /** Whether the program was there to call it. */
  readonly called: boolean;
  /** Timed by hand; null where nobody did. */
  readonly time: Millis | null;
}

export interface GivenRecord extends CommandRecord {
  /** Words added to a mark afterwards; '' for none. */
  readonly added: string;
}

export interface PartRecord {
  readonly part: string;
  readonly planned: Millis;
  /** From its first start to its last end; the time of another part in between is not counted. */
  readonly taken: Millis;
}

export function recordOf(kept: KeptRun, added: Afterwards = NOTHING_ADDED): RunRecord {
  const course = courseOf(kept);
  const swum = swumIn(course, kept, added);
  const { plan } = course.state;
  return {
    ...swum,
    commands: commandRecords(kept).map((command, index) => ({ ...command, added: addedTo(index, added) })),
    evening: eveningOf({ ...swum, plan, stops: course.stops }),
    notRunning: notRunningIn(kept, swum),
  };
}

function notRunningIn({ away }: KeptRun, { lanes, duration }: SwumRecord): readonly AwayRecord[] {
  const leaves = lanes.reduce((all, lane) => all.concat(lane.leaves), [] as Leave[]);
  return away
    .filter(({ from }) => from < duration)
    .map((time) => ({ ...time, words: `${notRunningText(time.to - time.from)}. ${notCalledText(leaves, time)}` }));
}

export function swumOf(kept: KeptRun, added: Afterwards): SwumRecord {
  return swumIn(courseOf(kept), kept, added);
}

function swumIn(course: KeptCourse, kept: KeptRun, added: Afterwards): SwumRecord {
  const { plan } = course.state;
  const leaves = leavesOf(course.state);
  const duration = durationOf(kept, course, leaves);
  const spans = spansUntil(course, duration);
  return {
    run: kept.run,
    title: plan.session.title ?? 'Session',
    openedAt: kept.openedAt,
    openedAtTimeOfDay: kept.openedAtTimeOfDay,
    ended: kept.ended,
    duration,
    unit: plan.session.pool.unit,
    lanes: lanesOf(course, leaves, kept, added),
    parts: partsOf(plan, spans),
    spans,
    marks: kept.commands
      .map(({ command }, index) => (command.do === 'mark' ? markText(command.words ?? '', addedTo(index, added)) : ''))
      .filter((words) => words !== ''),
    added,
    load: added.effort === null ? null : sessionLoad(added.effort, duration),
  };
}

/** The words that were added to the command at a place. */
function addedTo(place: number, { marks }: Afterwards): string {
  return marks
    .filter(({ command }) => command === place)
    .map(({ words }) => words)
    .join(' ');
}

/** Where nobody came back it is the last time at which somebody was there: it would be days else. */
function durationOf({ ended, until, seenAt }: KeptRun, { state }: KeptCourse, leaves: readonly Leave[]): Millis {
  if (state.phase === 'done') return state.doneAt!;
  return ended === 'unattended' ? Math.max(seenAt, ...leaves.slice(-1).map(({ at }) => at)) : until;
}

function lanesOf(
  { state, partOf }: KeptCourse,
  leaves: readonly Leave[],
  { away }: KeptRun,
  { times }: Afterwards,
): readonly LaneRecord[] {
  const { session, stretches } = state.plan;
  return session.lanes.map(({ number, names }, index) => {
    const planned = stretches.reduce((sum, { lanes }) => lanes[index]?.reps.reduce(withRep, sum) ?? sum, NO_REPS);
    const own = leaves.filter(({ lane }) => lane === number);
    return {
      lane: number,
      swimmers: state.lanes[index]!.swimmers,
      names: names.length > 0 ? names : null,
      planned,
      distance: own.reduce((sum, { rep }) => sum + rep.distance, 0),
      leaves: own.map((leave) => {
        const timed = times.find(({ lane, at }) => lane === number && at === leave.at);
        const part = partOf.get(leave.rep.set)!;
        return { ...leave, part, called: wasCalled(leave, away), time: timed ? handTime(timed.watches) : null };
      }),
    };
  });
}

const NO_REPS: LaneRecord['planned'] = { leaves: 0, distance: 0 };

function withRep(
  { leaves, distance }: LaneRecord['planned'],
  rep: { readonly distance: Tenths },
): LaneRecord['planned'] {
  return { leaves: leaves + 1, distance: distance + rep.distance };
}

/** The parts of the text in force at the end, and then those that a rewrite has taken out of it. */
function partsOf(plan: Plan, spans: readonly Span[]): readonly PartRecord[] {
  const taken = takenByPart(spans);
  const parts = totalsOf(plan).parts.map(({ partIndex, name, start, end }) => {
    const key = keyOf({ partIndex, part: name });
    const known = taken.get(key);
    taken.delete(key);
    return { part: name, planned: end - start, taken: known?.taken ?? 0 };
  });
  return [...parts, ...taken.values()];
}

function takenByPart(spans: readonly Span[]): Map<string, PartRecord> {
  const taken = new Map<string, PartRecord>();
  let from: Millis = 0;
  spans.forEach((span, index) => {
    const [before, after] = [spans[index - 1], spans[index + 1]];
    if (!before || keyOf(before) !== keyOf(span)) from = span.from;
    if (after && keyOf(after) === keyOf(span)) return;
    const sum = taken.get(keyOf(span))?.taken ?? 0;
    taken.set(keyOf(span), { part: span.part, planned: 0, taken: sum + span.to - from });
  });
  return taken;
}

/** Two parts may have one name. */
function keyOf({ partIndex, part }: Pick<Span, 'partIndex' | 'part'>): string {
  return `${partIndex} ${part}`;
}
