/*
 * Leaves in a sentence, by lane and set: "lane 1: 50 free, reps 3 to 5; lane 2: …".
 */

import type { Leave } from '../run/record.ts';
import { commaed, count, spanned } from './phrase.ts';
import { repWords } from './rep.ts';

/** Of so many sets at most, with how many more there are; empty for no leaves. */
export function leavesText(leaves: readonly Leave[], most: number): string {
  const groups: { readonly first: Leave; last: Leave }[] = [];
  for (const leave of [...leaves].sort((a, b) => a.lane - b.lane || a.at - b.at)) {
    const group = groups[groups.length - 1];
    if (group && group.first.lane === leave.lane && group.first.rep.set === leave.rep.set) group.last = leave;
    else groups.push({ first: leave, last: leave });
  }
  const told = groups
    .slice(0, most)
    .map(
      ({ first: { lane, rep }, last }) =>
        `lane ${lane}: ${commaed(repWords(rep), spanned('rep', rep.rep, last.rep.rep))}`,
    );
  const more = groups.length - told.length;
  return [...told, ...(more > 0 ? [`and ${count(more, 'more set')}`] : [])].join('; ');
}
