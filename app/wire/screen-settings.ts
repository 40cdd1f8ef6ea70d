/*
 * Wall screens as they come from outside: their names and settings, in messages and in the file that keeps them.
 * Ranges and values are the core's.
 */

import { z } from 'zod';
import { LONGEST_NAME, screenName } from '../core/screen/screen-name.ts';
import {
  LANE_RANGE,
  SCREEN_CHOICES,
  SCREEN_RANGES,
  type ScreenChange,
  type ScreenSettings,
} from '../core/screen/screen-settings.ts';

/** A name as it is kept; one with spaces too many is another way to write a name, and no name. */
export const nameOfScreen = z
  .string()
  .max(LONGEST_NAME)
  .refine((name) => screenName(name) === name);

const lane = z.number().int().min(LANE_RANGE.least).max(LANE_RANGE.most);

const chosenLanes = z
  .array(lane)
  .min(1)
  .max(LANE_RANGE.most)
  .refine((lanes) => new Set(lanes).size === lanes.length)
  .nullable();

const within = ({ least, most }: { readonly least: number; readonly most: number }) =>
  z.number().int().min(least).max(most);

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
};

export const screenSettings: z.ZodType<ScreenSettings> = z.object(fields).strict();

/** The settings that are to change. */
export const screenChange: z.ZodType<ScreenChange> = z.object(fields).strict().exactPartial();

/** What a coach wants of a screen: other settings, another name, or that nothing is kept of it. */
export const screenWish = z.union([
  z.object({ settings: screenChange }).strict(),
  z.object({ rename: nameOfScreen }).strict(),
  z.object({ forget: z.literal(true) }).strict(),
]);

/** In px, as its page is laid out. */
export const screenRoom = z
  .object({ width: z.number().int().min(1).max(20_000), height: z.number().int().min(1).max(20_000) })
  .strict();

/** How a wall screen introduces itself. `name`: null until the host has given it one. */
export const screenIntroduction = z
  .object({
    name: nameOfScreen.nullable(),
    /** What stands behind the question mark of its address, where it wins over the settings; with the mark, or empty. */
    search: z.string().max(512),
    room: screenRoom,
  })
  .strict();

/** A wall screen as the coach's windows are told of it. */
export const screenTold = z
  .object({
    name: nameOfScreen,
    settings: screenSettings,
    /** Those that are connected under this name now; none for one that is only remembered. */
    connected: z.array(z.object({ search: z.string(), room: screenRoom }).strict()),
  })
  .strict();

export type ScreenWish = z.infer<typeof screenWish>;
export type ScreenRoom = z.infer<typeof screenRoom>;
export type ScreenIntroduction = z.infer<typeof screenIntroduction>;
export type ScreenTold = z.infer<typeof screenTold>;

/** Raised with every change that an older program could not read. */
export const SCREENS_VERSION = 1;

const keptScreen = z
  .object({
    name: nameOfScreen,
    settings: screenSettings,
    /** Names that it had before, the latest last: whoever still gives one of them is this screen. */
    formerly: z.array(nameOfScreen).readonly(),
  })
  .strict();

/** The file of the data folder that keeps the screens, as JSON. */
export const screensFile = z
  .object({ version: z.literal(SCREENS_VERSION), screens: z.array(keptScreen) })
  .strict()
  .refine(({ screens }) => new Set(screens.map(({ name }) => name)).size === screens.length);

export type KeptScreen = z.infer<typeof keptScreen>;
