/*
 * What a coach may want to look at again before the session. Warnings never stop a session. Each is given once for a
 * line and lane, with the numbers of the rep that has the least rest.
 */

import { isWholeLengths } from '../../lengths.ts';
import type { Session } from '../../session/session.ts';
import { distanceIn, poolText } from '../../words/distance.ts';
import { about } from '../../words/time/estimate.ts';
import { durationText } from '../../words/time/duration.ts';
import { endTimeAfter, timeOfDay } from '../../words/time/time-of-day.ts';
import { distanceAmong } from './distance-among-words.ts';
import { endsByEstimate } from '../estimates.ts';
import type { Plan } from '../plan.ts';
import { laneWarnings } from './lane-warnings.ts';
import { linesOf, type SwimLine } from './swim-lines.ts';
import type { SwimItem } from '../swims.ts';
import { totalsOf } from '../totals.ts';
import { WARNING_CODES, type Warning } from './warning.ts';

/** The warnings of a plan: by line, then by lane (those for all lanes first), then in the order of the codes. */
export function warningsOf(plan: Plan): readonly Warning[] {
  const { session } = plan;
  const lines = linesOf(session);
  const found = [...overTime(plan), ...emptyParts(session)];
  for (const line of lines) found.push(...partLengths(line, session), ...wordsDistance(line, session));
  // Pushed one by one: a long session can have more warnings than a call takes arguments.
  session.lanes.forEach((_, index) => laneWarnings(plan, lines, index).forEach((warning) => found.push(warning)));
  return found.sort(
    (a, b) =>
      a.line - b.line || placeOf(a) - placeOf(b) || WARNING_CODES.indexOf(a.code) - WARNING_CODES.indexOf(b.code),
  );
}

/** Lanes are numbered from 0. */
function placeOf({ lane }: Warning): number {
  return lane ?? -1;
}

function overTime(plan: Plan): Warning[] {
  const { startsAt, finishBy, finishLine } = plan.session;
  const { duration, over } = totalsOf(plan);
  if (!over || startsAt === null || finishBy === null) return [];
  const mark = about(endsByEstimate(plan));
  const ends = `${mark}${endTimeAfter(startsAt, duration)}`;
  const message = `The plan ends at ${ends}, ${mark}${durationText(over)} after the finish at ${timeOfDay(finishBy)}.`;
  return [{ code: 'over-time', line: finishLine ?? 1, lane: null, message }];
}

function emptyParts(session: Session): Warning[] {
  const warnings: Warning[] = [];
  for (const { name, line, items } of session.parts) {
    if (line === null || items.length > 0) continue;
    warnings.push({ code: 'empty-part', line, lane: null, message: `"${name}" has nothing under it.` });
  }
  return warnings;
}

/** One warning if the line has one distance for all lanes; else one for each lane with such a distance. */
function partLengths({ item, distances }: SwimLine, session: Session): Warning[] {
  const { length, unit } = session.pool;
  const listed = hasListedDistances(item);
  const warnings: Warning[] = [];
  session.lanes.forEach((lane, index) => {
    const odd = distances[index]!.find((distance) => !isWholeLengths(distance, length));
    if (odd === undefined || (!listed && warnings.length > 0)) return;
    const fact = `${distanceIn(odd, unit)} is not a whole number of lengths in a pool of ${poolText(length, unit)}.`;
    warnings.push({
      code: 'part-lengths',
      line: item.line,
      lane: listed ? lane.number : null,
      message: listed ? `Lane ${lane.number}: ${fact}` : fact,
    });
  });
  return warnings;
}

/** A distance that nobody swims because it stands among the words: `300 swim 200 kick`. */
function wordsDistance({ item }: SwimLine, { pool: { length, unit } }: Session): Warning[] {
  const distance = distanceAmong(item.words, length);
  if (distance === null) return [];
  const message = `${distanceIn(distance, unit)} stands among the words and is not swum: write a line for each set.`;
  return [{ code: 'words-distance', line: item.line, lane: null, message }];
}

/** Whether lanes have distances of their own on this line. */
function hasListedDistances(item: SwimItem): boolean {
  if (item.kind === 'block') return item.listed;
  return item.kind === 'set' && item.reps.kind === 'repeat' && item.reps.listed;
}
