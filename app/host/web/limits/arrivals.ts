/*
 * How many connections each address may open: so many at once, then so many a second. Of an address that opens more,
 * some wait for their turn, before Node makes anything of them, and the rest are reset. One that breaks a limit costs
 * its address more, so an attack soon costs the host next to nothing.
 */

import type { Clock } from '../../time/clock.ts';
import type { Timer, Timers } from '../../time/timers.ts';
import { Doorstep } from './doorstep.ts';
import { TokenBucket } from './token-bucket.ts';

/** A page opens six connections and a socket; the burst is for walls by the hundred that come back at once. */
const RATE = { perSecond: 40, burst: 200 };

/** In connections: what one that broke a limit costs its address besides. */
const OFFENCE = 20;

/** Connections that wait for their turn: of all addresses, and of one. */
const MOST_WAITING = 256;
const MOST_WAITING_OF_ONE = 32;

/** Of more addresses than this, the one that stayed away longest is forgotten. */
const MOST_ADDRESSES = 1024;

/** In ms: an address that stayed away for so long has its whole burst again, whatever it owed, and is forgotten. */
const FORGOTTEN_AFTER = (2 * RATE.burst * 1000) / RATE.perSecond;

interface Address {
  readonly bucket: TokenBucket;
  /** Oldest first; each lets its connection in. */
  readonly waiting: Set<() => void>;
  cameAt: number;
  /** Due when the first of those that wait may come in; null while none waits. */
  turn: Timer | null;
}

export class Arrivals {
  private readonly clock: Clock;
  private readonly timers: Timers;
  /** The one that came last is last. */
  private readonly addresses = new Map<string, Address>();
  /** Each resets one that waits. */
  private readonly waiting = new Set<() => void>();
  private readonly doorstep = new Doorstep(MOST_WAITING, MOST_WAITING_OF_ONE);

  constructor(clock: Clock, timers: Timers) {
    this.clock = clock;
    this.timers = timers;
  }

  /** Of a new connection from this address: calls `comeIn` when it may come in, at once or later, or else `reset`. */
  arrive(from: string, comeIn: () => void, reset: () => void): void {
    const address = this.addressOf(from);
    if (address.waiting.size === 0 && address.bucket.take(this.clock.now())) comeIn();
    else this.wait(from, address, comeIn, reset);
  }

  /** A connection from this address has broken a limit. */
  offended(from: string): void {
    this.addresses.get(from)?.bucket.fine(OFFENCE);
  }

  /** Resets those that wait. */
  close(): void {
    for (const reset of this.waiting) reset();
  }

  private wait(from: string, address: Address, comeIn: () => void, reset: () => void): void {
    const leave = (): void => {
      place.leave();
      this.waiting.delete(goAway);
      address.waiting.delete(enter);
      if (address.waiting.size > 0 || !address.turn) return;
      this.timers.clear(address.turn);
      address.turn = null;
    };
    const enter = (): void => {
      leave();
      comeIn();
    };
    const goAway = (): void => {
      leave();
      reset();
    };
    const place = this.doorstep.enter(goAway, from);
    this.waiting.add(goAway);
    address.waiting.add(enter);
    address.turn ??= this.timers.set(() => this.letIn(address), address.bucket.nextIn());
  }

  private letIn(address: Address): void {
    address.turn = null;
    for (const enter of address.waiting) {
      if (address.bucket.take(this.clock.now())) enter();
      else {
        address.turn = this.timers.set(() => this.letIn(address), address.bucket.nextIn());
        return;
      }
    }
  }

  private addressOf(from: string): Address {
    const now = this.clock.now();
    const address = this.addresses.get(from) ?? {
      bucket: new TokenBucket(RATE, now),
      waiting: new Set(),
      cameAt: now,
      turn: null,
    };
    address.cameAt = now;
    this.addresses.delete(from);
    this.addresses.set(from, address);
    for (const [old, { cameAt }] of this.addresses) {
      if (now - cameAt < FORGOTTEN_AFTER && this.addresses.size <= MOST_ADDRESSES) break;
      this.addresses.delete(old);
    }
    return address;
  }
}
