/*
 * What becomes of a window whose page has died: it comes back by itself, but not for ever.
 */

/** So many times within so long (ms) a page comes back by itself. */
const MOST = 3;
const WITHIN = 60_000;

export type AfterDeath = 'again' | 'plain page' | 'nothing';

/** reason: Electron's word for it; deaths: when its pages died before, by the same clock as `now`, in ms. */
export function afterDeath(reason: string, deaths: readonly number[], now: number, wasPlain: boolean): AfterDeath {
  // Where not even the plain page lives, no page does.
  if (reason === 'clean-exit' || wasPlain) return 'nothing';
  return deaths.filter((at) => now - at < WITHIN).length < MOST ? 'again' : 'plain page';
}
