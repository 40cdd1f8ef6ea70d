/*
 * What a command did, to whom, in one sentence: what the coach reads right after it. Worked out from
 * the run before and after, so that it tells what happened and not what was meant.
 */

import type { Command } from '../../../app/core/run/command.ts';
import { apply } from '../../../app/core/run/fold.ts';
import { projectedEnd } from '../../../app/core/run/projection.ts';
import { settleForCommand } from '../../../app/core/run/settle.ts';
import {
  allStopped,
  currentStretch,
  isPending,
  nextLeave,
  type LaneState,
  type RunState,
} from '../../../app/core/run/state.ts';
import { view } from '../../../app/core/run/view.ts';
import { reading } from '../../../app/core/reading.ts';
import { SECOND, type Millis } from '../../../app/core/units.ts';
import { commandLabel } from './actions.ts';
import { cutText, forgottenText } from './said-cuts.ts';
import { about, intervalText as intervalOf, lineIsEstimate } from '../estimates.ts';
import {
  capital,
  count,
  currentText,
  laneList,
  lanesNamed,
  repText,
  secondsToGo,
  stoppedEarlier,
  type TimeText,
} from './words.ts';

interface Change {
  readonly command: Command;
  readonly at: Millis;
  /** With everything that came before the command. */
  readonly before: RunState;
  readonly after: RunState;
  /** In lane order, those that the command changed, before and after. */
  readonly touched: readonly { readonly was: LaneState; readonly is: LaneState }[];
  readonly timeText: TimeText;
}

/**
 * The sentence for a command accepted at `at` in the run `state`, with times as they are to be read; null where the
 * run does not accept it.
 */
export function saidOf(state: RunState, command: Command, at: Millis, timeText: TimeText): string | null {
  const before = settleForCommand(state, at);
  const answer = apply(state, command, at);
  if (!answer.ok) return null;
  if (command.do === 'undo') return undone(state);
  const touched = before.lanes
    .map((was, index) => ({ was, is: answer.state.lanes[index]! }))
    .filter(({ was, is }) => differs(was, is));
  return sentence({ command, at, before, after: answer.state, touched, timeText });
}

/** Whether a command changed anything that the lane does from here on. */
function differs(was: LaneState, is: LaneState): boolean {
  const now = standing(was);
  return standing(is).some((value, index) => value !== now[index]);
}

function standing(lane: LaneState): readonly unknown[] {
  const { swimmers, gap, takesPart, stoppedBy, end, displacement, reps, next } = lane;
  return [
    lane.in,
    swimmers,
    gap,
    takesPart,
    stoppedBy,
    end,
    displacement,
    reps.length - next,
    reps[next],
    nextLeave(lane),
  ];
}

function undone(state: RunState): string {
  const last = state.undoable[state.undoable.length - 1];
  return last ? `Undone: ${commandLabel(last.command)}.` : 'Undone.';
}

function sentence(change: Change): string {
  const { command, before, after, touched } = change;
  const who = laneList(numbersOf(change), before);
  // Also where a lane had that number or gap already.
  const given = laneList('lanes' in command && command.lanes ? command.lanes : lanesIn(before), before);
  switch (command.do) {
    case 'start':
      return started(change);
    case 'stop':
      return touched.length > 0 ? `Stopped ${who}.` : `Held: what follows the ${kindOf(before)} waits for Resume.`;
    case 'resume':
      return touched.length > 0
        ? `Resumed ${who}${earlierText(change, who)}: ${nextText(change)}.`
        : `Resumed: ${followsText(change)}.`;
    case 'rejoin':
      return `Rejoined the old times in ${who}${earlierText(change, who)}${missedText(change)}: ${nextText(change)}.`;
    case 'skip':
      return `Skipped ${droppedText(change)} in ${who}: ${nextText(change)}.`;
    case 'sit-out':
      return `Sat out ${droppedText(change)} in ${who}: ${nextText(change)}.`;
    case 'repeat':
      return `Repeating ${repeatedText(change)} in ${who}: ${nextText(change)}.`;
    case 'shift':
      return shifted(change, command.seconds, who);
    case 'interval':
      return `${intervalText(change)}: ${nextText(change)}.${blockText(change, command.seconds)}`;
    case 'cut':
      return `Cut ${cutText(before, command.line, command.n)}${endText(change)}.`;
    case 'rewrite':
      return `What is to come is rewritten${endText(change)}.${forgottenText(before, after)}`;
    case 'go-to':
    case 'restart':
    case 'move-on':
      return movedOn(change);
    case 'lane-out':
      return `${capital(laneList(command.lanes, before))} ${command.lanes.length > 1 ? 'are' : 'is'} out.`;
    case 'lane-in':
      return `${capital(laneList(command.lanes, after))} ${command.lanes.length > 1 ? 'are' : 'is'} in: ${joinText(change)}.`;
    case 'swimmers':
      return `${capital(given)}: ${count(command.n, 'swimmer')} from the next leave on.`;
    case 'gap':
      return `${capital(given)}: ${command.seconds} s apart from the next leave on.`;
    case 'mark':
      return `Marked${command.lanes ? ` ${laneList(command.lanes, before)}` : ''}${command.words ? `: ${command.words}` : ''}.`;
    case 'finish':
      return 'Finished.';
    case 'undo':
      return 'Undone.';
  }
}

