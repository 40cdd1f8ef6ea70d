/*
 * Leaves in a sentence, by lane and set: "lane 1: 50 free, reps 3 to 5; lane 2: …".
 */

import { distanceText } from '../lengths.ts';
import type { Leave } from './record.ts';

/** Names at most `most` sets, then how many more there are; '' for no leaves. */
export function leavesText(leaves: readonly Leave[], most: number): string {
  const groups: { readonly first: Leave; readonly reps: number[] }[] = [];
  for (const leave of [...leaves].sort((a, b) => a.lane - b.lane || a.at - b.at)) {
    const group = groups[groups.length - 1];
    if (group && group.first.lane === leave.lane && group.first.rep.set === leave.rep.set) {
      group.reps.push(leave.rep.rep);
    } else groups.push({ first: leave, reps: [leave.rep.rep] });
  }
  const told = groups.slice(0, most).map(({ first, reps }) => {
    const { distance, set } = first.rep;
    const what = [distance > 0 ? distanceText(distance) : '', set.words].filter((word) => word !== '').join(' ');
    return `lane ${first.lane}: ${[what, repsText(reps)].filter((word) => word !== '').join(', ')}`;
  });
  const more = groups.length - told.length;
  return [...told, ...(more > 0 ? [`and ${more} more ${more === 1 ? 'set' : 'sets'}`] : [])].join('; ');
}

function repsText(reps: readonly number[]): string {
  const [first, last] = [reps[0]!, reps[reps.length - 1]!];
  return reps.length === 1 ? `rep ${first}` : `reps ${first} to ${last}`;
}
