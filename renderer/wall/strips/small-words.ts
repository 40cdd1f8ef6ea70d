/*
 * What a lane's small place says while nobody swims: in all lanes on one line where that fits large in each, else in
 * all on two. They are of one size, so that no lane seems to matter more than the others.
 */

import type { Measure, Place } from '../../ui/digits/fit-text.ts';
import type { LaneFace } from './lane-face.ts';
import type { Layout } from '../layout.ts';
import type { WallChoice } from '../screen/wall-choice.ts';
import { firstThatFits, fuller, isSaid, joined, placeIn, wholeWriter } from '../board/writers.ts';

/** Of all lanes. size: in px. */
export interface SmallForm {
  readonly lines: 1 | 2;
  readonly size: number;
}

/** Of a place's height: the type on one line, and on two, with the smallest that is worth reading. */
const ONE_LINE = { most: 0.66, least: 0.44 };
/** The word "stopped" beside it, or "out". */
const WORD = { most: 0.56, least: 0.44 };
const TWO_LINES = { most: 0.4, least: 0.34 };

/** faces: of all lanes that are shown; shared: whether their words are said over them. */
export function smallForm(
  faces: readonly LaneFace[],
  shared: boolean,
  { callout }: Layout,
  measure: Measure,
  choice: WallChoice,
): SmallForm {
  const said = faces
    .map((face) => ({
      items: fittingOf(face, shared, callout, measure, choice),
      width: widthFor(face, callout, measure),
    }))
    .filter(({ items }) => items.length > 0);
  const high = callout.laneHeight;
  const one = Math.min(high * ONE_LINE.most, ...said.map(({ items, width }) => width / measure(joined(items))));
  if (one >= high * ONE_LINE.least) return { lines: 1, size: Math.floor(one) };
  const firsts = said.map(({ items: [first = ''], width }) => width / measure(first));
  return { lines: 2, size: Math.floor(Math.min(high * TWO_LINES.most, ...firsts)) };
}

export function smallWords(
  strip: HTMLElement,
  { callout }: Layout,
  measure: Measure,
  choice: WallChoice,
): (face: LaneFace, shared: boolean, form: SmallForm) => void {
  const { laneHeight } = callout;
  const wordPlace: Place = {
    width: roomIn(callout),
    size: laneHeight * WORD.most,
    least: laneHeight * WORD.least,
  };
  const word = wholeWriter(placeIn(strip, 'word'), wordPlace, measure);
  for (const name of ['interval', 'target', 'words', 'after', 'turn']) placeIn(strip, name).textContent = '';
  let shown: string | null = null;
  return (face, shared, { lines, size }) => {
    const items = fittingOf(face, shared, callout, measure, choice);
    const isBeside = hasWord(face, callout, measure);
    word(isBeside || items.length === 0 ? face.word : '');
    const key = JSON.stringify([isBeside ? face.word : '', items, lines, size]);
    if (key === shown) return;
    shown = key;
    const place = { width: widthFor(face, callout, measure), size, least: size };
    const [first = '', ...rest] = lines === 1 ? [joined(items)] : items;
    wholeWriter(placeIn(strip, 'rep'), place, measure)(first);
    wholeWriter(placeIn(strip, 'round'), place, measure)(firstThatFits(fuller(...rest), place, measure));
  };
}

type Small = Layout['callout'];

/** Beside the lane's number. */
function roomIn({ laneWidth, laneHeight }: Small): number {
  return laneWidth - laneHeight * 1.3;
}

/** For what is said beside the word "stopped", or by itself. */
function widthFor(face: LaneFace, callout: Small, measure: Measure): number {
  return hasWord(face, callout, measure) ? besideWord(face, callout, measure) : roomIn(callout);
}

function besideWord({ word }: LaneFace, callout: Small, measure: Measure): number {
  return roomIn(callout) - callout.laneHeight * WORD.most * (measure(word) + 0.5);
}

/** Whether "stopped" stands beside the rest. It stands large over all lanes: here it makes room for whose turn is next. */
function hasWord(face: LaneFace, callout: Small, measure: Measure): boolean {
  if (face.state !== 'stopped') return false;
  return measure(face.turn) * callout.laneHeight * TWO_LINES.least <= besideWord(face, callout, measure);
}

/** What fits at no size is left out: it makes no other smaller, and what comes after it takes its place. */
function fittingOf(
  face: LaneFace,
  shared: boolean,
  callout: Small,
  measure: Measure,
  choice: WallChoice,
): readonly string[] {
  const most = widthFor(face, callout, measure) / (callout.laneHeight * TWO_LINES.least);
  const place = { width: most, size: 1, least: 1 };
  const turn = firstThatFits(choice.names ? [face.turnByName, face.turn] : [face.turn], place, measure);
  return itemsOf(face, turn, shared, choice).filter((item) => measure(item) <= most);
}

/** In order of importance. Swimmers whose lead has left before a stop, or a talk, still wait for their turn: first that is said. */
function itemsOf(face: LaneFace, turn: string, shared: boolean, { words: showWords }: WallChoice): readonly string[] {
  const { state, line, rep, round, interval, target } = face;
  // What a lane has swum is no word of a set.
  const words = line > 0 && (shared || !showWords) ? '' : face.words;
  if (state === 'stopped') return [turn, rep, round, interval, target].filter(isSaid);
  return turn === '' ? [words, interval, rep, target].filter(isSaid) : [turn];
}
