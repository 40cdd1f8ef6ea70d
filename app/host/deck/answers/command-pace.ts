/*
 * How fast remotes may give commands, a Stop apart. It goes by the device and not by its connection: one that hangs up
 * and comes back may give no more than before.
 */

import { commandRate, type Guest } from '../../sharing/doors/guest.ts';
import { TokenBucket } from '../../web/limits/token-bucket.ts';

export class CommandPace {
  private readonly buckets = new Map<Guest['device'], TokenBucket>();

  /** Whether a guest may give this command now; counts it. `now`: ms, never less than before. */
  mayGive(guest: Guest, fields: Readonly<Record<string, unknown>>, now: number): boolean {
    const rate = commandRate(guest);
    if (rate === null || fields['do'] === 'stop') return true;
    const bucket = this.buckets.get(guest.device) ?? new TokenBucket(rate, now);
    this.buckets.set(guest.device, bucket);
    return bucket.take(now);
  }
}
