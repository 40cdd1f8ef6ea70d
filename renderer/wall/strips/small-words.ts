/*
 * What a lane's small place says while nobody swims: on one line where that fits large, else on two.
 */

import type { Measure } from '../../ui/fit-text.ts';
import type { LaneFace } from './lane-face.ts';
import type { Layout } from '../layout.ts';
import type { WallChoice } from '../screen/wall-choice.ts';
import { firstThatFits, fuller, joined, placeIn, wholeWriter } from '../writers.ts';

export function smallWords(
  strip: HTMLElement,
  { callout }: Layout,
  measure: Measure,
  { names }: WallChoice,
): (face: LaneFace, shared: boolean) => void {
  const { laneHeight, laneWidth } = callout;
  const all = laneWidth - laneHeight * 1.3;
  const sizes = (width: number) => ({
    large: { width, size: laneHeight * 0.56, least: laneHeight * 0.44 },
    small: { width, size: laneHeight * 0.4, least: laneHeight * 0.34 },
  });
  const word = wholeWriter(placeIn(strip, 'word'), sizes(all).large, measure);
  for (const name of ['interval', 'target', 'words', 'after', 'turn']) placeIn(strip, name).textContent = '';
  let shown: string | null = null;
  return (face, shared) => {
    const items = itemsOf(names ? { ...face, turn: face.turnByName } : face, shared);
    const isStopped = face.state === 'stopped';
    word(isStopped || items.length === 0 ? face.word : '');
    const key = joined([isStopped ? face.word : '', ...items]);
    if (key === shown) return;
    shown = key;
    const { large, small } = sizes(isStopped ? all - laneHeight * 0.56 * (measure(face.word) + 0.5) : all);
    const [first = '', ...rest] = items;
    const line = joined(items);
    const isOne = rest.length === 0 || measure(line) * large.size <= large.width;
    wholeWriter(placeIn(strip, 'rep'), isOne ? large : small, measure)(isOne ? line : first);
    const second = isOne ? '' : firstThatFits(fuller(...rest), small, measure);
    wholeWriter(placeIn(strip, 'round'), small, measure)(second);
  };
}

/** In order of importance. Swimmers whose lead has left before a stop still wait for their turn. */
function itemsOf(face: LaneFace, shared: boolean): readonly string[] {
  const { state, turn, words, rep, round, interval, target } = face;
  const items =
    state === 'stopped' ? [turn, rep, round, interval, target] : [turn, shared ? '' : words, interval, rep, target];
  return items.filter((item) => item !== '');
}
