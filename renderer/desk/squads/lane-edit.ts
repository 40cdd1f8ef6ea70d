/*
 * What is typed into a field of the table, as the lane that it makes. It is read by the reader of `lane` lines, so that
 * the table takes what the text takes, and refuses it in the same words.
 */

import { plainLane, readLane, type WrittenLane } from '../../../app/core/session/line/lane-line.ts';
import { laneFlaw } from '../../../app/core/session/text/text-with-lane.ts';
import { isFlaw } from '../../../app/core/session/values/flaw.ts';
import { reading } from '../../../app/core/words/time/reading.ts';
import { SECOND } from '../../../app/core/units.ts';

export type LaneField = 'swimmers' | 'gap' | 'base' | 'css';

export type LaneEdit = { readonly ok: true; readonly lane: WrittenLane } | { readonly ok: false; readonly why: string };

/** What a field shows of a lane: '' where its line does not say it. */
export function fieldText(lane: WrittenLane, field: LaneField): string {
  const { swimmers, names, gap } = lane;
  if (field === 'swimmers') return names.length > 0 ? names.join(', ') : swimmers > 1 ? `${swimmers}` : '';
  if (field === 'gap') return gap === null ? '' : `${gap / SECOND}`;
  const pace = lane[field];
  return pace === null ? '' : reading(pace);
}

/** The lane with that field as it was typed; an empty one leaves it to what follows from the others. */
export function editedLane(lane: WrittenLane, field: LaneField, typed: string): LaneEdit {
  const value = field === 'swimmers' ? typed.replace(/[\s,]+$/, '').trim() : typed.trim();
  const alone = aloneIn(field, value);
  if (typeof alone === 'string') return { ok: false, why: `${alone}.` };
  const { swimmers, names } = alone;
  const next = field === 'swimmers' ? { ...lane, swimmers, names } : { ...lane, [field]: alone[field] };
  const why = laneFlaw(next);
  return why === null ? { ok: true, lane: next } : { ok: false, why: `${why}.` };
}

/** A lane of which only this field is said; or what is wrong with that. */
function aloneIn(field: LaneField, value: string): WrittenLane | string {
  const plain = plainLane(1);
  if (value === '') return plain;
  if (field !== 'swimmers') {
    if (value.includes(',')) return 'write one value here: each has a field of its own';
    const { lane } = readLane(`1 ${field} ${value}`, 0);
    if (isFlaw(lane)) return lane.message;
    return { ...plain, [field]: lane[field] };
  }
  const { lane } = readLane(`1 ${/^\d+$/.test(value) ? `${value} swimmers` : value}`, 0);
  if (isFlaw(lane)) return lane.message;
  const isMore = lane.base !== null || lane.css !== null || lane.gap !== null;
  return isMore ? 'base, css and gap have fields of their own: write a number here, or names' : lane;
}
