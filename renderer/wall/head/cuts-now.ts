/*
 * What has been cut of the session, as the wall counts it.
 */

import type { RunView } from '../../../app/core/run/view.ts';
import type { Cuts } from '../../../app/core/words/set.ts';

/** How many reps or rounds are cut, by line, less those that had left before the cut: they were swum all the same. */
export function cutsNow({ cuts: given, lanes }: RunView): Cuts {
  const cuts = new Map(given);
  const atMost = (line: number, n: number): void => {
    const cut = cuts.get(line);
    if (cut !== undefined && n < cut) cuts.set(line, n);
  };
  for (const { last } of lanes) {
    if (!last) continue;
    const { rep, of, rounds } = last;
    if (rep.rep === of) atMost(rep.set.line, rep.of - of);
    rep.set.rounds.forEach(({ line, of: written, round }, depth) => {
      const now = rounds[depth]?.of ?? written;
      if (round === now) atMost(line, written - now);
    });
  }
  return cuts;
}
