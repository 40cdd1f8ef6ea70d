/*
 * The library: sessions, and the parts and sets that are kept, as plain text files in the data folder. What changes
 * files is done one after the other; nothing is written over that is not as the asking window knew it.
 */

import { join } from 'node:path';
import type { LibraryAnswer, LibraryGiven, LibraryRequest, LibraryWish, ShelfKind } from '../../wire/library.ts';
import { codeOf, diskReason, type Disk } from '../journal/disk.ts';
import { Bin } from './bin.ts';
import { Catalogue } from './catalogue.ts';
import { LastUsed } from './last-used.ts';
import { freeName, nameFlaw, nameKey, nearestName, SUFFIX, tidied } from './session-name.ts';
import { Shelf, ShelfRefusal, type ShelfText } from './shelf.ts';

type Asked<Wish extends LibraryWish> = Extract<LibraryRequest, { do: Wish }>;

/** What a wish comes to; rejects with a refusal, or with the disk's error. */
type Grants = { readonly [Wish in LibraryWish]: (asked: Asked<Wish>) => Promise<LibraryGiven[Wish]> };

export interface LibraryPorts {
  readonly disk: Disk;
  /** The data folder. */
  readonly folder: string;
  /** The time of day, in ms since 1970. */
  readonly wall: () => number;
}

const FOLDERS: Readonly<Record<ShelfKind, string>> = { session: 'sessions', piece: 'pieces' };

export class Library {
  private readonly folder: string;
  private readonly wall: () => number;
  private readonly shelves: Readonly<Record<ShelfKind, Shelf>>;
  private readonly catalogues: Readonly<Record<ShelfKind, Catalogue>>;
  private readonly binned: Bin;
  private readonly lastUsed: LastUsed;
  private turn: Promise<unknown> = Promise.resolve();

  constructor({ disk, folder, wall }: LibraryPorts) {
    this.folder = folder;
    this.wall = wall;
    const shelf = (kind: ShelfKind): Shelf => new Shelf(disk, join(folder, FOLDERS[kind]));
    this.shelves = { session: shelf('session'), piece: shelf('piece') };
    this.catalogues = {
      session: new Catalogue(this.shelves.session, 'session', wall),
      piece: new Catalogue(this.shelves.piece, 'piece', wall),
    };
    this.binned = new Bin(disk, join(folder, 'bin'), wall);
    this.lastUsed = new LastUsed(disk, join(folder, 'library.json'));
  }

  /** Never rejects: what is refused, by the disk too, is answered with a sentence. */
  async ask<Wish extends LibraryWish>(asked: Asked<Wish>): Promise<LibraryAnswer<Wish>> {
    const grant = this.grants[asked.do] as (asked: Asked<Wish>) => Promise<LibraryGiven[Wish]>;
    try {
      const given = READING.has(asked.do) ? await grant(asked) : await this.inTurn(() => grant(asked));
      return { ok: true, ...given };
    } catch (error) {
      return refusalOf(error, asked, this.folder);
    }
  }

  /** Carries out what changes its files from elsewhere: nothing is written meanwhile, and all is read anew afterwards. */
  still<Value>(task: () => Promise<Value>): Promise<Value> {
    return this.inTurn(async () => {
      try {
        return await task();
      } finally {
        this.lastUsed.forget();
        for (const catalogue of Object.values(this.catalogues)) catalogue.forget();
      }
    });
  }

