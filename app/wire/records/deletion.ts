/*
 * What is to be deleted, as it stands in the data folder until it is done, and is read back.
 */

import * as z from 'zod/mini';

export const DELETION_VERSION = 1;

const toDelete = z.discriminatedUnion('what', [
  /** By the name that their files begin with. */
  z.strictObject({ what: z.literal('runs'), stems: z.array(z.string().check(z.minLength(1), z.regex(/^[^/\\]+$/))) }),
  z.strictObject({ what: z.literal('name'), name: z.string() }),
  z.strictObject({ what: z.literal('everything') }),
]);

export type ToDelete = z.infer<typeof toDelete>;

export const deletionFile = z.strictObject({ version: z.literal(DELETION_VERSION), delete: toDelete });
