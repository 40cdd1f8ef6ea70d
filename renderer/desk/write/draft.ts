/*
 * The session that is being written. This screen keeps a copy of it, letter by letter; the library keeps its file. Beside a
 * run the editor shows what runs; another text that was being written is set aside and can be taken back.
 */

import { useCallback, useRef, useState } from 'react';
import type { FileNow } from '../../link/library.ts';
import type { DeckRun } from '../../link/store.ts';
import { ownStorage } from '../../ui/coach/own-storage.ts';
import { clockTime } from '../../../app/core/words/time/time-of-day.ts';

export interface Draft {
  readonly text: string;
  /** Of lanes that are written apart; '' for none. */
  readonly lanesText: string;
  /** "harbour.txt", "Harbour squad, opened 19:30"; null for one that was written here from nothing. */
  readonly from: string | null;
  /** The run that was open when it was changed last, by its id; null for none. */
  readonly during: string | null;
  /** What that run was opened with; none where the draft was not what it was opened from. */
  readonly opened?: DraftTexts | null;
  /**
   * Its file in the library; null where it has none until something is typed, as for what runs. Without this, it is to go
   * into the library as it is: it was given from outside, or kept before there was one.
   */
  readonly file?: DraftFile | null;
}

/** A file in the library, as this window knows it. */
export interface DraftFile {
  readonly name: string;
  readonly version: string;
  /** Its name was not chosen: it follows the title once there is one. */
  readonly isNameless?: boolean;
}

export type DraftTexts = Pick<Draft, 'text' | 'lanesText'>;

type Memory = Pick<Storage, 'getItem' | 'setItem'>;

const DRAFT = 'lanecall.draft';
const ASIDE = 'lanecall.draft.aside';
/** Where lanes of a draft stood before drafts were kept whole. */
const LANES_DRAFT = 'lanecall.draft.lanes';

export const EMPTY: Draft = { text: '', lanesText: '', from: null, during: null, file: null };

/** What a run was opened with, and now is by its text. */
export type DraftedRun = Pick<DeckRun, 'id' | 'state' | 'lanesText' | 'openedAtTimeOfDay'>;

/** What to begin from, and what is set aside for it. */
export interface Drafts {
  readonly draft: Draft;
  readonly aside: Draft | null;
}

/** A draft that was changed while this run was open goes on; else what the run runs comes first. */
export function firstDraft(run: DraftedRun | null, kept: Draft | null, aside: Draft | null): Drafts {
  if (run === null) return { draft: kept ?? EMPTY, aside };
  const draft = draftOf(run);
  // Opening keeps the draft as well, which is then no change to it.
  const asOpened = kept?.during === run.id && isSame(kept, kept.opened);
  if (kept?.during === run.id && (!asOpened || isSame(kept, draft))) return { draft: kept, aside };
  const other = aside?.text === draft.text ? null : aside;
  const isOther = kept !== null && kept.text.trim() !== '' && kept.text !== draft.text;
  // What was opened has been run: it takes no place from a text that has not.
  return { draft, aside: isOther && !(asOpened && other) ? kept : other };
}

function isSame(one: DraftTexts, other: DraftTexts | null | undefined): boolean {
  return one.text === other?.text && one.lanesText === other.lanesText;
}

/** The session that runs, as a draft. */
export function draftOf({ id, state, lanesText, openedAtTimeOfDay }: DraftedRun): Draft {
  const { session, source } = state.plan;
  const from = `${session.title ?? 'Session'}, opened ${clockTime(openedAtTimeOfDay)}`;
  return { text: source.text, lanesText: lanesText ?? '', from, during: id, file: null };
}

export function keptDraft(key: 'draft' | 'aside' = 'draft', memory: Memory | null = ownStorage()): Draft | null {
  const kept = memory?.getItem(key === 'draft' ? DRAFT : ASIDE) ?? null;
  return kept === null
    ? null
    : (readDraft(kept) ?? { ...EMPTY, text: kept, lanesText: memory?.getItem(LANES_DRAFT) ?? '' });
}

export function keepDraft(draft: Draft, key: 'draft' | 'aside' = 'draft', memory: Memory | null = ownStorage()): void {
  try {
    memory?.setItem(key === 'draft' ? DRAFT : ASIDE, JSON.stringify(draft));
  } catch {
    // A full or forbidden store keeps no draft; the text on the screen is not touched by that.
  }
}

/** The run that a draft was changed beside has been opened anew, under another id. */
export function followReopened(before: string, after: string): void {
  const kept = keptDraft();
  if (kept?.during === before) keepDraft({ ...kept, during: after });
}

