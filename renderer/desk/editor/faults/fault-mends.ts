/*
 * The mends that are offered for faults, in the text and in the list beside it.
 */

import type { Fault } from '../../../../app/core/result.ts';
import { listMend, type ListMend } from '../../../../app/core/session/tokens/list-mend.ts';
import { mended, sureMendIn, type Mend } from '../../../../app/core/session/tokens/mend.ts';
import { textLines } from '../../../../app/core/session/text/lines.ts';
import { characterAt, FAULTS_SHOWN } from './fault-place.ts';

export interface OfferedMend extends Mend {
  readonly line: number;
  /** What it leaves there, behind what it does: "Mend: 1:30", "Repeat the last value: 8/7/7". */
  readonly name: string;
}

/** Of the faults that are shown, in their order. */
export function offeredMends(text: string, faults: readonly Fault[]): readonly OfferedMend[] {
  if (faults.length === 0) return [];
  const lines = textLines(text);
  return faults.slice(0, FAULTS_SHOWN).flatMap((fault): readonly OfferedMend[] => {
    const raw = lines[fault.line - 1];
    if (raw === undefined) return [];
    const offered = (mend: Mend, does: string): readonly OfferedMend[] => [
      { ...mend, line: fault.line, name: `${does}: ${rightWord(raw, mend)}` },
    ];
    const sure = sureMendIn(lines, fault, characterAt(raw, fault.column));
    if (sure) return offered(sure, 'Mend');
    const list = listMend(raw, fault);
    return list ? offered(list, listText(list)) : [];
  });
}

/** Which values were meant is not known: what is done is said instead. */
function listText({ over }: ListMend): string {
  if (over < 0) return 'Repeat the last value';
  return over === 1 ? 'Leave out the last' : `Leave out the last ${over}`;
}

/** The word that a mend leaves, or two where it parts them, without a comma behind it. */
function rightWord(raw: string, mend: Mend): string {
  const right = mended(raw, mend);
  const before = right.slice(0, mend.from);
  const begin = before.length - /\S*$/.exec(before)![0].length;
  const words = mend.by.includes(' ') ? /^\S+\s+\S+/ : /^\S+/;
  const found = words.exec(right.slice(begin))?.[0] ?? mend.by;
  return found.replace(/,$/, '');
}
