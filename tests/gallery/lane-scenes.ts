/*
 * The wall with one lane to twelve, for the gallery: between leaves, at a leave, in a ladder, and with what its settings
 * leave out.
 */

import type { Scene } from './scene.ts';

/** Lanes that leave a few seconds after each other. */
function squadOf(lanes: number): string {
  const all = Array.from({ length: lanes }, (_, lane) => lane);
  const header = all.map((lane) => `lane ${lane + 1} base 1:${30 + lane}, ${3 + (lane % 4)} swimmers`).join('\n');
  const intervals = all.map((lane) => `0:${50 + Math.min(lane, 9)}`).join('/');
  return `Harbour squad\n${header}\n\nMain set\n3 rounds\n  4 x 50 fast @ ${intervals} hold 0:38\nbreak 0:45 drink\n`;
}

/** Lanes that leave together for distances that change. */
function ladderOf(lanes: number): string {
  const header = Array.from({ length: lanes }, (_, lane) => `lane ${lane + 1} base 1:${30 + lane}, 4 swimmers`);
  return `Harbour squad\n${header.join('\n')}\n\nMain set\n50-100-150-200-150-100-50 free @ base\n`;
}

const ALL = [1, 2, 3, 4, 6, 8, 10, 12];

const LEFT_OUT = [
  ['without words', '?without=words,after'],
  ['two columns', '?columns=2'],
  ['clock and leaves only', '?only=leaves'],
] as const;

export const LANE_SCENES: readonly Scene[] = [
  ...ALL.map((lanes) => onWall(`${lanes} lanes`, squadOf(lanes), 101.5)),
  ...ALL.map((lanes) => onWall(`sweep, ${lanes} lanes`, squadOf(lanes), 101.5, '?face=sweep')),
  ...ALL.map((lanes) => onWall(`a ladder, ${lanes} lanes`, ladderOf(lanes), 230)),
  // Gone in two seconds.
  ...['digits', 'sweep'].flatMap((face) =>
    ALL.map((lanes): Scene => {
      return { ...onWall(`a leave, ${face}, ${lanes} lanes`, squadOf(lanes), 80.3, `?face=${face}`), fresh: true };
    }),
  ),
  ...LEFT_OUT.flatMap(([name, asks]) =>
    [2, 6, 10].map((lanes) => onWall(`${name}, ${lanes} lanes`, squadOf(lanes), 101.5, asks)),
  ),
];

/** at: in s; its clock begins at 30. */
function onWall(name: string, session: string, at: number, asks = ''): Scene {
  return { name, session, commands: [[19, { do: 'start' }]], at, screens: ['wall'], asks };
}
