/*
 * When the next command of a random script is given: mostly near a moment at which a rule turns
 * (leaves on their way to the loudspeaker, the lead, guards, the last moment to undo).
 */

import type { Random } from './random.ts';
import { greatestEnd } from '../run/run-events.ts';
import type { ModelRun } from '../run/run-model.ts';
import { hasPending, isStopped } from '../run/run-state.ts';

const AROUND = [
  -10_001, -10_000, -9999, -9750, -3001, -3000, -251, -250, -249, -100, -1, 0, 1, 100, 250, 2999, 3000, 3001, 9749,
  9750, 9999, 10_000, 10_001,
];
const AROUND_THE_LEAD = [-10_001, -10_000, -9999];
const ON_ITS_WAY = [-251, -250, -249, -100, -1];
const A_WHILE = [0, 1, 40, 700, 1500, 3000, 4000, 5000, 9000, 10_000, 12_000];

/** A time from t on, whole milliseconds. */
export function nextTime(run: ModelRun, t: number, random: Random): number {
  if (random.chance(0.35)) return t + random.pick(A_WHILE);
  const now = run.at(t);
  const future = run.at(Infinity);
  const leaves = future.leaves.map((leave) => leave.atMs).filter((at) => at > t);
  const stopped = now.lanes.filter(isStopped).flatMap((lane) => lane.pending.map((pending) => pending.leave));
  const ofItself = now.phase === 'going' && !now.lanes.some(hasPending) ? leaves.slice(0, 1) : [];
  const near = [...leaves.slice(0, 3), ...leaves.slice(0, 8)];
  const own = now.lanes.flatMap((lane) => lane.pending.slice(0, 2).map((pending) => pending.leave));
  const rare = [now.t0, now.lastChangeAt, now.lastStartOrStopAt, now.lastEndAt, future.lastEndAt, future.doneAt];
  const end = now.phase === 'going' ? greatestEnd(now) : null;
  const ends = [end];
  const lastLeave = Math.max(t, ...now.lanes.flatMap((lane) => lane.pending.map((pending) => pending.leave)));
  const isTail = end !== null && end > lastLeave && stopped.length === 0;

  const at = random.weighted([
    [6, around([...near, ...own, ...rare, ...ends], AROUND)],
    [stopped.length > 0 ? 3 : 0, around(stopped, AROUND_THE_LEAD)],
    [ofItself.length > 0 ? 4 : 0, around(ofItself, ON_ITS_WAY)],
    // All have left and nothing new has begun: what follows, and when, is still open.
    [isTail ? 1.5 : 0, (): number => random.whole(lastLeave, end ?? lastLeave)],
  ])();
  return at >= t ? at : t + random.whole(0, 12_000);

  function around(moments: readonly (number | null)[], offsets: readonly number[]): () => number {
    const known = moments.filter((moment): moment is number => moment !== null);
    return () => random.pick(known.length > 0 ? known : [t]) + random.pick(offsets);
  }
}
