/*
 * The devices that have been let in and not thrown out, by their keys. A wall's is valid until it is thrown out, on
 * other evenings too, and only its hash is known here. The others are valid until sharing ends, 12 hours at most.
 */

import { createHash } from 'node:crypto';
import { keptName } from '../../../core/words/kept-name.ts';
import type { KeyGiven, Role } from '../../../wire/sharing/joining.ts';
import type { KeptKey, KeptWall } from '../../../wire/sharing/let-in.ts';
import type { Clock } from '../../time/clock.ts';
import type { Timer, Timers } from '../../time/timers.ts';
import { randomHex, type Chance } from '../chance.ts';
import type { LetIn, Voided } from '../doors/door.ts';

/** What is kept of all devices. */
export interface KeptDevices {
  readonly walls: readonly KeptWall[];
  readonly keys: readonly KeptKey[];
}

export interface DevicesPorts {
  readonly clock: Clock;
  readonly timers: Timers;
  readonly chance: Chance;
}

interface Device extends LetIn {
  name: string;
  /** The key, or the hash of a wall's; in hexadecimal digits. */
  readonly secret: string;
  /** When it was last connected, in ms since 1970. */
  seen: number;
  /** Host time at which its key is no longer valid; never for a wall's. */
  readonly until: number;
  connections: number;
}

/** In ms: how long a key lasts that is no wall's. */
const LASTS = 12 * 3_600_000;

/** So many can be connected at once. With more, the key goes that was not used for longest. */
const MOST: Readonly<Record<Role, number>> = { wall: 256, remote: 32, tablet: 8, coach: 8 };

const FIRST_NAMES: Readonly<Record<Role, string>> = {
  wall: 'Wall',
  remote: 'Remote',
  tablet: 'Tablet',
  coach: 'Coach’s window',
};

const LONGEST_NAME = 40;

/** In ms: when a device was last connected is kept no more exactly than that, so that coming and going writes little. */
const SEEN_TO_WITHIN = 3_600_000;

export class Devices {
  private readonly ports: DevicesPorts;
  private readonly byId = new Map<string, Device>();
  private readonly changed: () => void;
  private readonly voiding = new Set<(device: string, how: Voided) => void>();
  private keep: (kept: KeptDevices) => Promise<string | null> = () => Promise.resolve(null);
  private expiry: Timer | null = null;

  /** `changed`: a device has come or gone, or has another name. */
  constructor(ports: DevicesPorts, changed: () => void) {
    this.ports = ports;
    this.changed = changed;
    // Timers stand still while the machine sleeps.
    ports.clock.onJump(() => {
      if ([...this.byId.values()].some((device) => this.isLate(device))) this.expire();
    });
  }

  /** Takes up what was kept, and hands over whatever is to be kept from now on. */
  keepWith({ walls, keys }: KeptDevices, keep: (kept: KeptDevices) => Promise<string | null>): void {
    const { clock } = this.ports;
    const now = clock.now();
    const { epochMs } = clock.wall();
    const old = { since: null, connections: 0 };
    for (const { hash, ...wall } of walls) {
      this.byId.set(wall.id, { ...wall, ...old, role: 'wall', secret: hash, until: Infinity });
    }
    for (const { key, until, ...device } of keys) {
      // A clock that was set must not make a key last longer.
      const left = Math.min(until - epochMs, LASTS);
      if (left > 0) this.byId.set(device.id, { ...device, ...old, secret: key, until: now + left });
    }
    this.keep = keep;
    this.awaitExpiry();
  }

  /** A new device with a new key, which it alone gets; null where all places are taken by devices that are connected. */
  letIn(role: Role): KeyGiven | null {
    const { clock, chance } = this.ports;
    if (!this.makeRoom(role)) return null;
    const id = randomHex(chance, 8);
    const key = randomHex(chance, 32);
    const name = this.freeName(FIRST_NAMES[role]);
    const now = clock.now();
    this.byId.set(id, {
      id,
      role,
      name,
      since: now,
      secret: role === 'wall' ? hashOf(key) : key,
      seen: clock.wall().epochMs,
      until: role === 'wall' ? Infinity : now + LASTS,
      connections: 0,
    });
    void this.write();
    return { id, key, role, name };
  }

  /** The wall that was given this key. */
  wallWith(key: string): LetIn | null {
    const hash = hashOf(key);
    return [...this.byId.values()].find(({ role, secret }) => role === 'wall' && secret === hash) ?? null;
  }

