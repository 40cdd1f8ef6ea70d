/*
 * Draws the head: title, the set that is swum large, the set as written and what comes next, the time of day.
 */

import type { Measure } from '../../ui/fit-text.ts';
import type { Head, Shared } from './head-face.ts';
import type { Layout } from '../layout.ts';
import type { WallChoice } from '../screen/wall-choice.ts';
import { placeIn, wordsWriter, type Writer } from '../writers.ts';

/** What is said of a lost link; `large` after a minute. */
export interface LostText {
  readonly text: string;
  readonly large: boolean;
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
  const { width, height } = words;
  const write = (name: string, share: number, part: number, high?: number): Writer => {
    const size = Math.min(height * share, width * share * 0.42);
    const place = { width: width * part, size, least: size * 0.55 };
    const lines = high === undefined ? place : { ...place, height: height * high, least: size * 0.45 };
    return wordsWriter(placeIn(board, name), lines, measure);
  };
  // Of the width: what the title has beside the time of day.
  const beside = 1 - Math.min(0.4, (height * 0.2 * 2.6) / width);
  const time = write('time', 0.2, 1 - beside);
  const label = write('clock-label', 0.26, beside);
  // Alone the title is larger; each size begins anew what it writes there.
  let wasBare: boolean | null = null;
  let title: Writer = () => {};
  const set = write('set', 0.38, beside, 0.44);
  const written = write('written', 0.155, 1);
  const then = write('then', 0.155, showEnd ? 0.6 : 0.7);
  const end = write('end', 0.155, 0.38);
  const lostSmall = write('lost', 0.155, 0.28);
  return ({ head, shared, label: clockLabel, lost, bare }) => {
    const isLarge = lost?.large === true;
    if (bare !== wasBare) title = write('title', bare ? 0.38 : 0.27, beside);
    wasBare = bare;
    const isSilent = bare || !showWords;
    const large = shared.set === '' ? head.set : shared.set;
    time(head.time);
    // In a countdown the label is read with the clock, in the title's place.
    label(isLarge ? '' : clockLabel);
    title(isLarge ? lost.text : clockLabel !== '' || (leavesOnly && !bare) ? '' : head.title);
    set(isLarge ? 'This clock runs on by itself.' : isSilent ? '' : large);
    // Rounds of this set alone are counted in the title.
    const isSaid = isSilent || head.set === large || head.set.endsWith(`: ${large}`);
    written(isLarge || isSaid ? '' : head.set);
    then(isLarge || isSilent ? '' : head.then);
    const isSmall = lost !== null && !isLarge;
    end(showEnd && !isSmall ? head.end : '');
    lostSmall(isSmall ? lost.text : '');
  };
}