function started({ at, after }: Change): string {
  const stretch = currentStretch(after);
  if (stretch.kind !== 'swim') return `${capital(stretch.kind)} of ${reading(stretch.time)} has begun.`;
  const ahead = secondsToGo((after.t0 ?? at) - at);
  if (allStopped(after)) return `The start comes in ${ahead} s, but all lanes are stopped: Resume sends them.`;
  return `Started ${currentText(after)}, ${ahead} s ahead.`;
}

/** ", lane 3 too, stopped earlier": whom "all lanes" means besides those that the last Stop stopped. */
function earlierText({ touched }: Change, who: string): string {
  const earlier = who === 'all lanes' ? stoppedEarlier(touched.map(({ was }) => was)) : [];
  return earlier.length > 0 ? `, ${lanesNamed(earlier)} too, stopped earlier` : '';
}

function movedOn({ command, before, after }: Change): string {
  if (after.phase === 'done') return 'Moved past the last set: the session is done.';
  const verb = command.do === 'restart' ? 'Back at' : command.do === 'go-to' ? 'Gone to' : 'Moved on to';
  if (after.phase === 'going') return `${verb} the ${kindOf(after)}.`;
  const first = firstRep(after);
  const what = first ? `${currentText(after)}, ${repText(first, before.plan.session.pool.unit)}` : currentText(after);
  return `${verb} ${what}: waits for Start.`;
}

function shifted(change: Change, seconds: number, who: string): string {
  const { before } = change;
  const by = `${Math.abs(seconds)} s ${seconds > 0 ? 'later' : 'sooner'}`;
  if (currentStretch(before).kind !== 'swim') return `The ${kindOf(before)} ends ${by}.`;
  return `${by} in ${who}: ${nextText(change)}.`;
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
  if (!now.following || now.followsAt === null) return 'what follows waits for Start';
  return `${now.following.kind === 'swim' ? 'next set' : now.following.kind} at ${timeText(now, now.followsAt)}`;
}

/** What was dropped, where it is the same in all lanes touched. */
function droppedText({ before, touched }: Change): string {
  return commonText(
    touched.map(({ was }) => was.reps[was.next]),
    before,
    'the next rep',
  );
}

function repeatedText({ before, touched }: Change): string {
  return commonText(
    touched.map(({ is }) => is.reps[is.next]),
    before,
    'the last rep',
  );
}

function commonText(reps: readonly (LaneState['reps'][number] | undefined)[], state: RunState, else_: string): string {
  const texts = new Set(reps.map((rep) => (rep ? repText(rep, state.plan.session.pool.unit) : else_)));
  return texts.size === 1 ? [...texts][0]! : else_;
}

function missedText({ touched }: Change): string {
  const missed = Math.max(...touched.map(({ was, is }) => is.next - was.next));
  return missed > 0 ? `, ${count(missed, 'rep')} missed` : '';
}

/** "50 fast on 1:05, was 1:00, in lane 1; on 1:15, was 1:10, in lane 2". */
function intervalText({ before, touched }: Change): string {
  const what = commonText(
    touched.map(({ is }) => is.reps[is.next]),
    before,
    'the set',
  );
  const lanes = new Map<string, number[]>();
  for (const { was, is } of touched) {
    const text = `on ${intervalOf(is.reps[is.next]!)}, was ${intervalOf(was.reps[was.next]!)}`;
    lanes.set(text, [...(lanes.get(text) ?? []), is.number]);
  }
  const texts = [...lanes].map(([text, numbers]) => `${text}, in ${laneList(numbers, before)}`);
  return `${capital(what)} ${texts.join('; ')}`;
}

/** A timed block keeps its reps, so that it no longer takes the time that was written. */
function blockText({ touched }: Change, seconds: number): string {
  const isBlock = touched.some(({ is }) => is.reps[is.next]?.set.kind === 'block');
  return isBlock ? ` The timed block gets ${seconds > 0 ? 'longer' : 'shorter'} than it was written.` : '';
}

function lanesIn(state: RunState): readonly number[] {
  return state.lanes.flatMap((lane) => (lane.in ? [lane.number] : []));
}

/** How the projected end moved: ", ends 5:35 sooner". */
function endText({ command, at, before, after }: Change): string {
  const by = projectedEnd(after, at) - projectedEnd(before, at);
  if (Math.abs(by) < SECOND) return ', the end stays';
  const isAbout = command.do === 'cut' && lineIsEstimate(before.stretches, command.line);
  return `, ends ${about(isAbout)}${reading(Math.abs(by))} ${by < 0 ? 'sooner' : 'later'}`;
}

function joinText(change: Change): string {
  return change.touched.some(({ is }) => isPending(is)) ? nextText(change) : 'from the next start on';
}

function numbersOf({ touched }: Change): readonly number[] {
  return touched.map(({ is }) => is.number);
}

function firstRep(state: RunState): LaneState['reps'][number] | null {
  const next = view(state, state.commandAt)
    .lanes.map((lane) => lane.next)
    .find((candidate) => candidate !== null);
  return next ? next.rep : null;
}

function kindOf(state: RunState): string {
  const { kind } = currentStretch(state);
  return kind === 'swim' ? 'set' : kind;
}
