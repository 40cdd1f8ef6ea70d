/*
 * How good a screen's clock is, from the bound of its error. Swimmers may leave on one that is fair; on one that is
 * poor they may not, and the screen says so.
 */

export type ClockQuality = 'good' | 'fair' | 'poor';

/** The greatest bounds, in ms: one picture and a half of a slow television, and what nobody at a wall notices. */
const GOOD = 25;
const FAIR = 100;

/** To be called better again, a clock must be better than the limit by a fifth: no screen flickers between two words. */
const BETTER = 4 / 5;

/** bound: in ms; before: as it was called until now, null for the first time. */
export function clockQuality(bound: number, before: ClockQuality | null): ClockQuality {
  const isWithin = (limit: number, was: boolean): boolean => bound <= (was ? limit : BETTER * limit);
  if (isWithin(GOOD, before === null || before === 'good')) return 'good';
  return isWithin(FAIR, before !== 'poor') ? 'fair' : 'poor';
}
