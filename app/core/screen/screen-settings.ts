/*
 * What a wall screen shows and how: the settings that are kept by the screen's name. Sizes are what the coach knows of
 * the screen: its diagonal as on the box, and how far away the swimmers are who read it.
 */

import type { ClockChoice } from '../run/readings.ts';

export interface ScreenSettings {
  readonly clock: ClockChoice;
  readonly face: 'digits' | 'sweep';
  /** What stands at the top of a sweep's dial. */
  readonly top: '60' | '00';
  /** In lane order; null for all lanes. */
  readonly lanes: readonly number[] | null;
  /** The side at which swimmers push off. */
  readonly pushOff: 'left' | 'right';
  /** Where lane 1 stands. */
  readonly laneOne: 'top' | 'bottom';
  /** Whole inches. */
  readonly diagonal: number;
  /** To the farthest reader, in whole metres. */
  readonly reader: number;
  /** Kept clear at every side, in whole per cent: television sets cut some of it. */
  readonly inset: number;
  /** `contrast`: as much of it as there is, without shades. */
  readonly light: 'dark hall' | 'bright hall' | 'contrast';
  /** What is shown besides clock, leaves, seconds and lanes. */
  readonly words: boolean;
  readonly after: boolean;
  /** The projected end, and the minutes in hand. */
  readonly end: boolean;
  readonly names: boolean;
  /** Clock and leaves only: nothing of the four above, whatever is chosen there. */
  readonly leavesOnly: boolean;
  /** Two columns with fewer than eight lanes too, where that makes the leaves larger; from eight on they come by themselves. */
  readonly twoColumns: boolean;
}

export type ScreenChange = Partial<ScreenSettings>;

/** Of a screen that nobody has set. */
export const FIRST_SETTINGS: ScreenSettings = {
  clock: 'stretch',
  face: 'digits',
  top: '60',
  lanes: null,
  pushOff: 'left',
  laneOne: 'top',
  diagonal: 55,
  reader: 15,
  inset: 5,
  light: 'dark hall',
  words: true,
  after: true,
  end: false,
  names: false,
  leavesOnly: false,
  twoColumns: false,
};

/** The values of each setting that has a few; the first is the usual one. */
export const SCREEN_CHOICES = {
  clock: ['stretch', 'run', 'pool'],
  face: ['digits', 'sweep'],
  top: ['60', '00'],
  pushOff: ['left', 'right'],
  laneOne: ['top', 'bottom'],
  light: ['dark hall', 'bright hall', 'contrast'],
} as const satisfies { readonly [Name in keyof ScreenSettings]?: readonly ScreenSettings[Name][] };

/** The smallest screen is a tablet, the largest a video wall; the farthest reader stands at the other end of 50 m. */
export const SCREEN_RANGES = {
  diagonal: { least: 10, most: 300 },
  reader: { least: 2, most: 60 },
  inset: { least: 0, most: 10 },
} as const satisfies { readonly [Name in keyof ScreenSettings]?: { readonly least: number; readonly most: number } };

/** As a session may number its lanes. */
export const LANE_RANGE = { least: 0, most: 20 } as const;

/** The settings after a change, in whichever order its lanes were chosen; the same object where nothing becomes another. */
export function changedSettings(settings: ScreenSettings, change: ScreenChange): ScreenSettings {
  const changed = { ...settings, ...change };
  if (change.lanes) changed.lanes = [...change.lanes].sort((a, b) => a - b);
  return isSameSettings(settings, changed) ? settings : changed;
}

export function isSameSettings(a: ScreenSettings, b: ScreenSettings): boolean {
  return (Object.keys(a) as (keyof ScreenSettings)[]).every((name) =>
    name === 'lanes' ? isSameChoice(a.lanes, b.lanes) : a[name] === b[name],
  );
}

function isSameChoice(a: ScreenSettings['lanes'], b: ScreenSettings['lanes']): boolean {
  if (a === null || b === null) return a === b;
  return a.length === b.length && a.every((lane, index) => lane === b[index]);
}
