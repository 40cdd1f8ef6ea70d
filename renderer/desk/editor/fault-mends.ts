/*
 * The mends that are offered for faults, in the text and in the list beside it.
 */

import type { Fault } from '../../../app/core/result.ts';
import { listMend } from '../../../app/core/session/tokens/list-mend.ts';
import { mended, sureMendIn, type Mend } from '../../../app/core/session/tokens/mend.ts';
import { textLines } from '../../../app/core/session/text/lines.ts';
import { characterAt, FAULTS_SHOWN } from './fault-place.ts';

export interface OfferedMend extends Mend {
  readonly line: number;
  /** What it leaves there: "1:30". */
  readonly right: string;
}

/** Of the faults that are shown, in their order. */
export function offeredMends(text: string, faults: readonly Fault[]): readonly OfferedMend[] {
  if (faults.length === 0) return [];
  const lines = textLines(text);
  return faults.slice(0, FAULTS_SHOWN).flatMap((fault): readonly OfferedMend[] => {
    const raw = lines[fault.line - 1];
    if (raw === undefined) return [];
    const mend = sureMendIn(lines, fault, characterAt(raw, fault.column)) ?? listMend(raw, fault);
    return mend ? [{ ...mend, line: fault.line, right: rightWord(raw, mend) }] : [];
  });
}

/** The word that a mend leaves, or two where it parts them. */
function rightWord(raw: string, mend: Mend): string {
  const right = mended(raw, mend);
  const before = right.slice(0, mend.from);
  const begin = before.length - /\S*$/.exec(before)![0].length;
  const words = mend.by.includes(' ') ? /^\S+\s+\S+/ : /^\S+/;
  return words.exec(right.slice(begin))?.[0] ?? mend.by;
}
