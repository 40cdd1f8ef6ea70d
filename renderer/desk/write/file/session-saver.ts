/*
 * Saves one session as it is typed: at most 0.4 s after the first letter that is not saved yet, one save at a time, and
 * again until the host has taken it. What another program has made of the file is never written over unasked.
 */

import type { AskLibrary, FileNow, LibraryAnswer } from '../../../link/requests/library.ts';
import type { Draft, DraftFile } from '../draft.ts';
import { newNameOf, titleOf, untitled } from './session-title.ts';
import { TEXT_LIMIT } from './text-limit.ts';

export interface Saving {
  readonly file: DraftFile | null;
  /** When it was saved last, in ms since 1970; null for not yet. */
  readonly savedAt: number | null;
  /** Why the last try was refused; null where it was not. It is tried again. */
  readonly refused: string | null;
  /** The file is another than the one this text goes on from: nothing is saved until the coach has said what to do. */
  readonly changed: { readonly now: FileNow } | null;
}

export interface Timers {
  set(call: () => void, ms: number): unknown;
  clear(timer: unknown): void;
}

export interface SaverPorts {
  readonly ask: AskLibrary;
  readonly timers: Timers;
  /** In ms since 1970. */
  readonly wall: () => number;
  onSaving(saving: Saving): void;
  /** At the first look the file was another, and nothing here is missing in it. */
  onNewer(text: string): void;
}

/** In ms: what is typed in it goes with one save. Together with a slow disk it is less than the second that is promised. */
export const SAVE_AFTER = 400;

/** In ms. */
export const TRY_AGAIN_AFTER = 1000;

/** In ms of no letter: a title is no name as long as it is being typed. */
export const NAME_AFTER = 2000;

const TOO_LONG =
  'It is not saved: a session can have 256 KiB of text at most. Make it shorter; what you typed stays here.';

export class SessionSaver {
  private readonly ports: SaverPorts;
  private text: string;
  private saving: Saving;
  /** What is in the file, as far as is known. */
  private saved: string | null;
  private wantedName: string | null;
  private isWanted: boolean;
  /** It came from outside: where the library has the same under its name, that is its file. */
  private readonly isGiven: boolean;
  /** Nothing has been heard of its file yet. */
  private isFirst: boolean;
  /** What was sent to be saved and not answered yet: the host may have written it all the same. */
  private sent: string | null = null;
  private namedAfter: string | null = null;
  private timer: unknown = null;
  private naming: unknown = null;
  private turn: Promise<unknown> = Promise.resolve();

  /** Nothing is asked of the host before the first call. */
  constructor(ports: SaverPorts, draft: Draft) {
    this.ports = ports;
    this.text = draft.text;
    const file = draft.file ?? null;
    this.saving = { file, savedAt: null, refused: null, changed: null };
    this.saved = file?.isSaved ? draft.text : null;
    this.isGiven = draft.file === undefined;
    this.isWanted = this.isGiven || file !== null;
    this.isFirst = file !== null;
    this.wantedName = newNameOf(draft);
  }

  /** Whether something is here that has no file yet. */
  get isUnsaved(): boolean {
    const isNothing = !this.saving.file && this.text.trim() === '';
    return this.isWanted && !isNothing && this.text !== this.saved;
  }

  write(text: string): void {
    if (text === this.text) return;
    this.text = text;
    this.isWanted = true;
    const { file } = this.saving;
    if (file?.isSaved) this.saving = { ...this.saving, file: { ...file, isSaved: false } };
    this.timer ??= this.ports.timers.set(() => void this.flush(), SAVE_AFTER);
    this.ports.timers.clear(this.naming);
    this.naming = this.ports.timers.set(() => void this.inTurn(() => this.nameByTitle()), NAME_AFTER);
  }

  /** Saves now what is not saved yet; resolves when that is answered. */
  flush(): Promise<void> {
    if (this.timer !== null) this.ports.timers.clear(this.timer);
    this.timer = null;
    return this.inTurn(() => this.save());
  }

  /** Another text takes its place: what is here and in no file gets one of its own. */
  end(): Promise<void> {
    return this.inTurn(async () => {
      await this.save();
      if (this.saving.changed) await this.saveApart();
      await this.nameByTitle();
    });
  }

  /** Looks whether the file was changed elsewhere; and, where nobody has named it, whether it has a title now. */
  look(): Promise<void> {
    return this.inTurn(async () => {
      const { file, changed } = this.saving;
      if (!file) return;
      if (!changed && this.text !== this.saved) return this.save();
      const version = changed?.now?.version ?? file.version;
      const answer = await this.ports.ask<'look'>({ do: 'look', kind: 'session', name: file.name, version });
      if (!answer.ok) return;
      if (!answer.same) return this.found(answer.now, this.sent);
      this.isFirst = false;
      if (!changed) await this.nameByTitle();
    });
  }

  /** Why it cannot have that name; null where it has it now. */
  rename(to: string): Promise<string | null> {
    return this.inTurn(async () => {
      await this.save();
      const { file } = this.saving;
      if (!file) {
        if (this.text.trim() === '') return 'Write something first: an empty session has no file to name.';
        this.wantedName = to;
        return this.saveNew();
      }
      const answer = await this.ports.ask<'rename'>({ do: 'rename', kind: 'session', name: file.name, to });
      if (!answer.ok) return answer.why;
      this.has({ name: answer.name, version: file.version, isSaved: file.isSaved });
      return null;
    });
  }

  /** The text here counts: it goes into the file, and what was there into the bin. */
  keepMine(): Promise<void> {
    return this.inTurn(() => this.save(true));
  }

