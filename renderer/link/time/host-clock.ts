/*
 * The host's time on this screen, from the answers to its pings. Host time starts anew with every
 * epoch, so samples are kept by epoch, and a screen goes over to a new one only together with the
 * snapshot that belongs to it. A device that has slept cannot trust its own clock: what was measured
 * before is dropped with the next answer.
 */

import { clockQuality, type ClockQuality } from '../../../app/core/sync/clock-quality.ts';
import { addSample, emptySync, errorBoundAt, hostTimeAt, type Sync } from '../../../app/core/sync/offset.ts';

/** The two clocks of the screen's own machine, in ms. */
export interface OwnClock {
  /** Never steps; may stand still while the machine sleeps. */
  now(): number;
  /** Time of day; goes on through sleep, may be set. */
  wall(): number;
}

export interface Ping {
  readonly n: number;
  readonly t1: number;
}

export interface Pong extends Ping {
  readonly t2: number;
  readonly t3: number;
  readonly epoch: string;
}

/** How good the time here is: `bound` says by how much it is wrong at most, in ms. */
export interface ClockState {
  readonly quality: ClockQuality;
  readonly bound: number;
}

export interface HostClock {
  /** A ping to be sent now. */
  ping(): Ping;
  /** Takes the answer to a ping, at the moment it came in, once; drops one that answers no ping that is open. */
  heard(pong: Pong): void;
  /** Whether anything has been measured in an epoch. */
  knows(epoch: string): boolean;
  /** Goes over to an epoch, and forgets all others. */
  turnTo(epoch: string): void;
  /** Host time in ms; null before the first answer and, after a sleep, until the next. */
  now(): number | null;
  /** null without a time. */
  quality(): ClockState | null;
  /** Whether the machine may have slept since the last answer, or answers contradict the time: ping at once. */
  inDoubt(): boolean;
}

/** The two clocks part by this much where the machine has slept or its time of day was set: measure again. */
const PARTED = 250;

/** More than a time of day is ever corrected by in passing: the machine has slept, its clock says nothing now. */
const ASLEEP = 2000;

/** So many pings may be open; the oldest of more are given up. */
const MOST_OPEN = 64;

export function createHostClock(own: OwnClock): HostClock {
  const syncs = new Map<string, Sync>();
  // When each was sent that is not answered yet.
  const open = new Map<number, number>();
  let pings = 0;
  let called: ClockQuality | null = null;
  let current: string | null = null;
  let apart = own.wall() - own.now();
  // When a sleep was noticed that no answer to a later ping has made good yet.
  let doubtedAt: number | null = null;
  let asleep = false;

  function look(): void {
    const parted = Math.abs(own.wall() - own.now() - apart);
    if (parted <= PARTED) return;
    apart = own.wall() - own.now();
    doubtedAt = own.now();
    if (parted > ASLEEP) asleep = true;
  }

  /** What the time goes by; undefined where there is none to trust. */
  function trusted(): Sync | undefined {
    look();
    return current === null || asleep ? undefined : syncs.get(current);
  }

  return {
    ping() {
      const ping = { n: pings++, t1: own.now() };
      open.set(ping.n, ping.t1);
      open.delete(ping.n - MOST_OPEN);
      return ping;
    },
    heard({ n, t1, t2, t3, epoch }) {
      if (open.get(n) !== t1) return;
      open.delete(n);
      look();
      if (doubtedAt !== null) {
        if (t1 < doubtedAt) return; // Its round trip was under way while the machine slept.
        syncs.clear();
        doubtedAt = null;
        asleep = false;
      }
      syncs.set(epoch, addSample(syncs.get(epoch) ?? emptySync(), { t1, t2, t3, t4: own.now(), epoch }));
    },
    knows: (epoch) => syncs.has(epoch),
    turnTo(epoch) {
      current = epoch;
      syncs.forEach((_, other) => {
        if (other !== epoch) syncs.delete(other);
      });
    },
    now() {
      const sync = trusted();
      return sync === undefined ? null : hostTimeAt(sync, own.now());
    },
    quality() {
      const sync = trusted();
      const bound = sync === undefined ? null : errorBoundAt(sync, own.now());
      if (bound === null) {
        called = null;
        return null;
      }
      called = clockQuality(bound, called);
      return { quality: called, bound };
    },
    inDoubt() {
      const sync = trusted();
      return doubtedAt !== null || (sync !== undefined && sync.dissent.length > 0);
    },
  };
}
