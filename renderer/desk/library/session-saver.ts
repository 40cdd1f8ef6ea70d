/*
 * Saves one session as it is typed: at most half a second after the first letter that is not saved yet, one save at a
 * time, and again until the host has taken it. Whoever leaves the session ends it; what is not saved then is saved all
 * the same.
 */

import type { AskLibrary, FileNow } from '../../link/library.ts';
import { newNameOf, type Draft, type DraftFile } from '../write/draft.ts';

export interface Saving {
  readonly file: DraftFile | null;
  /** When it was saved last, in ms since 1970; null for not yet. */
  readonly savedAt: number | null;
  /** Why the last try was refused; null where it was not. It is tried again. */
  readonly refused: string | null;
  /** The file is another than the one this text goes on from; nothing is saved until the coach has said what to do. */
  readonly changed: { readonly now: FileNow } | null;
}

export interface SaverPorts {
  readonly ask: AskLibrary;
  readonly timers: { set(call: () => void, ms: number): unknown; clear(timer: unknown): void };
  readonly wall: () => number;
  /** The name for a text: what it is called, or null for none yet. */
  readonly nameOf: (text: string) => string | null;
  /** It has a file now, or another version of it. */
  onFile(file: DraftFile): void;
  /** At the first look its file was another: nothing has been typed here since then. */
  onOutdated(now: FileNow): void;
}

/** In ms: what is typed in it goes with one save. Together with a slow disk it is less than the second that is promised. */
const SAVE_AFTER = 400;

/** In ms. */
const TRY_AGAIN_AFTER = 1000;

export const NAMELESS = 'New session';

export class SessionSaver {
  private readonly ports: SaverPorts;
  private text: string;
  private saving: Saving;
  /** What is in the file, as far as is known. */
  private saved: string | null = null;
  private wantedName: string | null;
  private isWanted: boolean;
  private isFirst: boolean;
  private timer: unknown = null;
  private turn: Promise<unknown> = Promise.resolve();
  private readonly listeners = new Set<() => void>();

  /** Nothing is asked of the host before the first flush or the first letter. */
  constructor(ports: SaverPorts, draft: Draft) {
    this.ports = ports;
    this.text = draft.text;
    const file = draft.file ?? null;
    this.saving = { file, savedAt: null, refused: null, changed: null };
    this.isWanted = draft.file !== null;
    this.isFirst = file !== null;
    this.wantedName = newNameOf(draft);
  }

  state = (): Saving => this.saving;

  subscribe = (call: () => void): (() => void) => {
    this.listeners.add(call);
    return () => this.listeners.delete(call);
  };

  write(text: string): void {
    if (text === this.text) return;
    this.text = text;
    this.isWanted = true;
    if (this.timer === null) this.timer = this.ports.timers.set(() => void this.flush(), SAVE_AFTER);
  }

  /** Saves now what is not saved yet; resolves when that is answered. */
  flush(): Promise<void> {
    this.ports.timers.clear(this.timer);
    this.timer = null;
    return this.inTurn(() => this.save());
  }

  /** Why it cannot have that name; null where it has it now. */
  rename(to: string): Promise<string | null> {
    return this.inTurn(async () => {
      const { file } = this.saving;
      if (!file) {
        this.wantedName = to;
        await this.save();
        return null;
      }
      const answer = await this.ports.ask<'rename'>({ do: 'rename', kind: 'session', name: file.name, to });
      if (!answer.ok) return answer.why;
      this.has({ name: answer.name, version: answer.version });
      return null;
    });
  }

  /** Looks whether another program, or another window, has changed the file. */
  look(): Promise<void> {
    return this.inTurn(async () => {
      const { file, changed } = this.saving;
      if (!file || changed || this.saved === null) return;
      const answer = await this.ports.ask<'look'>({ do: 'look', kind: 'session', ...placeOf(file) });
      if (answer.ok && !answer.same) this.found(answer.now);
    });
  }

  /** The text here counts: it goes into the file, and what was there into the bin. */
  keepMine(): Promise<void> {
    return this.inTurn(async () => {
      if (this.saving.changed) await this.save(true);
    });
  }

  /** The text here goes into a file of its own. */
  keepBoth(): Promise<void> {
    return this.inTurn(async () => {
      const { file } = this.saving;
      this.saved = null;
      this.wantedName = file?.name ?? null;
      this.tell({ file: null, changed: null });
      await this.save();
    });
  }

  private async save(over = false): Promise<void> {
    const { text } = this;
    const { file, changed } = this.saving;
    if (!this.isWanted || (changed && !over) || text === this.saved || (!file && text.trim() === '')) return;
    const answer = file
      ? await this.ports.ask<'save'>({ do: 'save', kind: 'session', ...placeOf(file), text, over })
      : await this.ports.ask<'create'>({ do: 'create', kind: 'session', name: this.newName(text), text });
    const isFirst = this.isFirst;
    this.isFirst = false;
    if (answer.ok) {
      this.saved = text;
      this.tell({ savedAt: this.ports.wall(), refused: null, changed: null });
      const { name, version } = answer;
      this.has(file ? { ...file, name, version } : { name, version, isNameless: this.wantedName === null });
      return this.nameByTitle(text);
    }
    if (answer.changed) return isFirst ? this.outdated(answer.changed.now) : this.found(answer.changed.now);
    this.tell({ refused: answer.why });
    if (this.timer === null) this.timer = this.ports.timers.set(() => void this.flush(), TRY_AGAIN_AFTER);
  }

  private newName(text: string): string {
    return this.wantedName ?? this.ports.nameOf(text) ?? NAMELESS;
  }

  /** A session that nobody has named is called as its title says, from when that can be read on. */
  private async nameByTitle(text: string): Promise<void> {
    const { file } = this.saving;
    const name = file?.isNameless ? this.ports.nameOf(text) : null;
    if (!file || name === null) return;
    if (name === file.name) return this.has({ name, version: file.version });
    const answer = await this.ports.ask<'rename'>({
      do: 'rename',
      kind: 'session',
      name: file.name,
      to: name,
      near: true,
    });
    if (answer.ok) this.has({ name: answer.name, version: answer.version });
  }

  private outdated(now: FileNow): void {
    if (now?.text === this.text) return this.found(now);
    this.ports.onOutdated(now);
  }

  private found(now: FileNow): void {
    const { file } = this.saving;
    if (!file) return;
    if (now?.text !== this.text) return this.tell({ changed: { now } });
    this.saved = this.text;
    this.has({ ...file, version: now.version });
  }

  private has(file: DraftFile): void {
    this.tell({ file });
    this.ports.onFile(file);
  }

  private tell(part: Partial<Saving>): void {
    this.saving = { ...this.saving, ...part };
    for (const call of this.listeners) call();
  }

  private inTurn<Value>(task: () => Promise<Value>): Promise<Value> {
    const result = this.turn.then(task);
    this.turn = result.catch(() => undefined);
    return result;
  }
}

function placeOf({ name, version }: DraftFile): { readonly name: string; readonly version: string } {
  return { name, version };
}
