/*
 * The session that is being written, and what this screen keeps of it: a copy, letter by letter, of what stands in the
 * editor, and of what the library has not taken yet. Beside a run what is shown first is what runs.
 */

import type { DeckRun } from '../../link/store.ts';
import { ownStorage, type OwnStorage } from '../../ui/coach/own-storage.ts';
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
   * Its file in the library; null where it gets one as soon as something is typed, as for what runs. Without this it goes
   * into the library as it is: it came from outside, or was kept before there was one.
   */
  readonly file?: DraftFile | null;
}

/** A file in the library, as this window knows it. */
export interface DraftFile {
  readonly name: string;
  readonly version: string;
  /** Whether the text here is what is in it. */
  readonly isSaved: boolean;
  /** Nobody has chosen its name: it follows the title. */
  readonly followsTitle?: boolean;
}

export type DraftTexts = Pick<Draft, 'text' | 'lanesText'>;

const DRAFT = 'lanecall.draft';
const UNSAVED = 'lanecall.drafts.unsaved';
/** Where an earlier version kept a text that had given way to what runs, and lanes before drafts were kept whole. */
const ASIDE = 'lanecall.draft.aside';
const LANES_DRAFT = 'lanecall.draft.lanes';

export const EMPTY: Draft = { text: '', lanesText: '', from: null, during: null, file: null };

/** What a run was opened with, and now is by its text. */
export type DraftedRun = Pick<DeckRun, 'id' | 'state' | 'lanesText' | 'openedAtTimeOfDay'>;

/** What is shown first: a draft that was changed while this run was open goes on; else it is what runs. */
export function firstDraft(run: DraftedRun | null, kept: Draft): Draft {
  if (run === null) return kept;
  const draft = draftOf(run);
  // Opening keeps the draft as well, which is then no change to it.
  const asOpened = kept.during === run.id && isSame(kept, kept.opened);
  return kept.during === run.id && (!asOpened || isSame(kept, draft)) ? kept : draft;
}

export function isSame(one: DraftTexts, other: DraftTexts | null | undefined): boolean {
  return one.text === other?.text && one.lanesText === other.lanesText;
}

/** The session that runs, as a draft. */
export function draftOf({ id, state, lanesText, openedAtTimeOfDay }: DraftedRun): Draft {
  const { session, source } = state.plan;
  const from = `${session.title ?? 'Session'}, opened ${clockTime(openedAtTimeOfDay)}`;
  return { text: source.text, lanesText: lanesText ?? '', from, during: id, file: null };
}

/** null where nothing has been kept yet. */
export function keptDraft(memory: OwnStorage | null = ownStorage()): Draft | null {
  const kept = memory?.getItem(DRAFT) ?? null;
  if (kept === null) return null;
  const draft = readDraft(kept);
  if (draft) return draft;
  const { text, from, during } = { ...EMPTY, text: kept };
  return { text, lanesText: memory?.getItem(LANES_DRAFT) ?? '', from, during };
}

/** Texts that are no longer in the editor and not yet in the library. */
export function keptUnsaved(memory: OwnStorage | null = ownStorage()): readonly Draft[] {
  const aside = readDraft(memory?.getItem(ASIDE) ?? '');
  const list = parsed(memory?.getItem(UNSAVED) ?? '');
  const drafts = Array.isArray(list) ? list.map(draftIn).filter((each) => each !== null) : [];
  return aside && aside.text.trim() !== '' ? [...drafts, aside] : drafts;
}

export function keepDraft(draft: Draft, memory: OwnStorage | null = ownStorage()): void {
  keep(memory, DRAFT, JSON.stringify(draft));
}

export function keepUnsaved(drafts: readonly Draft[], memory: OwnStorage | null = ownStorage()): void {
  keep(memory, UNSAVED, JSON.stringify(drafts));
  if (memory?.getItem(ASIDE)) keep(memory, ASIDE, '');
}

function keep(memory: OwnStorage | null, key: string, value: string): void {
  try {
    memory?.setItem(key, value);
  } catch {
    // A full or forbidden store keeps no draft; the text on the screen and its file are not touched by that.
  }
}

/** null for what is no draft. */
function readDraft(kept: string): Draft | null {
  return draftIn(parsed(kept));
}

function parsed(kept: string): unknown {
  try {
    return JSON.parse(kept);
  } catch {
    return null;
  }
}

function draftIn(value: unknown): Draft | null {
  if (!isTexts(value)) return null;
  const { text, lanesText, from, during, opened, file } = value as DraftTexts & { readonly [name: string]: unknown };
  const orNull = (part: unknown): string | null => (typeof part === 'string' ? part : null);
  return {
    ...{ text, lanesText, from: orNull(from), during: orNull(during) },
    ...(isTexts(opened) ? { opened } : {}),
    ...(file === null || isFile(file) ? { file } : {}),
  };
}

function isTexts(value: unknown): value is DraftTexts {
  if (typeof value !== 'object' || value === null) return false;
  const { text, lanesText } = value as { [name: string]: unknown };
  return typeof text === 'string' && typeof lanesText === 'string';
}

function isFile(value: unknown): value is DraftFile {
  if (typeof value !== 'object' || value === null) return false;
  const { name, version, isSaved } = value as { [name: string]: unknown };
  return typeof name === 'string' && typeof version === 'string' && typeof isSaved === 'boolean';
}
