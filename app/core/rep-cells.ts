/*
 * Which rep it is, in a table for a spreadsheet: the same columns wherever reps have rows, so that tables can be joined.
 */

import type { Rep } from './plan/plan.ts';
import type { LengthUnit } from './units.ts';
import { distanceText } from './words/distance.ts';
import { roundCell } from './words/round.ts';

export const REP_HEADS = ['line', 'round', 'rep', 'of', 'distance', 'unit'] as const;

export function repCells({ set, rep, of, distance }: Rep, unit: LengthUnit): readonly string[] {
  return [`${set.line}`, roundCell(set.rounds), `${rep}`, `${of}`, distanceText(distance), unit];
}
