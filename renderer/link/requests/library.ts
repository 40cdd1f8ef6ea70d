/*
 * Asking the library of sessions, which the host keeps.
 */

import type { LibraryAnswer, LibraryRequest, LibraryWish } from '../../../app/wire/library.ts';
import { askFor } from './ask-for.ts';

export type {
  BinEntry,
  EntryFigures,
  FileNow,
  LibraryAnswer,
  LibraryEntry,
  LibraryRequest,
  LibraryText,
  LibraryWish,
  ShelfKind,
} from '../../../app/wire/library.ts';

export type AskLibrary = <Wish extends LibraryWish>(
  asked: Extract<LibraryRequest, { do: Wish }>,
) => Promise<LibraryAnswer<Wish>>;

const UNHEARD = 'The program does not answer: check that it is running. What you typed is kept in this window.';

/** Never rejects: a host that cannot be reached is a refusal too. */
export const askLibrary: AskLibrary = <Wish extends LibraryWish>(asked: Extract<LibraryRequest, { do: Wish }>) =>
  askFor<LibraryAnswer<Wish>>('/library', asked, UNHEARD);
