/*
 * What the address of a wall screen decides by itself, so that its settings change nothing there. A screen reads its
 * own address (renderer/wall/screen); here only the names of what it asks for are needed.
 */

import type { ScreenTold } from '../../link/store.ts';

/** By the name in the address. */
const DECIDES: readonly (readonly [asked: string, words: string])[] = [
  ['clock', 'the clock'],
  ['face', 'the face'],
  ['top', "the dial's top"],
  ['lanes', 'the lanes'],
  ['from', 'the push-off side'],
  ['order', 'where lane 1 is'],
  ['flip', 'the push-off side and where lane 1 is'],
  ['diagonal', 'the diagonal'],
  ['reader', 'the farthest reader'],
  ['inset', 'the edges'],
  ['light', 'the light'],
  ['without', 'what is left out'],
  ['only', 'what is left out'],
  ['end', 'the end'],
  ['names', "swimmers' names"],
  ['columns', 'the columns'],
];

/** A sentence about the screens that are connected under one name; empty where settings decide everything. */
export function addressText(connected: ScreenTold['connected']): string {
  const asked = connected.map(({ search }) => new URLSearchParams(search));
  const words = DECIDES.filter(([name]) => asked.some((each) => each.has(name))).map(([, said]) => said);
  return words.length === 0 ? '' : `Its address decides ${listed([...new Set(words)])}.`;
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}
