/*
 * What the coach's window asks of the library of sessions, and the answers. The network and the desktop program's own
 * channel carry the same. Every request is checked on arrival; sizes are bounded.
 */

import { z } from 'zod';
import { TEXT_LIMIT } from './messages.ts';

/** Sessions, and parts and sets that are kept to be put in elsewhere. Each kind has a folder of its own. */
export type ShelfKind = 'session' | 'piece';

/** As long as file systems allow; what a new name may be is decided by the host. */
const name = z.string().min(1).max(255);
const kind = z.enum(['session', 'piece']);
/** Bytes are counted by the host; no text of the limit has more letters than that. */
const text = z.string().max(TEXT_LIMIT);
const version = z.string().regex(/^[0-9a-f]{32}$/);

/** The most that one list has. */
const MOST_LISTED = 1000;

export const libraryRequest = z.discriminatedUnion('do', [
  /** Those that have all words of `find` in name, date or text, the last used first. */
  z
    .object({ do: z.literal('list'), find: z.string().max(200), most: z.number().int().min(1).max(MOST_LISTED) })
    .strict(),
  /** Opens one: it is the last used from now on. */
  z.object({ do: z.literal('read'), kind, name }).strict(),
  /** Whether a file is still as it was at that version. */
  z.object({ do: z.literal('look'), kind, name, version }).strict(),
  /** A new one by that name, or by one as near to it as the file system and the others allow. */
  z.object({ do: z.literal('create'), kind, name: z.string().max(1000), text }).strict(),
  /** `over`: also where it was changed since `version`; what it was changed to goes into the bin. */
  z.object({ do: z.literal('save'), kind, name, text, version, over: z.boolean().optional() }).strict(),
  /** `near`: where `to` cannot be a name or is taken, by one as near to it as can be. */
  z.object({ do: z.literal('rename'), kind, name, to: z.string().max(1000), near: z.boolean().optional() }).strict(),
  z.object({ do: z.literal('discard'), kind, name }).strict(),
  z.object({ do: z.literal('bin') }).strict(),
  z.object({ do: z.literal('put-back'), id: z.string().min(1).max(600) }).strict(),
]);

export type LibraryRequest = z.infer<typeof libraryRequest>;
export type LibraryWish = LibraryRequest['do'];

export interface LibraryEntry {
  readonly name: string;
  /** null without one, or where the text cannot be read. */
  readonly title: string | null;
  /** The day that the text says it is for, as YYYY-MM-DD; null without one. */
  readonly day: string | null;
  /** When it was last opened or changed, in ms since 1970. */
  readonly usedAt: number;
  /** What it comes to; null for a text with faults, a piece, or one too long to be worked out for a list. */
  readonly figures: EntryFigures | null;
  /** Why there are no figures, in a few words; its first line for a piece. */
  readonly note: string | null;
}

export interface EntryFigures {
  /** Of the lane that swims the least, and of the one that swims the most, in tenths of the unit. */
  readonly least: number;
  readonly most: number;
  readonly unit: 'm' | 'yd';
  /** In ms. */
  readonly duration: number;
  readonly isEstimate: boolean;
}

export interface BinEntry {
  readonly id: string;
  readonly kind: ShelfKind;
  readonly name: string;
  /** In ms since 1970. */
  readonly discardedAt: number;
}

export interface LibraryText {
  readonly name: string;
  readonly text: string;
  readonly version: string;
}

export interface Placed {
  readonly name: string;
  readonly version: string;
}

/** What a file that was changed elsewhere now is; null for one that is gone. */
export type FileNow = { readonly text: string; readonly version: string } | null;

/** What is given for each wish that is granted. */
export interface LibraryGiven {
  readonly list: {
    readonly sessions: readonly LibraryEntry[];
    readonly pieces: readonly LibraryEntry[];
    /** How many more sessions there are that fit. */
    readonly more: number;
  };
  readonly read: LibraryText;
  /** `same`: nothing has changed. */
  readonly look: { readonly same: true } | { readonly same: false; readonly now: FileNow };
  readonly create: Placed;
  readonly save: Placed;
  readonly rename: Placed;
  readonly discard: { readonly id: string };
  readonly bin: { readonly binned: readonly BinEntry[] };
  readonly 'put-back': { readonly kind: ShelfKind; readonly name: string };
}

export interface LibraryRefusal {
  readonly ok: false;
  /** A sentence for the coach. */
  readonly why: string;
  /** `changed`: the file is not as it was at the version named; nothing was written. */
  readonly changed?: { readonly now: FileNow };
}

export type LibraryAnswer<Wish extends LibraryWish> = ({ readonly ok: true } & LibraryGiven[Wish]) | LibraryRefusal;
