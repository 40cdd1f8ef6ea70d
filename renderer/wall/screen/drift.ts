/*
 * The slow drift of the whole picture, so that no edge stands on the same pixels all evening. A step
 * is one pixel and comes every half minute: nobody sees it move.
 */

const STEP = 30_000;

/** By how many whole px the picture stands off its place; `time` in ms from anywhere, `reach` in px. */
export function driftAt(time: number, reach: number): { readonly x: number; readonly y: number } {
  const step = Math.floor(time / STEP);
  return { x: swing(step, reach), y: swing(Math.floor(step / (2 * reach + 1)), reach) };
}

/** Up and down between -reach and reach, one at a time. */
function swing(step: number, reach: number): number {
  const period = 4 * reach;
  if (period === 0) return 0;
  const at = ((step % period) + period) % period;
  return at <= 2 * reach ? at - reach : 3 * reach - at;
}
