/*
 * Draws what stands large while nobody swims: its words, and the time left of a talk or break.
 */

import { createDigits } from '../../ui/digits/digits.ts';
import { fitText, type Measure } from '../../ui/digits/fit-text.ts';
import type { Callout } from './callout-face.ts';
import type { Shared } from '../head/head-face.ts';
import type { Layout } from '../layout.ts';
import { hiddenWriter, placeIn, withTimesSign, wordsWriter } from '../board/writers.ts';

/** The most lines of a part that are listed while its start is waited for. */
const MOST_LINES = 6;

export function createCalloutPainter(
  board: HTMLElement,
  layout: Layout,
  measure: Measure,
): (callout: Callout | null, shared: Shared) => void {
  const root = placeIn(board, 'callout');
  const title = placeIn(board, 'callout-title');
  const list = placeIn(board, 'callout-lines');
  const leftElement = placeIn(board, 'left-box');
  const left = createDigits(placeIn(board, 'left'));
  const { aside, height, width: whole, captionHeight, leftCap, laneWidth, laneHeight } = layout.callout;
  const captionWidth = aside ? laneWidth : layout.body.width;
  const captionPlace = { width: captionWidth, size: captionHeight * 0.8, least: captionHeight * 0.5 };
  const caption = wordsWriter(placeIn(board, 'callout-lanes'), captionPlace, measure);
  const isCaption = (words: string): boolean =>
    measure(withTimesSign(words)) * captionPlace.least < captionWidth * 0.98;
  const hide = hiddenWriter(root);
  const hideLeft = hiddenWriter(leftElement);
  let shown = '';
  return (callout, shared) => {
    hide(callout === null);
    caption(captionOf(callout, shared, isCaption));
    hideLeft(callout === null || callout.left === '');
    if (!callout) return;
    left.show(callout.left);
    const key = JSON.stringify([callout.title, callout.lines]);
    if (key === shown) return;
    shown = key;
    const width = callout.plate ? whole - laneHeight * PLATE : whole;
    const free = callout.left === '' ? height : height - leftCap * 1.3;
    const size = writeTitle(title, callout, { width, height: free, most: layout.body.width * 0.15 }, measure);
    const taken = free * titleShare(callout);
    writeLines(list, callout.lines, { width, height: free - taken, most: size * 0.85 }, measure);
  };
}

/** What a plate keeps free at both its sides, in heights of a lane's place. */
const PLATE = 0.8;

/** fits: whether words have room at a size that can be read; the set's, which stand in the list too, are left out before they are cut. */
function captionOf(callout: Callout | null, { set }: Shared, fits: (words: string) => boolean): string {
  if (!callout || callout.lanes === '') return '';
  if (set !== '' && set === callout.first) return '';
  const whole = `${callout.lanes} ${set}`;
  return set !== '' && fits(whole) ? whole : callout.lanes;
}

/** most: of the type. */
interface Room {
  readonly width: number;
  readonly height: number;
  readonly most: number;
}

/** Of the height: the title may be the higher the fewer lines stand below it. */
function titleShare({ lines }: Callout): number {
  return lines.length <= 1 ? 0.56 : lines.length === 2 ? 0.46 : 0.36;
}

/** On one line rather than two, where that is not much smaller. Gives its size. */
function writeTitle(element: HTMLElement, callout: Callout, room: Room, measure: Measure): number {
  const { width } = room;
  const height = room.height * titleShare(callout);
  const most = Math.min(height * 0.8, room.most);
  const onOneLine = width / measure(callout.title);
  const wanted = onOneLine >= most * 0.55 ? Math.min(most, onOneLine) : most;
  const place = { width, height, size: wanted, least: wanted * 0.2 };
  const { size, lines } = fitText(withTimesSign(callout.title), place, measure);
  element.style.fontSize = `${size}px`;
  element.textContent = lines.join('\n');
  return size;
}

function shownOf(lines: readonly string[]): readonly string[] {
  const more = lines.length - MOST_LINES;
  return more > 0 ? [...lines.slice(0, MOST_LINES - 1), `and ${more + 1} more`] : lines;
}

/** From one line to the next, and what those after the first of a set are set in by, in em. */
const LEADING = 1.25;
const HANGING = 0.5;

/** Of the width: type that is worth reading. */
const LEAST = 0.035;

/** All of one size: as large as lets each stand on one line, or on two where that makes them much larger. */
function writeLines(list: HTMLElement, lines: readonly string[], room: Room, measure: Measure): void {
  const shown = shownOf(lines);
  const most = Math.min(room.most, room.height / (shown.length * LEADING));
  const broken = (size: number, height = Infinity): readonly (readonly string[])[] =>
    shown.map((text) => {
      const place = { width: room.width - size * HANGING, height, size, least: size };
      return fitText(withTimesSign(text), place, measure).lines;
    });
  const isWhole = (size: number): boolean =>
    broken(size).reduce((sum, each) => sum + each.length, 0) * size * LEADING <= room.height;
  const longest = Math.max(0, ...shown.map((text) => measure(withTimesSign(text))));
  const onOne = Math.min(most, room.width / (longest + HANGING));
  const least = Math.min(most, room.width * LEAST);
  let size = most;
  while (size > least && !isWhole(size)) size = Math.max(least, size * 0.96);
  if (onOne >= size * 0.6) size = onOne;
  list.style.fontSize = `${size}px`;
  list.textContent = '';
  // The longest words that anyone writes are shortened.
  const high = isWhole(size) ? Infinity : room.height / LEADING / shown.length + size * 0.1;
  for (const each of broken(size, high)) {
    list.appendChild(list.ownerDocument.createElement('li')).textContent = each.join('\n');
  }
}
