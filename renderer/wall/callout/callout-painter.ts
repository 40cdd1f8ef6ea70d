/*
 * Draws what stands large while nobody swims: its words, and the time left of a talk or break.
 */

import { createDigits } from '../../ui/digits.ts';
import type { Measure } from '../../ui/fit-text.ts';
import type { Callout } from './callout-face.ts';
import type { Shared } from '../head/head-face.ts';
import type { Layout } from '../layout.ts';
import { attributeWriter, hiddenWriter, placeIn, wordsWriter } from '../writers.ts';

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
  const { body } = layout;
  const { height, captionHeight, beside, leftCap } = layout.callout;
  const captionPlace = { width: body.width, size: captionHeight * 0.8, least: captionHeight * 0.5 };
  const caption = wordsWriter(placeIn(board, 'callout-lanes'), captionPlace, measure);
  const hide = hiddenWriter(root);
  const setSplit = attributeWriter(root, 'data-split');
  const hideLeft = hiddenWriter(leftElement);
  let shown = '';
  return (callout, shared) => {
    hide(callout === null);
    caption(captionOf(callout, shared));
    hideLeft(callout === null || callout.left === '');
    if (!callout) return;
    left.show(callout.left);
    const key = JSON.stringify([callout.title, callout.lines]);
    if (key === shown) return;
    shown = key;
    // Beside the time left, or above it, the words have less room.
    const width = body.width - (callout.left !== '' && beside ? leftCap * 3.4 : 0);
    const free = callout.left !== '' && !beside ? height - leftCap * 1.3 : height;
    const split = callout.left === '' && beside ? splitOf(callout, { width, height: free }, measure) : null;
    setSplit(split ? 'yes' : '');
    if (split) {
      title.hidden = false;
      title.style.fontSize = `${split.size}px`;
      title.textContent = split.title.join('\n');
      writeLines(list, callout.lines, split.lines, measure);
      return;
    }
    // The title may be the higher the fewer lines stand below it.
    const few = callout.lines.length <= 1 ? 0.5 : callout.lines.length === 2 ? 0.42 : 0.26;
    const most = Math.min(free * few, body.width * 0.15);
    // One line rather than two, where that is not much smaller.
    const onOneLine = width / measure(callout.title);
    const size = onOneLine >= most * 0.6 ? Math.min(most, onOneLine) : most;
    const place = { width, height: free * 0.46, size, least: size * 0.24 };
    wordsWriter(title, place, measure)(callout.title);
    writeLines(
      list,
      callout.lines,
      { width, height: free * (callout.lines.length > 2 ? 0.64 : 0.5), most: most * 0.7 },
      measure,
    );
  };
}

function captionOf(callout: Callout | null, { set }: Shared): string {
  if (!callout || callout.lanes === '') return '';
  if (set !== '' && set === callout.first) return '';
  return set === '' ? callout.lanes : `${callout.lanes} ${set}`;
}

interface LinesRoom {
  readonly width: number;
  readonly height: number;
  readonly most: number;
}

/** Of the width: the title's share, and what keeps the lines from it, where these stand beside it. */
const TITLE = 0.36;
const BETWEEN = 0.04;

/** The title beside its lines, where both come out larger than one below the other: short lines leave half a wide screen empty. */
function splitOf(
  { title, lines }: Callout,
  { width, height }: { readonly width: number; readonly height: number },
  measure: Measure,
): { readonly title: readonly string[]; readonly size: number; readonly lines: LinesRoom } | null {
  const longest = Math.max(...shownOf(lines).map(measure));
  const inWidth = (width * (1 - TITLE - BETWEEN)) / longest;
  const beside = Math.min(inWidth, height / (shownOf(lines).length * 1.25), height * 0.4);
  const below = Math.min(width / longest, (height * 0.64) / (shownOf(lines).length * 1.25));
  if (lines.length === 0 || beside < below * 1.1) return null;
  // "Next:" stands above the part's name.
  const broken = title.replace(': ', ':\n').split('\n');
  const size = Math.min(height * 0.4, (width * TITLE) / Math.max(...broken.map(measure)));
  if (size < beside) return null;
  return {
    title: broken,
    size,
    lines: { width: width * (1 - TITLE - BETWEEN), height, most: beside },
  };
}

function shownOf(lines: readonly string[]): readonly string[] {
  const more = lines.length - MOST_LINES;
  return more > 0 ? [...lines.slice(0, MOST_LINES - 1), `and ${more + 1} more`] : lines;
}

function writeLines(list: HTMLElement, lines: readonly string[], room: LinesRoom, measure: Measure): void {
  const shown = shownOf(lines);
  const size = Math.min(room.most, room.height / (shown.length * 1.25));
  list.textContent = '';
  for (const text of shown) {
    const element = list.appendChild(list.ownerDocument.createElement('li'));
    wordsWriter(element, { width: room.width, size, least: size * 0.32 }, measure)(text);
  }
}
