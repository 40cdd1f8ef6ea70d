/*
 * Draws the head: title, the set that is swum large, the set as written and what comes next, the time of day.
 */

import type { Measure } from '../../ui/digits/fit-text.ts';
import type { Head, Shared } from './head-face.ts';
import { headSizes, type HeadLine } from './head-sizes.ts';
import type { Layout } from '../layout.ts';
import type { WallChoice } from '../screen/wall-choice.ts';
import { placeIn, wordsWriter, type Writer } from '../board/writers.ts';

/** What is said of a lost link or a bad clock: small, or large with `more` below it. */
export interface LostText {
  readonly text: string;
  readonly more: string | null;
}

export interface HeadNow {
  readonly head: Head;
  readonly shared: Shared;
  /** Of the clock: "starts in". */
  readonly label: string;
  readonly lost: LostText | null;
  /** Whether nobody swims: then the title is all there is. */
  readonly bare: boolean;
}

export function createHeadPainter(
  board: HTMLElement,
  { words }: Layout,
  { words: showWords, end: showEnd, leavesOnly }: WallChoice,
  measure: Measure,
): (now: HeadNow) => void {
  const sizes = headSizes(words, showEnd);
  const write = (name: string, line: HeadLine): Writer => wordsWriter(placeIn(board, name), sizes[line], measure);
  const time = write('time', 'time');
  const label = write('clock-label', 'label');
  // Alone the title is larger; each size begins anew what it writes there.
  let titleLine: HeadLine | null = null;
  let title: Writer = () => {};
  const set = write('set', 'set');
  const written = write('written', 'written');
  let wasAlone: boolean | null = null;
  let then: Writer = () => {};
  let endLine: HeadLine | null = null;
  let end: Writer = () => {};
  const lostSmall = write('lost', 'lost');
  return ({ head, shared, label: clockLabel, lost, bare }) => {
    const isLarge = lost !== null && lost.more !== null;
    const titleNow = isLarge ? 'lostTitle' : bare ? 'bareTitle' : 'title';
    if (titleNow !== titleLine) title = write('title', titleNow);
    titleLine = titleNow;
    const isSilent = bare || !showWords;
    const large = shared.set === '' ? head.set : shared.set;
    time(head.time);
    // In a countdown the label is read with the clock, in the title's place.
    label(isLarge ? '' : clockLabel);
    title(isLarge ? lost.text : clockLabel !== '' || (leavesOnly && !bare) ? '' : head.title);
    set(isLarge ? lost.more! : isSilent ? '' : large);
    // Rounds of this set alone are counted in the title.
    const isSaid = isSilent || head.set === large || head.set.endsWith(`: ${large}`);
    written(isLarge || isSaid ? '' : head.set);
    if (isSaid !== wasAlone) then = write('then', isSaid ? 'thenAlone' : 'then');
    wasAlone = isSaid;
    then(isLarge || isSilent ? '' : head.then);
    const isSmall = lost !== null && !isLarge;
    const hasRow = isSilent || (isSaid && head.then === '');
    const endNow = isLarge || !hasRow ? 'end' : isSilent || large === '' ? 'endAlone' : 'endBelow';
    if (endNow !== endLine) end = write('end', endNow);
    endLine = endNow;
    end(showEnd && !isSmall ? head.end : '');
    lostSmall(isSmall ? lost.text : '');
  };
}
