/*
 * What a wall screen shows and how: its settings, which the host keeps by the screen's name, and over them what its
 * address asks for. What cannot be read asks for nothing.
 *
 *   ?lanes=1-4, ?lanes=1,3    some of the lanes
 *   ?clock=run, ?clock=pool   another clock than the stretch's
 *   ?face=sweep, ?top=00      a 60-second sweep, with 00 at its top
 *   ?from=right               swimmers push off at the right
 *   ?order=up                 lane 1 at the bottom
 *   ?flip                     both of these
 *   ?inset=0 to ?inset=10     kept clear at every side, in per cent
 *   ?light=bright, =contrast  for a hall in daylight; with as much contrast as there is
 *   ?without=words,after      leaves out what swimmers know: the words of a set, the leave after the next
 *   ?only=leaves              clock and leaves, with the rep, and nothing else
 *   ?columns=2                two columns with fewer than eight lanes too
 *   ?names, ?end              whose turn is next by name; end of the session and minutes in hand
 *   ?diagonal=55, ?reader=15  the screen's diagonal in inches, and the farthest reader in metres
 */

import { lanesOn, readLanes, type ChosenLanes } from '../../../app/core/screen/screen-lanes.ts';
import { FIRST_SETTINGS, SCREEN_RANGES, type ScreenSettings } from '../../../app/core/screen/screen-settings.ts';
import type { ClockFace } from '../faces/clock-face.ts';
import { faceNamed } from '../faces/faces.ts';

/** The side at which swimmers push off. */
export type PushOff = ScreenSettings['pushOff'];

/** The settings as this screen draws them. */
export interface WallChoice extends Omit<ScreenSettings, 'face' | 'lanes' | 'inset'> {
  readonly lanes: ChosenLanes;
  readonly face: ClockFace;
  /** A share of the width and the height. */
  readonly inset: number;
}

/** search: as in `location.search`; settings: those kept for the screen, or the first ones. */
export function readWallChoice(search: string, settings: ScreenSettings = FIRST_SETTINGS): WallChoice {
  const asked = new URLSearchParams(search);
  const oneOf = <Value extends string>(name: string, values: readonly Value[], otherwise: Value): Value =>
    values.find((value) => value === asked.get(name)) ?? otherwise;
  const flip = asked.has('flip');
  const askedFace = asked.get('face');
  const face = faceNamed(askedFace ?? settings.face);
  const without = (asked.get('without') ?? '').split(',');
  const leavesOnly = settings.leavesOnly || asked.get('only') === 'leaves';
  const kept = (name: 'words' | 'after'): boolean => settings[name] && !leavesOnly && !without.includes(name);
  return {
    lanes: readLanes(asked.get('lanes') ?? '') ?? (settings.lanes && new Set(settings.lanes)),
    face,
    clock: oneOf('clock', ['stretch', 'run', 'pool'], askedFace === null ? settings.clock : face.usual),
    top: oneOf('top', ['60', '00'], settings.top),
    pushOff: oneOf('from', ['left', 'right'], flip ? 'right' : settings.pushOff),
    laneOne: LANE_ONE[oneOf('order', ['down', 'up'], flip || settings.laneOne === 'bottom' ? 'up' : 'down')],
    inset: readNumber(asked.get('inset'), SCREEN_RANGES.inset, settings.inset) / 100,
    light: LIGHTS.find(([name]) => name === asked.get('light'))?.[1] ?? settings.light,
    words: kept('words'),
    after: kept('after'),
    names: (settings.names || asked.has('names')) && !leavesOnly,
    end: (settings.end || asked.has('end')) && !leavesOnly,
    leavesOnly,
    twoColumns: settings.twoColumns || leavesOnly || asked.get('columns') === '2',
    diagonal: readNumber(asked.get('diagonal'), SCREEN_RANGES.diagonal, settings.diagonal),
    reader: readNumber(asked.get('reader'), SCREEN_RANGES.reader, settings.reader),
  };
}

const LANE_ONE = { down: 'top', up: 'bottom' } as const;

const LIGHTS: readonly (readonly [asked: string, light: ScreenSettings['light']])[] = [
  ['dark', 'dark hall'],
  ['bright', 'bright hall'],
  ['contrast', 'contrast'],
];

/** The chosen ones of the lanes there are, in the order they stand in; all of them where none of those chosen is there. */
export function chosenLanes(all: readonly number[], { lanes, laneOne }: WallChoice): readonly number[] {
  const shown = lanesOn(all, lanes);
  return laneOne === 'bottom' ? [...shown].reverse() : shown;
}

function readNumber(
  text: string | null,
  { least, most }: { readonly least: number; readonly most: number },
  otherwise: number,
): number {
  const number = text !== null && /^\d{1,3}(\.\d+)?$/.test(text) ? Number(text) : NaN;
  return number >= least && number <= most ? number : otherwise;
}
