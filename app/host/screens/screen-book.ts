/*
 * The wall screens by name: which are connected, how each is set, and what is remembered of those that are not. A
 * screen that the coach has renamed is known by its former names too, because its browser or its address may still
 * give one of them.
 */

import { freeName } from '../../core/screen/screen-name.ts';
import {
  changedSettings,
  FIRST_SETTINGS,
  isSameSettings,
  type ScreenChange,
  type ScreenSettings,
} from '../../core/screen/screen-settings.ts';
import type { KeptScreen, ScreenIntroduction, ScreenRoom, ScreenTold, ScreenWish } from '../../wire/screen-settings.ts';
import type { Timers } from '../time/timers.ts';
import { NewsPace } from './news-pace.ts';

/** What a connected screen is told. */
export interface OwnSettings {
  readonly name: string;
  readonly settings: ScreenSettings;
}

type Hear = (own: OwnSettings) => void;

/** A screen that has come in. */
export interface ConnectedScreen {
  room(room: ScreenRoom): void;
  leave(): void;
}

interface Connection {
  readonly search: string;
  readonly hear: Hear;
  readonly isOwnWindow: boolean;
  room: ScreenRoom;
}

interface Entry {
  name: string;
  settings: ScreenSettings;
  /** The latest last. */
  formerly: readonly string[];
  readonly connections: Set<Connection>;
}

/** So many that nobody has set or renamed are remembered: as many as can be connected at once. */
const MOST_UNTOUCHED = 32;

/** So many that somebody has. */
const MOST_SET = 100;

const MOST_FORMER_NAMES = 8;

/** Of a page from before screens introduced themselves. */
const UNKNOWN: ScreenIntroduction = { name: null, search: '', room: { width: 1920, height: 1080 } };

export class ScreenBook {
  /** By name; the one that came in last is the last. */
  private readonly entries = new Map<string, Entry>();
  private readonly listeners = new Set<() => void>();
  private readonly whichListeners = new Set<() => void>();
  private readonly pace: NewsPace;
  private list: readonly ScreenTold[] = [];
  private keep: (screens: readonly KeptScreen[]) => void = () => undefined;

  constructor(timers: Timers) {
    this.pace = new NewsPace(timers, () => {
      this.list = this.told();
      for (const listener of this.listeners) listener();
    });
  }

  /** Takes up what was kept, and hands over whatever is to be kept from now on. */
  keepWith(kept: readonly KeptScreen[], keep: (screens: readonly KeptScreen[]) => void): void {
    for (const { name, settings, formerly } of kept) {
      this.entries.set(name, { name, settings, formerly, connections: new Set() });
    }
    this.keep = keep;
    this.pace.news();
  }

  /** A wall screen has come in; it is told at once who it is, and again whenever that changes. */
  join({ name, known, search, room }: ScreenIntroduction = UNKNOWN, hear: Hear, isOwnWindow = false): ConnectedScreen {
    const entry = this.entryFor(name ?? this.nameFor(known ?? []));
    const connection: Connection = { search, hear, isOwnWindow, room };
    entry.connections.add(connection);
    hear({ name: entry.name, settings: entry.settings });
    this.pace.news();
    return {
      room: (next) => {
        connection.room = next;
        this.pace.news();
      },
      leave: () => {
        if (!entry.connections.delete(connection)) return;
        this.forgetUntouched();
        this.pace.news();
      },
    };
  }

  /** Does what the coach wants; gives a sentence where that cannot be. The same wish again changes nothing. */
  carryOut(name: string, wish: ScreenWish): string | null {
    const entry = this.find(name);
    if ('forget' in wish) return entry ? this.forget(entry) : null;
    if (!entry) return `There is no screen “${name}” any more.`;
    return 'rename' in wish ? this.rename(entry, wish.rename) : this.set(entry, wish.settings);
  }

