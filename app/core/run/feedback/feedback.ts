/*
 * The sentence after a command: what it did, and to whom. It is worked out from the run before and after the command,
 * so that it tells what happened and not what was meant.
 */

import type { Command, CommandName, CommandOf } from '../command/command.ts';
import type { Told } from '../command/command-words.ts';
import { apply } from '../fold.ts';
import { projectedEnd } from '../hour/projection.ts';
import { settleForCommand } from '../settle.ts';
import { currentStretch, isPending, nextLeave, type LaneState, type Pending, type RunState } from '../state.ts';
import { view, type RunView } from '../view.ts';
import { stoppedEarlier } from '../view/stops.ts';
import type { Millis } from '../../units.ts';
import { lineIsEstimate } from '../../plan/estimates.ts';
import { endMoves } from '../../words/time/hour.ts';
import { intervalText } from '../../words/interval.ts';
import { lanesNamed, lanesOf } from '../../words/lanes.ts';
import { capital, count } from '../../words/phrase.ts';
import { repText } from '../../words/rep.ts';
import { followingText, kindText } from '../../words/stretch.ts';
import { labelWithLanes, wordsOf } from '../command/command-label.ts';
import { cutText, forgottenText } from './cut-words.ts';

/** How a sentence says a time of the run. */
export type TimeText = (view: Pick<RunView, 'clock'>, at: Millis) => string;

/** What a command has changed, and how times are to be read. */
interface Change extends Pick<Told, 'at' | 'before' | 'after' | 'touched' | 'given'> {
  readonly timeText: TimeText;
}

/** For a command given at `at`; `timeText` says how its times are written. Null if the run refuses the command. */
export function feedbackOf(state: RunState, command: Command, at: Millis, timeText: TimeText): string | null {
  const before = settleForCommand(state, at);
  const answer = apply(state, command, at);
  if (!answer.ok) return null;
  const after = answer.state;
  const touched = before.lanes
    .map((was, index) => ({ was, is: after.lanes[index]! }))
    .filter(({ was, is }) => differs(was, is));
  const named = 'lanes' in command && command.lanes ? command.lanes : lanesIn(before);
  return sentence(command, { at, before, after, touched, given: lanesOf(named, before.lanes), timeText });
}

function sentence<Name extends CommandName>(command: CommandOf<Name>, change: Change): string {
  return wordsOf(command.do).says(toldOf(command, change));
}

function toldOf<Given>(command: Given, { timeText, ...facts }: Change): Told<Given> {
  const { before, after, touched } = facts;
  const change = { ...facts, timeText };
  const who = lanesOf(
    touched.map(({ is }) => is.number),
    before.lanes,
  );
  return {
    ...facts,
    command,
    who,
    earlier: () => earlierText(change, who),
    lanes: (numbers, { lanes }) => lanesOf(numbers, lanes),
    rep: (reps, otherwise) => commonText(reps, before, otherwise),
    interval: intervalText,
    next: () => nextText(change),
    follows: () => followsText(change),
    end: (line) => endText(change, line),
    cameTo: (verb) => cameToText(change, verb),
    stretch: currentText,
    kind: (state) => kindText(currentStretch(state)),
    cut: (line, n) => cutText(before, line, n),
    forgotten: () => forgottenText(before, after),
    label: labelWithLanes,
    capital,
    count,
  };
}

/** Whether a command changed anything that the lane does from here on. */
function differs(was: LaneState, is: LaneState): boolean {
  const now = standing(was);
  return standing(is).some((value, index) => value !== now[index]);
}

function standing(lane: LaneState): readonly unknown[] {
  const { swimmers, gap, takesPart, stoppedBy, end, displacement, reps, next } = lane;
  return [lane.in, swimmers, gap, takesPart, stoppedBy, end, displacement, reps[next], nextLeave(lane)];
}

/** ", lane 3 too, stopped earlier". */
function earlierText({ touched }: Change, who: string): string {
  const earlier =
    who === 'all lanes'
      ? stoppedEarlier(touched.map(({ was: { number, stoppedBy } }) => ({ number, stop: stoppedBy })))
      : [];
  return earlier.length > 0 ? `, ${lanesNamed(earlier)} too, stopped earlier` : '';
}

function cameToText({ before, after }: Change, verb: string): string {
  if (after.phase === 'done') return 'Moved past the last set: the session is done.';
  if (after.phase === 'going') return `${verb} the ${kindText(currentStretch(after))}.`;
  const first = firstRep(after);
  const what = first ? `${currentText(after)}, ${repText(first, before.plan.session.pool.unit)}` : currentText(after);
  return `${verb} ${what}: waits for Start.`;
}

/** "next leave 6:10", the earliest of the lanes touched, with the lane where others come later. */
function nextText(change: Change): string {
  const { at, after, touched, timeText } = change;
  const going = touched.map(({ is }) => is).filter((lane) => isPending(lane));
  if (going.length === 0) return 'nothing left in this stretch';
  if (going.every((lane) => lane.stoppedBy !== null)) return 'still stopped';
  const moving = going.filter((lane) => lane.stoppedBy === null);
  const earliest = Math.min(...moving.map(nextLeave));
  const text = `next leave ${timeText(view(after, at), earliest)}`;
  const first = moving.filter((lane) => nextLeave(lane) === earliest);
  return first.length === moving.length ? text : `${text} in lane ${first[0]!.number}`;
}

/** "break at 5:40": what begins by itself again. */
function followsText({ at, after, timeText }: Change): string {
  const now = view(after, at);
  if (!now.following) return 'nothing follows';
  if (now.followsAt === null) return 'what follows waits for Start';
  return `${followingText(now.following)} at ${timeText(now, now.followsAt)}`;
}

function commonText(reps: readonly (Pending | undefined)[], state: RunState, otherwise: string): string {
  const texts = new Set(reps.map((rep) => (rep ? repText(rep, state.plan.session.pool.unit) : otherwise)));
  return texts.size === 1 ? [...texts][0]! : otherwise;
}

function lanesIn(state: RunState): readonly number[] {
  return state.lanes.filter((lane) => lane.in).map(({ number }) => number);
}

/** How the projected end moved: ", ends 5:35 sooner". */
function endText({ at, before, after }: Change, line: number | undefined): string {
  const by = projectedEnd(after, at) - projectedEnd(before, at);
  return `, ${endMoves(by, line !== undefined && lineIsEstimate(before.stretches, line))}`;
}

function firstRep(state: RunState): Pending | null {
  const next = view(state, state.commandAt)
    .lanes.map((lane) => lane.next)
    .find((candidate) => candidate !== null);
  return next ? next.rep : null;
}

/** "Main set"; for a talk or break, with that word. */
function currentText(state: RunState): string {
  const stretch = currentStretch(state);
  return stretch.kind === 'swim' ? stretch.part : `${stretch.part}, ${stretch.kind}`;
}
