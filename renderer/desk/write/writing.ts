/*
 * The sessions that this window has written since it was opened: the one in the editor, and those that it took the place
 * of, to which Undo may come back. Each has a number and saves itself. They outlive the page that shows them.
 */

import type { AskLibrary, LibraryText } from '../../link/requests/library.ts';
import type { KeptText } from '../editor/text-view.ts';
import type { OwnStorage } from '../../ui/coach/own-storage.ts';
import {
  EMPTY,
  firstDraft,
  keepDraft,
  keepUnsaved,
  keptDraft,
  keptUnsaved,
  type Draft,
  type DraftedRun,
  type DraftTexts,
} from './draft.ts';
import { EXAMPLE } from './example.ts';
import { SessionSaver, type Saving, type Timers } from './file/session-saver.ts';

export interface Written {
  /** Which session it is; another number is another one. */
  readonly sheet: number;
  /** How often its texts were put there by other means than typing. */
  readonly puts: number;
  readonly draft: Draft;
  readonly saving: Saving;
  /** What is to be said of it that the coach did not do; null for nothing. */
  readonly news: string | null;
}

export interface WritingPorts {
  readonly memory: OwnStorage | null;
  readonly ask: AskLibrary;
  readonly timers: Timers;
  readonly wall: () => number;
}

interface Sheet extends Written {
  readonly saver: SessionSaver;
}

const SAMPLE: Draft = { ...EMPTY, text: EXAMPLE };

/** In ms: longer than from key to key while one types, and short enough to be an answer. */
export const DRAWN_AFTER = 250;

/** In ms, however fast one types on. */
export const KEPT_AFTER = 300;

export class Writing {
  /** What the editor of the text can undo, while the page is not there. */
  readonly undos: { current: KeptText | null } = { current: null };
  private readonly ports: WritingPorts;
  private readonly sheets = new Map<number, Sheet>();
  private current: number;
  /** It is only looked at so far: what was written before stays the one that is kept. */
  private onlyShown: number | null = null;
  private readonly listeners = new Set<(isTyped: boolean) => void>();
  private inSight: Written;
  /** Of what was typed and is not drawn, or kept, yet. */
  private drawing: unknown = null;
  private keeping: unknown = null;

  constructor(ports: WritingPorts) {
    this.ports = ports;
    for (const draft of keptUnsaved(ports.memory)) this.begin(draft);
    const kept = writtenDraft(ports.memory);
    this.current = this.begin(kept ?? SAMPLE);
    this.inSight = this.state();
    if (!kept) void this.showLastUsed();
  }

  state = (): Written => this.sheets.get(this.current)!;

  /** As it is drawn: what is typed once typing has paused, so that no key waits for it, all else at once. */
  shown = (): Written => this.inSight;

  /** `isTyped`: it is only drawn anew what was typed, which can wait. */
  subscribe = (call: (isTyped: boolean) => void): (() => void) => {
    this.listeners.add(call);
    return () => this.listeners.delete(call);
  };

  /** What comes first beside a run, or beside none. */
  showBeside(run: DraftedRun | null): void {
    const { draft } = this.state();
    const first = firstDraft(run, draft);
    if (first === draft) return;
    this.turnTo(this.begin(first));
    this.onlyShown = this.current;
    this.inSight = this.state();
  }

  /** What was typed in the editor. `sheet`: another than the current one where an undo has brought that one back. */
  type(texts: Partial<DraftTexts>, run: string | null, sheet = this.current): void {
    const isOther = sheet !== this.current;
    this.take(texts, run, sheet);
    if (isOther) return this.tell();
    this.keeping ??= this.ports.timers.set(() => this.keep(), KEPT_AFTER);
    this.ports.timers.clear(this.drawing);
    this.drawing = this.ports.timers.set(() => this.tell(true), DRAWN_AFTER);
  }

  /** What was changed beside it. */
  write(texts: Partial<DraftTexts>, run: string | null): void {
    this.take(texts, run, this.current);
    this.set(this.current, {});
  }

