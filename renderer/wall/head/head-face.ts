/*
 * What the head of the wall screen says: the part, the set that all lanes swim, the set as written, what
 * comes next, the time of day, and when the session will be over.
 */

import type { ClockChoice } from '../../../app/core/run/readings.ts';
import { endIsEstimate } from '../../../app/core/run/view/estimate.ts';
import type { RunView } from '../../../app/core/run/view.ts';
import type { Round } from '../../../app/core/plan/plan.ts';
import type { Item } from '../../../app/core/session/session.ts';
import { itemIndexOf, setOnLine } from '../../../app/core/session/item-on-line.ts';
import type { Millis } from '../../../app/core/units.ts';
import { hourOf } from '../../../app/core/words/time/hour.ts';
import { lanesNamed } from '../../../app/core/words/lanes.ts';
import { capital, commaed } from '../../../app/core/words/phrase.ts';
import { roundText } from '../../../app/core/words/round.ts';
import { besideWords, itemWords, type Cuts } from '../../../app/core/words/set.ts';
import { followingText } from '../../../app/core/words/stretch.ts';
import { clockTime } from '../../../app/core/words/time/time-of-day.ts';
import { repNow, swumNow, type SwumNow } from '../../ui/current-set.ts';
import { notesAt, notesNow } from '../../ui/notes-now.ts';
import { readingOn } from '../says/clock-text.ts';
import { cutsNow } from './cuts-now.ts';
import type { LaneFace } from '../strips/lane-face.ts';

export interface Head {
  /** With the round while all lanes are in the same. */
  readonly title: string;
  readonly set: string;
  readonly then: string;
  readonly end: string;
  /** Time of day. */
  readonly time: string;
}

/** Where the lanes have nothing of their own to say, one of them says it for all. */
export interface Shared {
  /** The words of a rep that all lanes share: "50 fast"; empty where they differ. */
  readonly words: string;
  /** The set that they are of, as written: "4 x 50 fast". */
  readonly set: string;
}

export function headFace(view: RunView, openedAt: Millis, choice: ClockChoice): Head {
  const end = view.phase === 'done' ? '' : endText(view, openedAt);
  const time = clockTime(openedAt + view.t);
  const { kit } = notesNow(view);
  const kitText = kit === '' ? '' : `kit: ${kit}`;
  const bare = { set: '', then: view.phase === 'going' ? kitText : '', end, time };
  const { part: title } = view.stretch;
  if (view.phase === 'waiting') return { ...bare, title: 'Waiting for the coach' };
  if (view.phase === 'done') return { ...bare, title: view.plan.session.title ?? 'Session' };
  if (view.stretch.kind !== 'swim') return { ...bare, title };
  const swum = swumNow(view);
  if (!swum) return { ...bare, title };
  const cuts = cutsNow(view);
  const set = besideWords(swum.items, cuts);
  const then = commaed(kitText, stillWords(view, swum, cuts) || thenWords(view, swum, kit, cuts));
  const follows = followsText(view, choice);
  // Nobody is to leave any more: what begins by itself is what all wait for.
  return { title: follows === '' ? commaed(title, roundWords(view, swum)) : follows, set, then, end, time };
}

/**
 * What all lanes that swim have in common. While they are still at something else, the last rep of a set or a swim by
 * time, that stands large in the head, and each strip says itself what is next in its lane.
 */
export function sharedBy(view: RunView, lanes: readonly LaneFace[]): Shared {
  const swims = lanes.filter(({ line }) => line > 0);
  const [first, ...others] = swims;
  if (!first || first.words === '' || others.some(({ words }) => words !== first.words)) return NOTHING_SHARED;
  if (isStillElsewhere(view, first.line) || swims.every(hasWordsAlone)) return NOTHING_SHARED;
  const isOne = others.every(({ line }) => line === first.line);
  const item = isOne ? setOn(view, first.line) : null;
  return { words: first.words, set: item ? itemWords(item, cutsNow(view)) : first.words };
}

/** Nothing would stand in its place without them, as in that of a swim without an interval which is to come. */
function hasWordsAlone({ state, interval, rep, target }: LaneFace): boolean {
  return state === 'first' && interval === '' && rep === '' && target === '';
}

function isStillElsewhere(view: RunView, line: number): boolean {
  if (view.phase !== 'going' || view.stretch.kind !== 'swim') return false;
  const swum = swumNow(view);
  return swum !== null && !swum.items.includes(swum.part.items[itemIndexOf(swum.part, line)]!);
}

function setOn({ plan }: RunView, line: number): Item | null {
  for (const part of plan.session.parts) {
    const item = setOnLine(part, line);
    if (item) return item;
  }
  return null;
}

export const NOTHING_SHARED: Shared = { words: '', set: '' };

/** "round 2 of 3" while every lane is in that round of the outermost rounds, else nothing. */
function roundWords({ lanes }: RunView, { rounds: [outermost] }: SwumNow): string {
  if (!outermost || outermost.of <= 1) return '';
  const { line, round, of } = outermost;
  // How many there now are, after cuts, the lanes know.
  const counted = lanes
    .reduce<Round[]>((all, lane) => all.concat(lane.next?.rounds ?? [], lane.last?.rounds ?? []), [])
    .find((each) => each.line === line && each.round === round);
  return roundText([{ round, of: counted ? counted.of : of }]);
}

/** "Lanes 3 and 4 still 200 steady" where most are at the next set already; empty where none is behind. */
function stillWords(view: RunView, { part, items }: SwumNow, cuts: Cuts): string {
  const at = part.items.indexOf(items[0]!);
  const behind = view.lanes.flatMap((lane) => {
    const rep = repNow(view, lane);
    const index = rep && view.t < lane.end ? itemIndexOf(part, rep.set.line) : -1;
    const item = index < at ? part.items[index] : undefined;
    return item && !items.includes(item) ? [{ number: lane.number, item }] : [];
  });
  const [first] = behind;
  if (!first) return '';
  const lanes = behind.filter(({ item }) => item === first.item).map(({ number }) => number);
  return `${lanesNamed(lanes)} still ${itemWords(first.item, cuts)}`;
}

/** What comes next, with the kit that it needs where that is another. kit: what is used now. */
function thenWords({ plan }: RunView, { part, after }: SwumNow, kit: string, cuts: Cuts): string {
  if (!after) return '';
  const next = notesAt(plan, plan.session.parts.indexOf(after.part), after.items[0]!.line).kit;
  const words = `then ${after.part === part ? besideWords(after.items, cuts) : after.part.name}`;
  return next === '' || next === kit ? words : `${words}, kit: ${next}`;
}

/** "Break at 5:40" where nobody is to leave any more and it begins by itself, as a reading of the screen's clock. */
function followsText(view: RunView, choice: ClockChoice): string {
  const { followsAt, following, lanes } = view;
  if (followsAt === null || !following) return '';
  if (lanes.some((lane) => lane.state === 'pending' || lane.state === 'stopped')) return '';
  const at = readingOn(choice, view, followsAt);
  if (at === '') return '';
  return `${capital(followingText(following))} at ${at}`;
}

/** "ends 20:27, 3 min in hand". */
function endText(view: RunView, openedAt: Millis): string {
  const hour = hourOf(openedAt, view.projectedEnd, view.plan.session.finishBy, endIsEstimate(view));
  return commaed(`ends ${hour.ends}`, hour.inHandText ?? '');
}
