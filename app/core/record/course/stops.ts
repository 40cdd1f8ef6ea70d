/*
 * When lanes were stopped, and by which Stop of the coach.
 */

import type { RunState } from '../../run/state.ts';
import type { Millis } from '../../units.ts';

/** What a Stop holds: a lane, or (null) what follows the stretch that is going. */
interface Held {
  readonly lane: number | null;
  /** The number of the Stop among those of the run. */
  readonly stop: number;
}

export interface LaneStop extends Held {
  readonly from: Millis;
  readonly to: Millis;
}

/** What was held after a command at `at`; `undid`: the place of the command that it took back, if any. */
export interface HeldAfter {
  readonly at: Millis;
  readonly held: readonly Held[];
  readonly undid: number | undefined;
}

export function heldIn({ phase, plan, lanes, heldAfter, stops }: RunState): readonly Held[] {
  if (phase !== 'going') return [];
  const held: Held[] = [];
  plan.session.lanes.forEach(({ number: lane }, index) => {
    const stop = lanes[index]!.stoppedBy;
    if (stop !== null) held.push({ lane, stop });
  });
  return heldAfter ? [...held, { lane: null, stop: stops }] : held;
}

type Open = Omit<LaneStop, 'to'>;

/** One entry a command, in order; `until`: the end of the run. What was taken back never came about. */
export function stopsOf(after: readonly HeldAfter[], until: Millis): readonly LaneStop[] {
  let over: readonly LaneStop[] = [];
  let open: readonly Open[] = [];
  const found: { over: readonly LaneStop[]; open: readonly Open[] }[] = [];
  for (const { at, held, undid } of after) {
    found.push({ over, open });
    if (undid !== undefined) ({ over, open } = found[undid]!);
    const isHeld = ({ lane }: Open): boolean => held.some((each) => each.lane === lane);
    over = [...over, ...open.filter((stop) => !isHeld(stop)).map((stop) => ({ ...stop, to: at }))];
    const still = open.filter(isHeld);
    const begun = held.filter(({ lane }) => still.every((stop) => stop.lane !== lane));
    open = [...still, ...begun.map((each) => ({ ...each, from: at }))];
  }
  return [...over, ...open.map((stop) => ({ ...stop, to: Math.max(stop.from, until) }))].sort(
    (a, b) => a.from - b.from || (a.lane ?? 0) - (b.lane ?? 0),
  );
}

/** How many Stops there were, and for how long at least one lane stood. */
export function stopTotals(stops: readonly LaneStop[]): { readonly count: number; readonly time: Millis } {
  let time = 0;
  let until = -Infinity;
  for (const { from, to } of stops.filter(({ lane }) => lane !== null)) {
    time += Math.max(0, to - Math.max(from, until));
    until = Math.max(until, to);
  }
  return { count: new Set(stops.map(({ stop }) => stop)).size, time };
}
