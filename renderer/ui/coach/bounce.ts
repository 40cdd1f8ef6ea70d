/*
 * One press is one command: a wet finger, a worn clicker and a nervous key give two.
 */

/** Two presses of the same thing nearer together than this are one, in ms. */
export const BOUNCE_TIME = 300;

/**
 * Where a press puts another button in its place (Stop gives way to Resume), the second tap of a double
 * tap lands on that one. So near after the press nothing else in its place is taken, in ms.
 */
export const DOUBLE_TAP_TIME = 500;

export interface BounceGuard {
  /**
   * Whether a press of this thing counts; what is refused does not start the time again.
   * place: what it shares with the things that take turns there; without one it has a place to itself.
   */
  accept(what: string, now: number, place?: string): boolean;
}

export function createBounceGuard(): BounceGuard {
  const last = new Map<string, number>();
  const places = new Map<string, { readonly what: string; readonly at: number }>();
  const within = (before: number | undefined, time: number, now: number): boolean =>
    before !== undefined && now - before < time;
  return {
    accept(what, now, place) {
      if (within(last.get(what), BOUNCE_TIME, now)) return false;
      const there = place === undefined ? undefined : places.get(place);
      if (there && there.what !== what && within(there.at, DOUBLE_TAP_TIME, now)) return false;
      last.set(what, now);
      if (place !== undefined) places.set(place, { what, at: now });
      return true;
    },
  };
}