  /** A device that is no wall, with its key. */
  withId(id: string): { readonly device: LetIn; readonly key: string } | null {
    const device = this.byId.get(id);
    return device && device.role !== 'wall' && !this.isLate(device) ? { device, key: device.secret } : null;
  }

  /** To be called when a device has come in; the returned function when its connection has ended. */
  came(id: string): () => void {
    const device = this.byId.get(id)!;
    device.connections++;
    this.saw(device);
    return () => {
      device.connections--;
      this.saw(device);
    };
  }

  all(): readonly LetIn[] {
    return Array.from(this.byId.values(), ({ id, role, name, since }) => ({ id, role, name, since }));
  }

  /** Resolves when it is on the disk that its key is void, or with a sentence where that cannot be. */
  throwOut(id: string): Promise<string | null> {
    if (!this.byId.delete(id)) return Promise.resolve(NOT_THERE);
    const kept = this.write();
    this.voided(id, 'thrown out');
    return kept;
  }

  rename(id: string, wanted: string): string | null {
    const device = this.byId.get(id);
    if (!device) return NOT_THERE;
    const name = keptName(wanted, LONGEST_NAME);
    if (name === null) return `A name has 1 to ${LONGEST_NAME} letters.`;
    if (name === device.name) return null;
    if (this.isTaken(name)) return `There is a device “${name}” already: choose another name.`;
    device.name = name;
    void this.write();
    return null;
  }

  /** What a wall screen is called: the coach names it under the screens, and two of one name may be connected. */
  isCalled(id: string, name: string): void {
    const device = this.byId.get(id);
    if (!device || device.name === name) return;
    device.name = name;
    void this.write();
  }

  /** Sharing has ended: every key is void but those of walls. Resolves when that is on the disk. */
  end(): Promise<string | null> {
    return this.void((device) => device.role !== 'wall', 'ended');
  }

  /** Calls back with a device whose key is no longer valid: its connections must end. */
  onVoided(listener: (device: string, how: Voided) => void): () => void {
    this.voiding.add(listener);
    return () => this.voiding.delete(listener);
  }

  private void(isMeant: (device: Device) => boolean, how: Voided): Promise<string | null> {
    const gone = [...this.byId.values()].filter(isMeant);
    for (const { id } of gone) this.byId.delete(id);
    const kept = this.write();
    for (const { id } of gone) this.voided(id, how);
    return kept;
  }

  private voided(id: string, how: Voided): void {
    for (const listener of this.voiding) listener(id, how);
  }

  private write(): Promise<string | null> {
    const kept = this.keep(this.kept());
    this.awaitExpiry();
    this.changed();
    return kept;
  }

  private kept(): KeptDevices {
    const { clock } = this.ports;
    const toEpoch = clock.wall().epochMs - clock.now();
    const walls: KeptWall[] = [];
    const keys: KeptKey[] = [];
    for (const { id, role, name, secret, seen, until } of this.byId.values()) {
      if (role === 'wall') walls.push({ id, name, hash: secret, seen });
      else keys.push({ id, role, name, key: secret, seen, until: Math.round(until + toEpoch) });
    }
    return { walls, keys };
  }

  private saw(device: Device): void {
    const { epochMs } = this.ports.clock.wall();
    if (Math.abs(epochMs - device.seen) < SEEN_TO_WITHIN) return;
    device.seen = epochMs;
    void this.keep(this.kept());
  }

  private makeRoom(role: Role): boolean {
    const others = [...this.byId.values()].filter((device) => device.role === role);
    if (others.length < MOST[role]) return true;
    const [oldest] = others.filter(({ connections }) => connections === 0).sort((a, b) => a.seen - b.seen);
    return oldest !== undefined && this.byId.delete(oldest.id);
  }

  private freeName(first: string): string {
    for (let n = 1; ; n++) {
      const name = `${first} ${n}`;
      if (!this.isTaken(name)) return name;
    }
  }

  private isTaken(name: string): boolean {
    return [...this.byId.values()].some((device) => device.name === name);
  }

  private awaitExpiry(): void {
    const { clock, timers } = this.ports;
    if (this.expiry) timers.clear(this.expiry);
    this.expiry = null;
    const next = Math.min(...Array.from(this.byId.values(), ({ until }) => until));
    if (next === Infinity) return;
    this.expiry = timers.set(() => this.expire(), next - clock.now());
  }

  private expire(): void {
    void this.void((device) => this.isLate(device), 'expired');
  }

  private isLate({ until }: Device): boolean {
    return until <= this.ports.clock.now();
  }
}

const NOT_THERE = 'This device has been thrown out already.';

function hashOf(key: string): string {
  return createHash('sha256').update(key).digest('hex');
}
