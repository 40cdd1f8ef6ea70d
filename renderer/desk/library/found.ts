/*
 * What the library has found, as its list shows it.
 */

import type { LibraryEntry } from '../../link/requests/library.ts';

export interface Found {
  /** What was looked for. */
  readonly words: string;
  readonly sessions: readonly LibraryEntry[];
  readonly pieces: readonly LibraryEntry[];
  readonly more: number;
}

/**
 * What is found once `after` has come. What is as it was stays the same object, each entry and the whole, so that nothing is
 * drawn anew for it. While the same words are looked for, rows stay where they are: none moves under a finger. New ones come
 * first.
 */
export function nextFound(before: Found | null, { words, sessions, pieces, more }: Found): Found {
  if (!before) return { words, sessions, pieces, more };
  const isSameWords = words === before.words;
  const next = {
    words,
    sessions: kept(before.sessions, isSameWords ? inPlace(before.sessions, sessions) : sessions),
    pieces: kept(before.pieces, pieces),
    more,
  };
  const isSame = next.sessions === before.sessions && next.pieces === before.pieces && more === before.more;
  return isSame && isSameWords ? before : next;
}

type Entries = readonly LibraryEntry[];

function inPlace(before: Entries, after: Entries): Entries {
  const places = new Map(before.map(({ name }, index) => [name, index]));
  return [...after].sort((a, b) => (places.get(a.name) ?? -1) - (places.get(b.name) ?? -1));
}

function kept(before: Entries, after: Entries): Entries {
  const known = new Map(before.map((entry) => [entry.name, entry]));
  const entries = after.map((entry) => {
    const same = known.get(entry.name);
    return same && JSON.stringify(same) === JSON.stringify(entry) ? same : entry;
  });
  const isSame = entries.length === before.length && entries.every((entry, index) => entry === before[index]);
  return isSame ? before : entries;
}
