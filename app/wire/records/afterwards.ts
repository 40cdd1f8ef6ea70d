/*
 * What the coach adds to a run afterwards, as it comes from outside: from the file that keeps it, or from
 * the coach's window.
 */

import * as z from 'zod/mini';
import type { Afterwards, HandTimes } from '../../core/record/afterwards.ts';
import { DAY } from '../../core/units.ts';

/** Raised when an older program could misread the file. */
export const AFTERWARDS_VERSION = 2;

/** Before it was said which touches have come. */
const WITHOUT_TOUCHES = 1;

/** The latest touches whose ids are kept, so that one that comes again is known. */
export const TOUCHES_KNOWN = 10_000;

const whole = (least: number, most: number) => z.int().check(z.minimum(least), z.maximum(most));

const words = (most: number) => z.string().check(z.maxLength(most));

const lane = whole(0, 20);

/** When a rep left. */
const at = whole(0, 365 * DAY);

const watch = whole(1, DAY);

/** One watch for a rep; null takes back what the rep has. */
export const touchFields = { lane, at, watch: z.nullable(watch) };

const list = <Item extends z.ZodMiniType>(item: Item, most: number) => z.array(item).check(z.maxLength(most));

const watches = z.array(watch).check(z.minLength(1), z.maxLength(3));

/** What the watches of one rep showed. */
export const handTimes: z.ZodMiniType<HandTimes> = z.strictObject({ lane, at, watches });

/** All that was added, by its fields. */
const fields = {
  marks: list(z.strictObject({ command: whole(0, 1_000_000), words: words(200) }), 10_000),
  notes: list(words(2000), 100),
  attendance: z.nullable(
    list(z.strictObject({ lane, swimmers: whole(0, 100), names: z.nullable(list(words(100), 100)) }), 20),
  ),
  effort: z.nullable(whole(0, 10)),
  times: list(handTimes, 100_000),
};

/** As the coach's window sends it. */
export const addedAfterwards: z.ZodMiniType<Afterwards> = z.strictObject(fields);

/** What stands in the file of a run. */
export interface AfterwardsFile extends Afterwards {
  readonly version: number;
  readonly run: string;
  /** The ids of the touches that have come, the latest last; left out in a file of the first version. */
  readonly touches?: readonly string[] | undefined;
}

export const afterwardsFile: z.ZodMiniType<AfterwardsFile> = z.strictObject({
  version: z.literal([WITHOUT_TOUCHES, AFTERWARDS_VERSION]),
  run: words(64),
  touches: z.optional(list(words(64), TOUCHES_KNOWN)),
  ...fields,
});
