/*
 * Takes two quick presses for one: a wet finger, a worn clicker or a nervous thumb easily gives two.
 */

/** Two presses of the same thing within this time count as one, in ms. */
export const BOUNCE_TIME = 300;

export interface BounceGuard {
  /** Whether a press of this thing counts. One that does not count does not start the time again. */
  accept(what: string, now: number): boolean;
}

export function createBounceGuard(): BounceGuard {
  const last = new Map<string, number>();
  return {
    accept(what, now) {
      const before = last.get(what);
      if (before !== undefined && now - before < BOUNCE_TIME) return false;
      last.set(what, now);
      return true;
    },
  };
}
