/* How long a text takes to become a plan, up to the largest session there may be. */

import { openPlan } from '../../app/core/plan/open-plan.ts';
import { medianTime, row, type Row } from './table.ts';

const LANES = 5;
const REPS = 20;
const SIZES = [1000, 10_000, 100_000];

export function benchPlan(): readonly Row[] {
  return SIZES.map((leaves) => {
    const source = { text: sessionText(leaves), lanesText: null };
    let found = 0;
    const ms = medianTime(leaves > 10_000 ? 10 : 30, () => {
      const opened = openPlan(source);
      if (!opened.ok) throw new Error(JSON.stringify(opened.faults));
      found = opened.value.stretches.reduce(
        (sum, { lanes }) => sum + lanes.reduce((reps, lane) => reps + lane.reps.length, 0),
        0,
      );
    });
    if (found !== leaves) throw new Error(`${found} leaves instead of ${leaves}`);
    return row(
      `text to plan, ${leaves} leaves`,
      `${ms.toFixed(1)} ms, ${((ms * 1000) / leaves).toFixed(2)} µs a leave`,
    );
  });
}

/** A session with so many leaves over five lanes, in sets of 20 and parts of at most ten sets. */
export function sessionText(leaves: number): string {
  const lines = ['Bench', 'start 19:30'];
  for (let lane = 1; lane <= LANES; lane++) lines.push(`lane ${lane} css 1:${20 + lane}, 5 swimmers`);
  for (let set = 0; set < leaves / LANES / REPS; set++) {
    if (set % 10 === 0) lines.push(`Part ${['one', 'two', 'three'][(set / 10) % 3]}`);
    lines.push(`${REPS} x 50 free @ base+5`);
  }
  return `${lines.join('\n')}\n`;
}
