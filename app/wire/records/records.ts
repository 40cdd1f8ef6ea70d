/*
 * What the coach's window asks about the runs that are kept, and the answers. The network and the desktop program's own
 * channel carry the same. Every request is checked on arrival; sizes are bounded.
 */

import * as z from 'zod/mini';
import type { Afterwards } from '../../core/record/afterwards.ts';
import type { HistoryRun } from '../../core/record/history/history-run.ts';
import type { ReviewJson } from '../../core/record/tables/review-json.ts';
import { addedAfterwards } from './afterwards.ts';

const run = z.string().check(z.minLength(1), z.maxLength(64));
const day = z.nullable(z.string().check(z.regex(/^[12]\d{3}-\d\d-\d\d$/)));
const version = z.nullable(z.string().check(z.regex(/^[0-9a-f]{32}$/)));

/** The most that one list has. */
const MOST_LISTED = 10_000;

export const recordsRequest = z.discriminatedUnion('do', [
  /**
   * Runs that were started, by date, the newest first, that have all words of `find` in title, parts, names, marks or notes, from one day to
   * another, both included; null for no such end.
   */
  z.strictObject({
    do: z.literal('list'),
    find: z.string().check(z.maxLength(200)),
    from: day,
    to: day,
    most: z.int().check(z.minimum(1), z.maximum(MOST_LISTED)),
  }),
  z.strictObject({ do: z.literal('review'), run }),
  /** The record as a table (RFC 4180). */
  z.strictObject({ do: z.literal('table'), run }),
  /** The text that was in force at the end, to do it again. */
  z.strictObject({ do: z.literal('session'), run }),
  /** Keeps all that was added, where it is still as it was at `version`: null for nothing added so far. */
  z.strictObject({ do: z.literal('keep'), run, version, added: addedAfterwards }),
  z.strictObject({ do: z.literal('delete-run'), run }),
  /** Runs that were opened and never started, which no list of runs shows. */
  z.strictObject({ do: z.literal('never-started') }),
  /** All of those, or only the one of that name. */
  z.strictObject({ do: z.literal('delete-never-started'), only: z.nullable(z.string().check(z.maxLength(255))) }),
  /** A swimmer's name, wherever it stands. */
  z.strictObject({ do: z.literal('delete-name'), name: z.string().check(z.minLength(1), z.maxLength(100)) }),
  /** All runs, sessions, pieces and squads, and the bin. */
  z.strictObject({ do: z.literal('delete-everything') }),
]);

export type RecordsRequest = z.infer<typeof recordsRequest>;
export type RecordsWish = RecordsRequest['do'];

/** What is given for each wish that is granted. */
export interface RecordsGiven {
  readonly list: {
    readonly runs: readonly HistoryRun[];
    /** How many more fit. */
    readonly more: number;
    /** How many runs are still to be worked out, which happens once: ask again. */
    readonly toCome: number;
    /** What cannot be read, and what is still to be deleted, in sentences. */
    readonly said: readonly string[];
  };
  readonly review: ReviewJson & {
    readonly added: Afterwards;
    /** Of what was added; null for nothing so far. */
    readonly version: string | null;
    /** Whether more may be added: not where what is there cannot be read, and so is left as it is. */
    readonly mayAdd: boolean;
    /** Why nothing can be added, or what of the run is left out, in sentences. */
    readonly said: readonly string[];
  };
  readonly table: { readonly csv: string };
  readonly session: { readonly title: string; readonly text: string; readonly lanesText: string | null };
  readonly keep: { readonly version: string };
  readonly 'delete-run': object;
  readonly 'never-started': { readonly runs: readonly NeverStarted[] };
  readonly 'delete-never-started': Deleted;
  readonly 'delete-name': Deleted;
  readonly 'delete-everything': Deleted;
}

export interface NeverStarted {
  /** Of its journal, without its ending. */
  readonly name: string;
  readonly title: string;
  /** "2026-11-26T19:30:00". */
  readonly openedAt: string;
}

export interface Deleted {
  /** How many runs, and how many texts of the library and the bin, were changed or are gone. */
  readonly runs: number;
  readonly texts: number;
  /** What had to be left as it is, in sentences. */
  readonly left: readonly string[];
}

export interface RecordsRefusal {
  readonly ok: false;
  /** A sentence for the coach. */
  readonly why: string;
  /** What was added is not as it was at the version named, but so; nothing was written. */
  readonly changed?: { readonly added: Afterwards; readonly version: string | null };
}

export type RecordsAnswer<Wish extends RecordsWish> = ({ readonly ok: true } & RecordsGiven[Wish]) | RecordsRefusal;