  /** Every screen is to show its name. */
  which(): void {
    for (const listener of this.whichListeners) listener();
  }

  onWhich(listener: () => void): () => void {
    this.whichListeners.add(listener);
    return () => this.whichListeners.delete(listener);
  }

  /** Calls back when there is a new list, at most twice a second; the returned function stops that. */
  onNews(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** All screens by name, as last told; the same list until the next. */
  latest(): readonly ScreenTold[] {
    return this.list;
  }

  /** The first of the names that its browser knows and no connected screen has; else a new one. */
  private nameFor(known: readonly string[]): string {
    const isFree = (name: string): boolean => (this.find(name)?.connections.size ?? 0) === 0;
    return known.find(isFree) ?? freeName((each) => this.find(each) !== undefined);
  }

  private told(): readonly ScreenTold[] {
    const screens = Array.from(this.entries.values(), ({ name, settings, connections }) => ({
      name,
      settings,
      connected: Array.from(connections, ({ search, room }) => ({ search, room })),
      ...([...connections].some((each) => each.isOwnWindow) ? { isOwnWindow: true as const } : {}),
    }));
    return screens.sort((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true }));
  }

  private set(entry: Entry, change: ScreenChange): string | null {
    const settings = changedSettings(entry.settings, change);
    if (settings === entry.settings) return null;
    if (!isTouched(entry) && this.touched() >= MOST_SET) return TOO_MANY;
    entry.settings = settings;
    this.changed(entry);
    return null;
  }

  private rename(entry: Entry, name: string): string | null {
    if (name === entry.name) return null;
    if (this.entries.has(name)) return `There is a screen “${name}” already: choose another name.`;
    if (!isTouched(entry) && this.touched() >= MOST_SET) return TOO_MANY;
    for (const each of this.entries.values()) each.formerly = each.formerly.filter((former) => former !== name);
    this.entries.delete(entry.name);
    entry.formerly = [...entry.formerly, entry.name].slice(-MOST_FORMER_NAMES);
    entry.name = name;
    this.entries.set(name, entry);
    this.changed(entry);
    return null;
  }

  private forget(entry: Entry): string | null {
    if (entry.connections.size > 0) return `“${entry.name}” is connected: forget it once it is switched off.`;
    this.entries.delete(entry.name);
    this.kept();
    this.pace.news();
    return null;
  }

  private changed(entry: Entry): void {
    for (const { hear } of entry.connections) hear({ name: entry.name, settings: entry.settings });
    this.kept();
    this.pace.news();
  }

  private kept(): void {
    this.keep(Array.from(this.entries.values(), ({ name, settings, formerly }) => ({ name, settings, formerly })));
  }

  private find(name: string): Entry | undefined {
    return this.entries.get(name) ?? [...this.entries.values()].find(({ formerly }) => formerly.includes(name));
  }

  /** Moved to the end, as the one that came in last. */
  private entryFor(name: string): Entry {
    const known = this.find(name);
    const entry = known ?? { name, settings: FIRST_SETTINGS, formerly: [], connections: new Set() };
    this.entries.delete(entry.name);
    this.entries.set(entry.name, entry);
    this.forgetUntouched();
    if (!known) this.kept();
    return entry;
  }

  /** The oldest go: whoever can open a page could else fill the file with names. */
  private forgetUntouched(): void {
    const idle = [...this.entries.values()].filter((each) => !isTouched(each) && each.connections.size === 0);
    const gone = idle.slice(0, -MOST_UNTOUCHED);
    for (const { name } of gone) this.entries.delete(name);
    if (gone.length > 0) this.kept();
  }

  private touched(): number {
    return [...this.entries.values()].filter(isTouched).length;
  }
}

const TOO_MANY = 'A hundred screens are remembered: forget one of them first.';

function isTouched({ settings, formerly }: Entry): boolean {
  return formerly.length > 0 || !isSameSettings(settings, FIRST_SETTINGS);
}
