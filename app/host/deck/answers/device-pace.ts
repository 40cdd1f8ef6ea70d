/*
 * How much devices that were let in may send: messages, and of a remote's commands fewer, a Stop apart. It goes by the
 * device and not by its connection: one that hangs up and comes back, or has several, may send no more than before.
 */

import { commandRate, type Guest } from '../../sharing/doors/guest.ts';
import { TokenBucket, type Rate } from '../../web/limits/token-bucket.ts';

/** Messages a second, and how many may come at once: enough for eight pings on connecting and a coach's fastest taps. */
export const MESSAGE_RATE: Rate = { perSecond: 20, burst: 40 };

/** All wall screens of one browser are one device, and come back at the same moment when the program does. */
const WALLS_RATE: Rate = { perSecond: 8 * MESSAGE_RATE.perSecond, burst: 8 * MESSAGE_RATE.burst };

export class DevicePace {
  private readonly messages = new Map<string, TokenBucket>();
  private readonly commands = new Map<string, TokenBucket>();

  /** Whether a guest's device may send one more message now; counts it. `now`: ms, never less than before. */
  maySend({ device, role }: Guest, now: number): boolean {
    return device === null || taken(this.messages, device, role === 'wall' ? WALLS_RATE : MESSAGE_RATE, now);
  }

  /** Whether a guest may give this command now; counts it. `now`: ms, never less than before. */
  mayGive(guest: Guest, fields: Readonly<Record<string, unknown>>, now: number): boolean {
    const rate = commandRate(guest);
    return rate === null || guest.device === null || isStop(fields) || taken(this.commands, guest.device, rate, now);
  }
}

/** A Stop never waits for what its device sends elsewhere. */
export function isStop(fields: Readonly<Record<string, unknown>>): boolean {
  return fields['do'] === 'stop';
}

function taken(buckets: Map<string, TokenBucket>, device: string, rate: Rate, now: number): boolean {
  const bucket = buckets.get(device) ?? new TokenBucket(rate, now);
  buckets.set(device, bucket);
  return bucket.take(now);
}