  private readonly grants: Grants = {
    list: async ({ find, most }) => {
      const times = await this.lastUsed.all();
      const sessions = await this.catalogues.session.find(find, (name) => times.get(name) ?? 0);
      const pieces = await this.catalogues.piece.find(find, () => 0);
      return {
        sessions: sessions.slice(0, most),
        pieces: pieces.slice(0, most),
        more: Math.max(0, sessions.length - most),
      };
    },

    read: async ({ kind, name }) => {
      const found = await this.shelves[kind].read(name);
      if (!found) throw new ShelfRefusal(`${name}${SUFFIX} is not there any more: it was moved or renamed elsewhere.`);
      if (kind === 'session') await this.lastUsed.used(name, this.wall(), await this.shelves.session.names());
      return { name, ...found };
    },

    look: async ({ kind, name, version }) => {
      const now = await this.shelves[kind].read(name);
      return now?.version === version ? { same: true } : { same: false, now };
    },

    create: async ({ kind, name, text }) => {
      const own = nearestName(name);
      const taken = await this.keysOf(kind);
      for (;;) {
        const free = freeName(own, taken);
        try {
          return { name: free, version: await this.shelves[kind].create(free, text) };
        } catch (error) {
          // Another program was quicker.
          if (codeOf(error) !== 'EEXIST') throw error;
          taken.add(nameKey(free));
        }
      }
    },

    save: async ({ kind, name, text, version, over }) => {
      const shelf = this.shelves[kind];
      try {
        return { name, version: await shelf.replace(name, text, version) };
      } catch (error) {
        if (!over || !(error instanceof ShelfRefusal) || !error.changed) throw error;
        return { name, version: await this.saveOver(kind, name, text, error.changed.now) };
      }
    },

    rename: async ({ kind, name, to, near }) => {
      const shelf = this.shelves[kind];
      const found = await shelf.read(name);
      if (!found) throw new ShelfRefusal(`${name}${SUFFIX} is not there any more: it was moved or renamed elsewhere.`);
      // Its own name may be written in other letters.
      const taken = await this.keysOf(kind, name);
      const own = near ? nearestName(to) : tidied(to);
      const wanted = near && own !== name ? freeName(own, taken) : own;
      if (wanted === name) return { name, version: found.version };
      const flaw = nameFlaw(wanted);
      if (flaw !== null) throw new ShelfRefusal(flaw);
      if (taken.has(nameKey(wanted))) {
        throw new ShelfRefusal(`There is one called ${wanted} already: choose another name, or rename that one first.`);
      }
      await shelf.move(name, shelf, wanted);
      if (kind === 'session') await this.lastUsed.renamed(name, wanted);
      return { name: wanted, version: found.version };
    },

    discard: async ({ kind, name }) => ({ id: await this.binned.take(kind, name, this.shelves[kind]) }),

    bin: async () => ({ binned: await this.binned.list() }),

    'put-back': async ({ id }) => {
      const found = await this.binned.find(id);
      if (!found) throw new ShelfRefusal('That is not in the bin any more.');
      const { kind } = found;
      const name = freeName(found.name, await this.keysOf(kind));
      await this.binned.putBack(found, this.shelves[kind], name);
      return { kind, name };
    },
  };

  private async saveOver(kind: ShelfKind, name: string, text: string, now: ShelfText | null): Promise<string> {
    const shelf = this.shelves[kind];
    if (!now) return shelf.create(name, text);
    await this.binned.keep(kind, name, now.text);
    return shelf.replace(name, text, now.version);
  }

  /** Of all names but one: only that file's, since others may differ from it in capitals alone. */
  private async keysOf(kind: ShelfKind, besides?: string): Promise<Set<string>> {
    const names = await this.shelves[kind].names();
    return new Set(names.filter((name) => name !== besides).map(nameKey));
  }

  private inTurn<Value>(task: () => Promise<Value>): Promise<Value> {
    const result = this.turn.then(task);
    this.turn = result.catch(() => undefined);
    return result;
  }
}

/** What changes no session. */
const READING: ReadonlySet<LibraryWish> = new Set(['list', 'look']);

function refusalOf(
  error: unknown,
  asked: LibraryRequest,
  folder: string,
): Extract<LibraryAnswer<'look'>, { ok: false }> {
  if (error instanceof ShelfRefusal) {
    const { message: why, changed } = error;
    return changed ? { ok: false, why, changed } : { ok: false, why };
  }
  const what = 'name' in asked ? `${asked.name}${SUFFIX}` : 'The library';
  const reason = diskReason(error);
  return WRITING.has(asked.do)
    ? {
        ok: false,
        why: `${what} is not saved (${reason}): see to the folder ${folder}. What you typed is kept in this window.`,
      }
    : { ok: false, why: `${what} cannot be reached (${reason}): see to the folder ${folder}.` };
}

const WRITING: ReadonlySet<LibraryWish> = new Set(['create', 'save']);
