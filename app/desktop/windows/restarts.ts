/*
 * Whether a page that has died comes back by itself, or a plain one takes its place.
 */

/** How many times a page comes back by itself within how many ms. */
const MOST = 3;
const WITHIN = 60_000;

export type AfterDeath = 'again' | 'plain page' | 'nothing';

/** reason: Electron's word for it; deaths: when its pages died before, by the same clock as `now`, in ms. */
export function afterDeath(reason: string, deaths: readonly number[], now: number, wasPlain: boolean): AfterDeath {
  // If the plain page has died, no other page would live.
  if (reason === 'clean-exit' || wasPlain) return 'nothing';
  return deaths.filter((at) => now - at < WITHIN).length < MOST ? 'again' : 'plain page';
}
