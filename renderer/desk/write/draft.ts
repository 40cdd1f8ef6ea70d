/*
 * The session that is being written, which this screen keeps until it is changed, with where it came from. Beside
 * a run what is shown first is what runs; what was being written otherwise is set aside and can be brought back.
 */

import { useRef, useState } from 'react';
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
}

export type DraftTexts = Pick<Draft, 'text' | 'lanesText'>;

type Memory = Pick<Storage, 'getItem' | 'setItem'>;

const DRAFT = 'lanecall.draft';
const ASIDE = 'lanecall.draft.aside';
/** Where lanes of a draft stood before drafts were kept whole. */
const LANES_DRAFT = 'lanecall.draft.lanes';

const EMPTY: Draft = { text: '', lanesText: '', from: null, during: null };

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
  return { text: source.text, lanesText: lanesText ?? '', from, during: id };
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

export interface Writing extends Drafts {
  change(part: Partial<Draft>): void;
  /** Another draft in place of this one, which is set aside where it says something. */
  swap(other: Draft): void;
  /** A run was opened with these texts, by its id; what was typed since is kept as a change of them. */
  openedAs(run: string | null, opened: DraftTexts): void;
}

/** The draft of this screen beside a run, or beside none. */
export function useDraft(run: DraftedRun | null): Writing {
  const [drafts, setDrafts] = useState(() => firstDraft(run, keptDraft(), keptDraft('aside')));
  // For what is called later than the render that it comes from.
  const latest = useRef(drafts);
  const keep = (next: Drafts): void => {
    latest.current = next;
    setDrafts(next);
    keepDraft(next.draft);
    if (next.aside) keepDraft(next.aside, 'aside');
  };
  const beside = (draft: Draft): Draft => {
    const during = run?.id ?? null;
    return { ...draft, during, opened: draft.during === during ? (draft.opened ?? null) : null };
  };
  return {
    ...drafts,
    change: (part) => keep({ ...drafts, draft: { ...beside(drafts.draft), ...part } }),
    swap(other) {
      const { draft } = drafts;
      keep({
        draft: beside(other),
        aside: draft.text.trim() === '' || draft.text === other.text ? null : draft,
      });
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
  const { text, lanesText, from, during, opened } = value as { [name: string]: unknown };
  if (typeof text !== 'string' || typeof lanesText !== 'string') return null;
  const orNull = (part: unknown): string | null => (typeof part === 'string' ? part : null);
  const draft = { text, lanesText, from: orNull(from), during: orNull(during) };
  return isTexts(opened) ? { ...draft, opened } : draft;
}

function isTexts(value: unknown): value is DraftTexts {
  if (typeof value !== 'object' || value === null) return false;
  const { text, lanesText } = value as { [name: string]: unknown };
  return typeof text === 'string' && typeof lanesText === 'string';
}