  private take(texts: Partial<DraftTexts>, run: string | null, sheet: number): void {
    const before = this.sheets.get(sheet);
    if (!before) return;
    const { draft, saver } = before;
    const isOther = sheet !== this.current;
    if (isOther) this.turnTo(sheet);
    this.onlyShown = null;
    const opened = draft.during === run ? (draft.opened ?? null) : null;
    if (texts.text !== undefined) saver.write(texts.text);
    // Typed into, it is to go into the library, whatever becomes of this page.
    const { file, ...rest } = draft;
    const typed = file === null && texts.text !== undefined ? rest : draft;
    this.change(sheet, { draft: { ...typed, ...texts, during: run, opened }, news: isOther ? before.news : null });
  }

  /**
   * Where nothing is left of a session that has a file, that file stays as it is, and what is written is another session:
   * its number. Else null.
   */
  begins(before: string, after: string): number | null {
    const { draft, saving } = this.state();
    if (!saving.file || !leavesNothing(before, after)) return null;
    const sheet = this.begin({ ...EMPTY, lanesText: draft.lanesText });
    this.set(sheet, { news: `${saving.file.name} stays as it was. This is a new session.` });
    return sheet;
  }

  /** Another session in place of this one, which is saved to its end. */
  put(draft: Draft): void {
    this.onlyShown = null;
    this.turnTo(this.begin(draft));
    this.tell();
  }

  /** A session of the library. */
  open({ name, text, version }: LibraryText): void {
    const { lanesText } = this.state().draft;
    const known = [...this.sheets.values()].find(({ saving, saver }) => saving.file?.name === name && !saver.isUnsaved);
    if (!known) return this.put({ ...EMPTY, text, lanesText, file: { name, version, isSaved: true } });
    known.saver.reopen({ text, version });
    this.onlyShown = null;
    if (known.sheet !== this.current) this.turnTo(known.sheet);
    this.set(known.sheet, { draft: { ...this.sheets.get(known.sheet)!.draft, text }, news: null });
  }

  /** A run was opened with these texts, by its id; what was typed since is kept as a change of them. */
  openedAs(run: string | null, opened: DraftTexts): void {
    this.onlyShown = null;
    this.set(this.current, { draft: { ...this.state().draft, during: run, opened } });
  }

  /** The run that a draft was changed beside has been opened anew, under another id. */
  followReopened(before: string, after: string): void {
    for (const [sheet, { draft }] of this.sheets) {
      if (draft.during === before) this.set(sheet, { draft: { ...draft, during: after } });
    }
  }

  flush(): Promise<void> {
    if (this.drawing !== null) this.tell();
    return this.saver.flush();
  }

  look(): Promise<void> {
    return this.saver.look();
  }

  rename(to: string): Promise<string | null> {
    return this.saver.rename(to);
  }

  keepMine(): Promise<void> {
    return this.saver.keepMine();
  }

  keepBoth(): Promise<void> {
    return this.saver.keepBoth();
  }

  takeTheirs(): void {
    const { draft } = this.state();
    const text = this.saver.takeTheirs();
    if (text === null) this.put({ ...EMPTY, lanesText: draft.lanesText });
    else this.set(this.current, { draft: { ...this.state().draft, text } });
  }

  /** A file of the library has another name; null: it is in the bin. */
  moved(name: string, to: string | null): void {
    for (const { saver, saving } of this.sheets.values()) {
      if (saving.file?.name !== name) continue;
      if (to === null) saver.forget();
      else saver.renamed(to);
    }
  }

  /** All that was written is deleted: nothing of it is saved again, or kept in this window. */
  forgetAll(): void {
    for (const { saver } of this.sheets.values()) saver.forget();
    this.sheets.clear();
    this.undos.current = null;
    this.onlyShown = null;
    this.current = this.begin({ ...EMPTY });
    this.tell();
  }

