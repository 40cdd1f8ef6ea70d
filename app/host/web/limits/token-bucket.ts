/*
 * Limits how many messages a screen may send: a rate a second in the long run, and a number at once.
 */

export interface Rate {
  readonly perSecond: number;
  readonly burst: number;
}

export class TokenBucket {
  private readonly rate: Rate;
  private tokens: number;
  private filledAt: number;

  /** The bucket is full at `now` (ms). */
  constructor(rate: Rate, now: number) {
    this.rate = rate;
    this.tokens = rate.burst;
    this.filledAt = now;
  }

  /** Takes one token at `now` (ms, never decreasing); false if there is none. */
  take(now: number): boolean {
    const { perSecond, burst } = this.rate;
    this.tokens = Math.min(burst, this.tokens + ((now - this.filledAt) * perSecond) / 1000);
    this.filledAt = now;
    if (this.tokens < 1) return false;
    this.tokens--;
    return true;
  }

  /** Takes so many tokens. It may owe some after that, at most a whole burst. */
  fine(tokens: number): void {
    this.tokens = Math.max(-this.rate.burst, this.tokens - tokens);
  }

  /** In ms after the last `take`: when there is a token. */
  nextIn(): number {
    return Math.max(0, ((1 - this.tokens) * 1000) / this.rate.perSecond);
  }
}
