/*
 * What is known of all texts of a shelf, so that a list or a search needs no disk: only files that have changed are read
 * again. The system tells which; where it cannot, and now and then in any case, all of them are looked at.
 */

import type { LibraryEntry, ShelfKind } from '../../wire/library.ts';
import type { FileFacts } from '../journal/disk.ts';
import { pieceFacts, searchedText, searchedWords, sessionFacts, type SessionFacts } from './session-facts.ts';
import { ShelfRefusal, type Shelf } from './shelf.ts';

interface Known {
  readonly file: FileFacts;
  readonly facts: SessionFacts;
  readonly searched: string;
}

/** In ms: a folder on a shared disk may change without a word. */
const LOOK_EVERY = 5000;

/** How many files the system is asked about at once. */
const AT_ONCE = 32;

export class Catalogue {
  private readonly shelf: Shelf;
  private readonly kind: ShelfKind;
  private readonly wall: () => number;
  private known = new Map<string, Known>();
  private stale = true;
  /** Of files that may have changed since they were looked at. */
  private readonly doubtful = new Set<string>();
  /** Those since the last look at all files began, which may have missed the change. */
  private readonly sinceLook = new Set<string>();
  private lookedAt = -Infinity;
  private watching: Promise<boolean> | null = null;
  private looking: Promise<void> | null = null;
  private refreshing: Promise<void> = Promise.resolve();

  constructor(shelf: Shelf, kind: ShelfKind, wall: () => number) {
    this.shelf = shelf;
    this.kind = kind;
    this.wall = wall;
  }

  /** What fits, the last used first. `usedAt`: when one was last opened, by its name. */
  async find(find: string, usedAt: (name: string) => number): Promise<readonly LibraryEntry[]> {
    await this.refresh();
    const words = searchedWords(find);
    return [...this.known]
      .filter(([, { searched }]) => words.every((word) => searched.includes(word)))
      .map(([name, { facts, file }]) => ({ name, ...facts, usedAt: Math.max(file.writtenAt, usedAt(name)) }))
      .sort((a, b) => b.usedAt - a.usedAt || (a.name < b.name ? -1 : 1));
  }

  /** All files are looked at anew. */
  forget(): void {
    this.stale = true;
  }

  /** One at a time: what another has begun to look at is not known yet. */
  private refresh(): Promise<void> {
    const next = this.refreshing.then(() => this.lookAtChanged());
    this.refreshing = next.catch(() => undefined);
    return next;
  }

  private async lookAtChanged(): Promise<void> {
    this.watching ??= this.shelf
      .watch((name) => this.changed(name))
      .then(
        (watch) => watch !== null,
        () => false,
      );
    const isTold = await this.watching;
    if (!isTold || this.stale) return this.lookAtAll();
    // What the system has not told of may wait for the next list.
    if (Math.abs(this.wall() - this.lookedAt) >= LOOK_EVERY) void this.lookAtAll().catch(() => undefined);
    const names = [...this.doubtful];
    this.doubtful.clear();
    await this.lookAt(names, this.known);
  }

  private changed(name: string | null): void {
    if (name === null) this.stale = true;
    else for (const names of [this.doubtful, this.sinceLook]) names.add(name);
  }

  private lookAtAll(): Promise<void> {
    this.looking ??= this.readFolder().finally(() => (this.looking = null));
    return this.looking;
  }

  private async readFolder(): Promise<void> {
    this.stale = false;
    this.lookedAt = this.wall();
    this.sinceLook.clear();
    try {
      const known = new Map<string, Known>();
      await this.lookAt(await this.shelf.names(), known);
      this.known = known;
      for (const name of this.sinceLook) this.doubtful.add(name);
    } catch (error) {
      this.stale = true;
      throw error;
    }
  }

  private async lookAt(names: readonly string[], known: Map<string, Known>): Promise<void> {
    for (let from = 0; from < names.length; from += AT_ONCE) {
      const some = names.slice(from, from + AT_ONCE);
      const files = await Promise.all(some.map((name) => this.shelf.facts(name).catch(() => null)));
      for (const [index, file] of files.entries()) {
        const name = some[index]!;
        if (file) known.set(name, await this.knownOf(name, file));
        else known.delete(name);
      }
    }
  }

  private async knownOf(name: string, file: FileFacts): Promise<Known> {
    const before = this.known.get(name);
    const isSame =
      before?.file.changed === file.changed && before.file.length === file.length && before.file.id === file.id;
    if (before && isSame) return before;
    try {
      const text = (await this.shelf.read(name))?.text ?? '';
      const facts = this.kind === 'session' ? sessionFacts(text) : pieceFacts(text);
      return { file, facts, searched: searchedText(name, text, file.writtenAt) };
    } catch (error) {
      const note = error instanceof ShelfRefusal ? 'no plain text' : 'cannot be read';
      const facts = { title: null, day: null, figures: null, note };
      return { file, facts, searched: searchedText(name, '', file.writtenAt) };
    }
  }
}
