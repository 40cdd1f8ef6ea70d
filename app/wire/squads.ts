/*
 * Squads as they come from outside: what a coach's window asks of them, and the file of the data folder that keeps them.
 * A squad's lanes are lines as a session has them, so that the file can be read and written by hand.
 */

import { z } from 'zod';
import { isSameSquad, LONGEST_SQUAD_NAME, squadLanes, squadName } from '../core/session/lanes/squad.ts';

/** A name as it is kept; one with spaces too many is another way to write a name, and no name. */
const name = z
  .string()
  .max(LONGEST_SQUAD_NAME)
  .refine((text) => squadName(text) === text);

/** As long as a line can be, and as many as a session has lanes. */
const lanes = z
  .array(z.string().max(500))
  .max(20)
  .refine((lines) => squadLanes(lines) !== null);

const squad = z.object({ name, lanes: lanes.readonly() }).strict();

export type Squad = z.infer<typeof squad>;

export const MOST_SQUADS = 100;

const squads = z
  .array(squad)
  .max(MOST_SQUADS)
  .refine((all) => all.every((one, at) => all.findIndex((other) => isSameSquad(one.name, other.name)) === at));

/** Raised with every change that an older program could not read. */
export const SQUADS_VERSION = 1;

export const squadsFile = z.object({ version: z.literal(SQUADS_VERSION), squads }).strict();

export const squadsRequest = z.discriminatedUnion('do', [
  z.object({ do: z.literal('list') }).strict(),
  /** `over`: also in place of a squad that has the name already. */
  z.object({ do: z.literal('keep'), squad, over: z.boolean() }).strict(),
  z.object({ do: z.literal('rename'), name, to: name }).strict(),
  z.object({ do: z.literal('delete'), name }).strict(),
]);

export type SquadsRequest = z.infer<typeof squadsRequest>;

export type SquadsAnswer =
  /** All there are now, by name. `said`: a sentence where the file was not what it should be; null where all is well. */
  | { readonly ok: true; readonly squads: readonly Squad[]; readonly said: string | null }
  /** A sentence for the coach; nothing was changed. */
  | { readonly ok: false; readonly why: string };
