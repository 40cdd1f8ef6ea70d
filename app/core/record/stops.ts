/*
 * When lanes were stopped, and by which command.
 */

import type { RunState } from '../run/state.ts';
import type { Millis } from '../units.ts';

export interface LaneStop {
  /** The place of the command that stopped it among all that were accepted. */
  readonly command: number;
  readonly lane: number;
  readonly from: Millis;
  readonly to: Millis;
}

/** The lanes that a command at `at` left stopped; `undid`: the place of the command that it took back, if any. */
export interface StoppedAfter {
  readonly at: Millis;
  readonly lanes: readonly number[];
  readonly undid: number | undefined;
}

export function stoppedIn({ phase, plan, lanes }: RunState): readonly number[] {
  if (phase !== 'going') return [];
  return plan.session.lanes.map(({ number }) => number).filter((_, index) => lanes[index]!.stoppedBy !== null);
}

/** One entry a command, in order; `until`: the end of the run. A Stop that was taken back never came about. */
export function stopsOf(after: readonly StoppedAfter[], until: Millis): readonly LaneStop[] {
  const over: LaneStop[] = [];
  let open: readonly Omit<LaneStop, 'to'>[] = [];
  after.forEach(({ at, lanes, undid }, command) => {
    const freed = open.filter(({ lane, command: by }) => !lanes.includes(lane) && by !== undid);
    over.push(...freed.map((stop) => ({ ...stop, to: at })));
    open = open.filter(({ lane }) => lanes.includes(lane));
    const known = open.map(({ lane }) => lane);
    open = [...open, ...lanes.filter((lane) => !known.includes(lane)).map((lane) => ({ command, lane, from: at }))];
  });
  return [...over, ...open.map((stop) => ({ ...stop, to: Math.max(stop.from, until) }))].sort(
    (a, b) => a.from - b.from || a.lane - b.lane,
  );
}

/** How often somebody stopped lanes, and for how long at least one of them stood. */
export function stopTotals(stops: readonly LaneStop[]): { readonly count: number; readonly time: Millis } {
  let time = 0;
  let until = -Infinity;
  for (const { from, to } of stops) {
    time += Math.max(0, to - Math.max(from, until));
    until = Math.max(until, to);
  }
  return { count: new Set(stops.map(({ command }) => command)).size, time };
}
