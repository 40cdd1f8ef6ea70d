/*
 * What was discarded is kept for 30 days, in a folder a kind. The name of a file there begins with the time (UTC) at which
 * it came: `2026-11-27T093050.123Z Thursday masters.txt`.
 */

import { join } from 'node:path';
import type { BinEntry, ShelfKind } from '../../wire/library.ts';
import type { Disk } from '../journal/disk.ts';
import { shortened } from './session-name.ts';
import { Shelf } from './shelf.ts';

/** In ms. */
const KEPT_FOR = 30 * 24 * 60 * 60 * 1000;

const NAME = /^(\d{4}-\d\d-\d\dT)(\d\d)(\d\d)(\d\d\.\d{3}Z) ([^]+)$/;

const KINDS: readonly ShelfKind[] = ['session', 'piece'];

export class Bin {
  private readonly shelves: Readonly<Record<ShelfKind, Shelf>>;
  private readonly wall: () => number;

  constructor(disk: Disk, folder: string, wall: () => number) {
    this.shelves = {
      session: new Shelf(disk, join(folder, 'sessions')),
      piece: new Shelf(disk, join(folder, 'pieces')),
    };
    this.wall = wall;
  }

  /** The id by which it can be put back. */
  async take(kind: ShelfKind, name: string, from: Shelf): Promise<string> {
    const as = await this.placeFor(kind, name);
    await from.move(name, this.shelves[kind], as);
    return `${kind} ${as}`;
  }

  /** A text that is about to be written over. */
  async keep(kind: ShelfKind, name: string, text: string): Promise<void> {
    await this.shelves[kind].create(await this.placeFor(kind, name), text);
  }

  /** The latest first. Those whose time is over are gone. */
  async list(): Promise<readonly BinEntry[]> {
    const all = await Promise.all(KINDS.map((kind) => this.listKind(kind)));
    return all.flat().sort((a, b) => b.discardedAt - a.discardedAt);
  }

  /** What an id stands for; null where it is not there (any more). */
  async find(id: string): Promise<BinEntry | null> {
    return (await this.list()).find((each) => each.id === id) ?? null;
  }

  async putBack({ id, kind }: BinEntry, to: Shelf, as: string): Promise<void> {
    await this.shelves[kind].move(id.slice(kind.length + 1), to, as);
  }

  private async listKind(kind: ShelfKind): Promise<readonly BinEntry[]> {
    const shelf = this.shelves[kind];
    const kept: BinEntry[] = [];
    for (const file of await shelf.names()) {
      const [, date, hours, minutes, seconds, name] = NAME.exec(file) ?? [];
      const discardedAt = Date.parse(`${date}${hours}:${minutes}:${seconds}`);
      // Not from here, and so nothing to be taken away.
      if (name === undefined || Number.isNaN(discardedAt)) continue;
      if (this.wall() - discardedAt > KEPT_FOR) await shelf.remove(file);
      else kept.push({ id: `${kind} ${file}`, kind, name, discardedAt });
    }
    return kept;
  }

  private async placeFor(kind: ShelfKind, name: string): Promise<string> {
    const taken = new Set(await this.shelves[kind].names());
    for (let at = this.wall(); ; at++) {
      const [date, time] = new Date(at).toISOString().split('T');
      const place = `${date}T${time!.replaceAll(':', '')} ${shortened(name)}`;
      if (!taken.has(place)) return place;
    }
  }
}