  /** This browser has kept nothing, or lost it in a crash: what was used last comes before the sample. */
  private async showLastUsed(): Promise<void> {
    const { ask } = this.ports;
    const list = await ask<'list'>({ do: 'list', find: '', most: 1 });
    const last = list.ok ? list.sessions[0] : undefined;
    const read = last && (await ask<'read'>({ do: 'read', kind: 'session', name: last.name }));
    // Unless the coach has begun something meanwhile.
    if (read?.ok && this.state().draft === SAMPLE) this.open(read);
  }

  private get saver(): SessionSaver {
    return this.sheets.get(this.current)!.saver;
  }

  private turnTo(sheet: number): void {
    void this.saver.end();
    this.current = sheet;
  }

  private begin(draft: Draft): number {
    const sheet = this.sheets.size;
    const { ask, timers, wall } = this.ports;
    const saver = new SessionSaver(
      {
        ...{ ask, timers, wall },
        onSaving: (saving) => this.saved(sheet, saving),
        onNewer: (text) =>
          this.set(sheet, { draft: { ...this.sheets.get(sheet)!.draft, text }, news: newerNews(draft) }),
      },
      draft,
    );
    const saving = { file: draft.file ?? null, savedAt: null, refused: null, changed: null };
    this.sheets.set(sheet, { sheet, puts: 0, draft, saving, saver, news: null });
    // What is in its file is looked at, what is in none is saved.
    void (draft.file?.isSaved ? saver.look() : saver.flush());
    return sheet;
  }

  private saved(sheet: number, saving: Saving): void {
    const draft = this.sheets.get(sheet)?.draft;
    // What is deleted is heard of no more.
    if (!draft) return;
    // One that came from outside goes into the library as long as it is in no file.
    const isStillGiven = saving.file === null && draft.file === undefined;
    const { saving: before } = this.sheets.get(sheet)!;
    this.change(sheet, { saving, draft: isStillGiven ? draft : { ...draft, file: saving.file } });
    const isNews = saving.refused !== before.refused || saving.changed !== before.changed;
    // While somebody types, that it is saved is said with what is drawn next.
    if (isNews || this.drawing === null) this.tell();
  }

  private set(sheet: number, part: Partial<Pick<Written, 'draft' | 'saving' | 'news'>>): void {
    this.change(sheet, { ...part, puts: this.sheets.get(sheet)!.puts + 1 });
    this.tell();
  }

  private change(sheet: number, part: Partial<Omit<Written, 'sheet'>>): void {
    this.sheets.set(sheet, { ...this.sheets.get(sheet)!, ...part });
  }

  private tell(isTyped = false): void {
    this.ports.timers.clear(this.drawing);
    this.drawing = null;
    this.keep();
    this.inSight = this.state();
    for (const call of this.listeners) call(isTyped);
  }

  private keep(): void {
    const { memory, timers } = this.ports;
    timers.clear(this.keeping);
    this.keeping = null;
    if (this.current !== this.onlyShown) keepDraft(this.state().draft, memory);
    const others = [...this.sheets.values()].filter(({ sheet, saver }) => sheet !== this.current && saver.isUnsaved);
    keepUnsaved(
      others.map(({ draft }) => draft),
      memory,
    );
  }
}

/** What was kept of a session; null where that is nothing, or the sample that nobody has changed. */
function writtenDraft(memory: OwnStorage | null): Draft | null {
  const kept = keptDraft(memory);
  return kept?.text === EXAMPLE && kept.file === null && kept.lanesText === '' ? null : kept;
}

function newerNews({ file }: Draft): string {
  return `${file?.name ?? 'The session'} is shown as it was last saved. Undo brings back what stood here.`;
}

/** Of fewer lines nothing is kept: they may be a beginning that was thought better of. */
const LEAST_LINES = 3;

function leavesNothing(before: string, after: string): boolean {
  const lines = linesOf(before);
  const left = new Set(linesOf(after));
  return lines.length >= LEAST_LINES && !lines.some((line) => left.has(line));
}

function linesOf(text: string): readonly string[] {
  return text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
}