/** The name for a draft that comes from a file; null for by its title. */
export function newNameOf({ from }: Draft): string | null {
  return from === null ? null : (/^(.+)\.(?:txt|lanecall)$/i.exec(from)?.[1] ?? null);
}

export interface Writing extends Drafts {
  /** The draft as it came into the editor: another object for another text. */
  readonly begun: Draft;
  change(part: Partial<Draft>): void;
  /** Another draft in place of this one, which is set aside where it says something and is `kept`. */
  swap(other: Draft, kept?: boolean): void;
  /** A run was opened with these texts, by its id; what was typed since is kept as a change of them. */
  openedAs(run: string | null, opened: DraftTexts): void;
  /** What began so has a file now, or another version of it. */
  filed(begun: Draft, file: DraftFile): void;
  asideFiled(aside: Draft, file: DraftFile): void;
  /** The file of what began so is another since it was here last: it counts, and what was here is set aside. */
  outdated(begun: Draft, now: FileNow): void;
}

interface Held extends Drafts {
  readonly begun: Draft;
}

/** The draft of this screen beside a run, or beside none. */
export function useDraft(run: DraftedRun | null): Writing {
  const [drafts, setDrafts] = useState<Held>(() => {
    const first = firstDraft(run, keptDraft(), keptDraft('aside'));
    return { ...first, begun: first.draft };
  });
  // For what is called later than the render that it comes from.
  const latest = useRef(drafts);
  const keep = useCallback((next: Held): void => {
    latest.current = next;
    setDrafts(next);
    keepDraft(next.draft);
    if (next.aside) keepDraft(next.aside, 'aside');
  }, []);
  const filed = useCallback((begun: Draft, file: DraftFile): void => {
    const { current } = latest;
    if (current.begun !== begun) return;
    const draft = { ...current.draft, file };
    latest.current = { ...current, draft };
    setDrafts(latest.current);
    // Not where another text is kept meanwhile, after this page was left.
    if (keptDraft()?.text === draft.text) keepDraft(draft);
  }, []);
  const asideFiled = useCallback((aside: Draft, file: DraftFile): void => {
    const { current } = latest;
    if (current.aside !== aside) return;
    latest.current = { ...current, aside: { ...aside, file } };
    setDrafts(latest.current);
    keepDraft({ ...aside, file }, 'aside');
  }, []);
  const outdated = useCallback(
    (begun: Draft, now: FileNow): void => {
      const { draft, aside } = latest.current;
      const { file } = begun;
      if (latest.current.begun !== begun || !file) return;
      const own: Draft = { ...draft, file: null, from: `${file.name}, as it was here` };
      const other = now ? { ...draft, text: now.text, file: { name: file.name, version: now.version } } : own;
      keep({ draft: other, aside: now ? own : aside, begun: other });
    },
    [keep],
  );
  const beside = (draft: Draft): Draft => {
    const during = run?.id ?? null;
    return { ...draft, during, opened: draft.during === during ? (draft.opened ?? null) : null };
  };
  return {
    ...drafts,
    filed,
    asideFiled,
    outdated,
    change: (part) => keep({ ...latest.current, draft: { ...beside(latest.current.draft), ...part } }),
    swap(other, kept = true) {
      const { draft } = latest.current;
      const next = beside(other);
      const isSaid = kept && draft.text.trim() !== '' && draft.text !== other.text;
      keep({ draft: next, aside: isSaid ? draft : null, begun: next });
    },
    openedAs: (id, opened) => keepDraft({ ...latest.current.draft, during: id, opened }),
  };
}

/** null for what is no draft. */
function readDraft(kept: string): Draft | null {
  let value: unknown;
  try {
    value = JSON.parse(kept);
  } catch {
    return null;
  }
  if (typeof value !== 'object' || value === null) return null;
  const { text, lanesText, from, during, opened, file } = value as { [name: string]: unknown };
  if (typeof text !== 'string' || typeof lanesText !== 'string') return null;
  const orNull = (part: unknown): string | null => (typeof part === 'string' ? part : null);
  const own = file === null || isFile(file) ? { file } : {};
  const draft = { text, lanesText, from: orNull(from), during: orNull(during), ...own };
  return isTexts(opened) ? { ...draft, opened } : draft;
}

function isTexts(value: unknown): value is DraftTexts {
  if (typeof value !== 'object' || value === null) return false;
  const { text, lanesText } = value as { [name: string]: unknown };
  return typeof text === 'string' && typeof lanesText === 'string';
}

function isFile(value: unknown): value is DraftFile {
  if (typeof value !== 'object' || value === null) return false;
  const { name, version } = value as { [name: string]: unknown };
  return typeof name === 'string' && typeof version === 'string';
}