  /** The text here goes into a file of its own. */
  keepBoth(): Promise<void> {
    return this.inTurn(() => this.saveApart());
  }

  /** What is in the file counts; its text. Null where it is gone. */
  takeTheirs(): string | null {
    const { file, changed } = this.saving;
    if (!file || !changed) return null;
    if (changed.now) this.takes(file, changed.now);
    else this.forget();
    return changed.now?.text ?? null;
  }

  /** Its file was read again. */
  reopen(now: NonNullable<FileNow>): void {
    const { file } = this.saving;
    if (file) this.takes(file, now);
  }

  /** Its file has another name now. */
  renamed(to: string): void {
    const { file } = this.saving;
    if (file) this.has({ ...file, name: to, followsTitle: false });
  }

  /** Its file is in the bin: it gets another where something is typed. */
  forget(): void {
    this.wantedName = this.saving.file?.name ?? null;
    this.isWanted = false;
    this.saved = null;
    this.tell({ file: null, changed: null, refused: null, savedAt: null });
  }

  private async save(over = false): Promise<void> {
    const { text } = this;
    const { file, changed } = this.saving;
    if (!this.isUnsaved || (changed && !over)) return;
    if (new TextEncoder().encode(text).length > TEXT_LIMIT) return this.tell({ refused: TOO_LONG });
    if (!file) return void (await this.saveNew());
    const { name, version } = file;
    const before = this.sent;
    this.sent = text;
    const answer = await this.ports.ask<'save'>({ do: 'save', kind: 'session', name, version, text, over });
    if (answer.ok) this.took(text, { ...file, version: answer.version });
    else if (answer.changed) await this.found(answer.changed.now, before);
    else this.refused(answer);
  }

  /** Why it could not; null where it could. */
  private async saveNew(): Promise<string | null> {
    const { text } = this;
    const chosen = this.wantedName;
    const name = chosen ?? untitled(this.ports.wall());
    const earlier = this.sent ?? (this.isGiven && chosen !== null ? text : null);
    const same = earlier === null ? null : await this.sameAs(name, earlier);
    this.sent = text;
    const answer = same ?? (await this.ports.ask<'create'>({ do: 'create', kind: 'session', name, text }));
    if (!answer.ok) {
      this.refused(answer);
      return answer.why;
    }
    const { name: given, version } = answer;
    this.took(same ? earlier! : text, { name: given, version, isSaved: true, followsTitle: chosen === null });
    await this.save();
    return null;
  }

  private async sameAs(name: string, text: string): Promise<LibraryAnswer<'create'> | null> {
    const answer = await this.ports.ask<'read'>({ do: 'read', kind: 'session', name });
    return answer.ok && answer.text === text ? answer : null;
  }

  private async saveApart(): Promise<void> {
    this.saved = null;
    this.wantedName = this.saving.file?.name ?? null;
    this.isWanted = true;
    this.tell({ file: null, changed: null });
    await this.save();
  }

  private took(text: string, file: DraftFile): void {
    this.saved = text;
    this.isFirst = false;
    this.sent = null;
    this.tell({
      file: { ...file, isSaved: this.text === text },
      savedAt: this.ports.wall(),
      refused: null,
      changed: null,
    });
  }

  private refused({ why }: { readonly why: string }): void {
    this.tell({ refused: why });
    this.timer ??= this.ports.timers.set(() => void this.flush(), TRY_AGAIN_AFTER);
  }

  private async nameByTitle(): Promise<void> {
    const { file, changed } = this.saving;
    const title = file?.followsTitle && !changed ? titleOf(this.text) : null;
    if (!file || title === null || title === this.namedAfter) return;
    this.namedAfter = title;
    const { name } = file;
    const answer = await this.ports.ask<'rename'>({ do: 'rename', kind: 'session', name, to: title, near: true });
    if (answer.ok && this.saving.file) this.has({ ...this.saving.file, name: answer.name });
  }

  /** The file is another than was known. `sent`: what this window has sent, and nobody has answered. */
  private async found(now: FileNow, sent: string | null): Promise<void> {
    const { file } = this.saving;
    if (!file) return;
    const isNews = this.isFirst;
    this.isFirst = false;
    if (now && now.text === this.text) return this.takes(file, now);
    if (now && isNews && (this.text === this.saved || hasAllOf(now.text, this.text))) {
      this.text = now.text;
      this.takes(file, now);
      return this.ports.onNewer(now.text);
    }
    if (now && (now.text === sent || (isNews && hasAllOf(this.text, now.text)))) {
      // What is there came from here, or stands here too: it is gone on from.
      this.saved = now.text;
      this.tell({ file: { ...file, version: now.version, isSaved: false }, changed: null });
      return this.save();
    }
    this.tell({ changed: { now }, refused: null });
  }

  private takes(file: DraftFile, { text, version }: NonNullable<FileNow>): void {
    this.text = this.saved = text;
    this.tell({ file: { ...file, version, isSaved: true }, changed: null, refused: null });
  }

  private has(file: DraftFile): void {
    this.tell({ file });
  }

  private tell(part: Partial<Saving>): void {
    this.saving = { ...this.saving, ...part };
    this.ports.onSaving(this.saving);
  }

  private inTurn<Value>(task: () => Promise<Value>): Promise<Value> {
    const result = this.turn.then(task);
    this.turn = result.catch(() => undefined);
    return result;
  }
}

/** Whether a text has all letters of another in their order: it goes on from that one, and nothing of it is lost. */
export function hasAllOf(text: string, other: string): boolean {
  let found = 0;
  for (let at = 0; at < text.length && found < other.length; at++) if (text[at] === other[found]) found++;
  return found === other.length;
}
