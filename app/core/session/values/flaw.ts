/*
 * What is wrong in one line, before it has a line number. The readers of times, lists and lines know only the text
 * they are given and an index into it; the list of faults adds line and column.
 */

import type { Fault } from '../../result.ts';
import { columnAt, type Line } from '../text/lines.ts';

export interface Flaw {
  /** Index into the line's text. */
  readonly at: number;
  readonly message: string;
  /** The setting that it was checked against. If that setting has a fault, this flaw is dropped: one mistake is reported once. */
  readonly checkedAgainst?: 'pool' | 'lanes';
  /** What lanes lack for which the line asks: all of them are named in one fault. */
  readonly lacks?: { readonly css: 'to hold' | 'for an interval'; readonly lane: number };
  /** The line may have been meant as rounds, so lines indented under it are not faults. */
  readonly opens?: true;
}

export function isFlaw(read: object): read is Flaw {
  return 'message' in read;
}

/** Keeps at most one fault a line: a coach mends the first one first, and the others often follow from it. */
export class FaultList {
  private readonly faults = new Map<number, { fault: Fault; checkedAgainst: Flaw['checkedAgainst'] }>();
  /** The settings that have faults themselves, so that nothing can be checked against them. */
  private readonly doubted = new Set<'pool' | 'lanes'>();

  constructor(first: readonly Fault[]) {
    for (const fault of first) this.faults.set(fault.line, { fault, checkedAgainst: undefined });
  }

  add(line: Line, flaw: Flaw): void {
    const before = this.faults.get(line.number);
    if (before && !(before.checkedAgainst && this.doubted.has(before.checkedAgainst))) return;
    const fault = {
      line: line.number,
      column: columnAt(line.raw, line.start + flaw.at),
      message: seen(flaw.message, line),
    };
    this.faults.set(line.number, { fault, checkedAgainst: flaw.checkedAgainst });
  }

  doubt(what: 'pool' | 'lanes'): void {
    this.doubted.add(what);
  }

  doubts(what: 'pool' | 'lanes'): boolean {
    return this.doubted.has(what);
  }

  /** In order of lines. */
  sorted(): Fault[] {
    const kept = Array.from(this.faults.values()).filter(
      ({ checkedAgainst }) => !checkedAgainst || !this.doubted.has(checkedAgainst),
    );
    return kept.map(({ fault }) => fault).sort((a, b) => a.line - b.line);
  }
}

/** What is copied from a chat or a page may bring them along. Those that join letters and pictures are not among them. */
const UNSEEN = /[\u00ad\u200b\u200e\u200f\u202a-\u202e\u2060-\u2069\ufeff]/g;

function seen(message: string, { text }: Line): string {
  if (text.search(UNSEEN) < 0) return message;
  return `${message.replace(UNSEEN, '')}; a character that cannot be seen stands in the line: type it anew`;
}
