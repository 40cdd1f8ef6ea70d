/*
 * How many messages a screen may send: so many a second in the long run, so many at once.
 */

export interface Rate {
  readonly perSecond: number;
  readonly burst: number;
}

export class TokenBucket {
  private readonly rate: Rate;
  private tokens: number;
  private filledAt: number;

  /** Full at `now`, in ms. */
  constructor(rate: Rate, now: number) {
    this.rate = rate;
    this.tokens = rate.burst;
    this.filledAt = now;
  }

  /** Whether there is one more at `now`, which never decreases; takes it. */
  take(now: number): boolean {
    const { perSecond, burst } = this.rate;
    this.tokens = Math.min(burst, this.tokens + ((now - this.filledAt) * perSecond) / 1000);
    this.filledAt = now;
    if (this.tokens < 1) return false;
    this.tokens--;
    return true;
  }
}
