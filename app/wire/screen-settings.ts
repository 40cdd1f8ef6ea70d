/*
 * Wall screens as they come from outside: their names and settings, in messages and in the file that keeps them.
 * Ranges and values are the core's.
 */

import * as z from 'zod/mini';
import { LONGEST_NAME, screenName } from '../core/screen/screen-name.ts';
import {
  LANE_RANGE,
  SCREEN_CHOICES,
  SCREEN_RANGES,
  type ScreenChange,
  type ScreenSettings,
} from '../core/screen/screen-settings.ts';

/** A name as it is kept; one with spaces too many is another way to write a name, and no name. */
export const nameOfScreen = z.string().check(
  z.maxLength(LONGEST_NAME),
  z.refine((name) => screenName(name) === name),
);

const within = ({ least, most }: { readonly least: number; readonly most: number }) =>
  z.int().check(z.minimum(least), z.maximum(most));

const chosenLanes = z.nullable(
  z.array(within(LANE_RANGE)).check(
    z.minLength(1),
    z.maxLength(LANE_RANGE.most),
    z.refine((lanes) => new Set(lanes).size === lanes.length),
  ),
);

const fields = {
  clock: z.enum(SCREEN_CHOICES.clock),
  face: z.enum(SCREEN_CHOICES.face),
  top: z.enum(SCREEN_CHOICES.top),
  lanes: chosenLanes,
  pushOff: z.enum(SCREEN_CHOICES.pushOff),
  laneOne: z.enum(SCREEN_CHOICES.laneOne),
  diagonal: within(SCREEN_RANGES.diagonal),
  reader: within(SCREEN_RANGES.reader),
  inset: within(SCREEN_RANGES.inset),
  light: z.enum(SCREEN_CHOICES.light),
  words: z.boolean(),
  after: z.boolean(),
  end: z.boolean(),
  names: z.boolean(),
  leavesOnly: z.boolean(),
  twoColumns: z.boolean(),
};

export const screenSettings: z.ZodMiniType<ScreenSettings> = z.strictObject(fields);

/** The settings that are to change. */
export const screenChange: z.ZodMiniType<ScreenChange> = z.exactPartial(z.strictObject(fields));

/** What a coach wants of a screen: other settings, another name, or that nothing is kept of it. */
export const screenWish = z.union([
  z.strictObject({ settings: screenChange }),
  z.strictObject({ rename: nameOfScreen }),
  z.strictObject({ forget: z.literal(true) }),
]);

/** In px. */
const SIDE = { least: 1, most: 20_000 };

/** In px, as its page is laid out. */
export const screenRoom = z.strictObject({
  width: within(SIDE),
  height: within(SIDE),
});

/** As many as a browser remembers. */
const MOST_KNOWN = 16;

/** How a wall screen introduces itself. `name`: null until the host has given it one. */
export const screenIntroduction = z.strictObject({
  name: z.nullable(nameOfScreen),
  /** Of a window without a name: those that its browser remembers, the likeliest first. One that another window has is not for it. */
  known: z.optional(z.array(nameOfScreen).check(z.maxLength(MOST_KNOWN))),
  /** What stands behind the question mark of its address, where it wins over the settings; with the mark, or empty. */
  search: z.string().check(z.maxLength(512)),
  room: screenRoom,
});

/** A wall screen as the coach's windows are told of it. */
export const screenTold = z.strictObject({
  name: nameOfScreen,
  settings: screenSettings,
  /** Those that are connected under this name now; none for one that is only remembered. */
  connected: z.array(z.strictObject({ search: z.string(), room: screenRoom })),
  /** Set where one of those is a window of the program, which alone is told swimmers' names. */
  isOwnWindow: z.optional(z.literal(true)),
});

export type ScreenWish = z.infer<typeof screenWish>;
export type ScreenRoom = z.infer<typeof screenRoom>;
export type ScreenIntroduction = z.infer<typeof screenIntroduction>;
export type ScreenTold = z.infer<typeof screenTold>;

/** Raised with every change that an older program could not read. */
export const SCREENS_VERSION = 1;

const keptScreen = z.strictObject({
  name: nameOfScreen,
  settings: screenSettings,
  /** Names that it had before, the latest last: whoever still gives one of them is this screen. */
  formerly: z.readonly(z.array(nameOfScreen)),
});

/** The file of the data folder that keeps the screens, as JSON. */
export const screensFile = z
  .strictObject({ version: z.literal(SCREENS_VERSION), screens: z.array(keptScreen) })
  .check(z.refine(({ screens }) => new Set(screens.map(({ name }) => name)).size === screens.length));

export type KeptScreen = z.infer<typeof keptScreen>;
