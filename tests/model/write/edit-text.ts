/*
 * A written session as it lies on the desk of someone who edits it: headings and items, each with the
 * lines of text that it has, to be taken out, put in and put in another order.
 */

import { everyItem, isNote, lastLineBefore, linesOf, type ScenarioItem, type WrittenScenario } from '../scenario.ts';

export interface EditedPart {
  heading: string | null;
  /** The heading's own line, and what stands between it and the first item. */
  headingLines: string[];
  items: EditedItem[];
}

/** An item at the part's margin, with all that stands under it. */
export interface EditedItem {
  readonly item: ScenarioItem;
  /** Up to the next item's: comments and blank lines too. */
  lines: string[];
  /** The number that the first of them had when the item learnt its line. */
  readonly from: number;
}

/** Takes a text apart. */
export function editable(written: WrittenScenario): EditedPart[] {
  const text = linesOf(written);
  return written.scenario.parts.map((part, index) => {
    const begin = lastLineBefore(written, index) + 1;
    const end = lastLineBefore(written, index + 1) + 1;
    const starts = [...part.items.map((item) => item.line), end];
    return {
      heading: part.heading,
      headingLines: text.slice(begin - 1, (starts[0] ?? end) - 1),
      items: part.items.map((item, place) => ({
        item,
        from: item.line,
        lines: text.slice(item.line - 1, (starts[place + 1] ?? end) - 1),
      })),
    };
  });
}

/** Puts it together again: every item is a copy that knows its new line. */
export function writtenFrom(before: WrittenScenario, parts: readonly EditedPart[]): WrittenScenario {
  let line = before.header.length + 1;
  const text: string[][] = [];
  const meant = parts.map((part) => {
    const own = [...part.headingLines];
    line += part.headingLines.length;
    const items = part.items.map(({ item, lines, from }) => {
      const copy = movedBy(item, line - from);
      own.push(...lines);
      line += lines.length;
      return copy;
    });
    text.push(own);
    return { heading: part.heading, items };
  });
  return { ...before, scenario: { ...before.scenario, parts: meant }, parts: text };
}

/** The blanks before a part's lines: what is put into it must stand as deep. */
export function marginOf(part: EditedPart): string {
  const first = part.items.find(({ item }) => !isNote(item));
  return /^\s*/.exec(first?.lines[0] ?? '')?.[0] ?? '';
}

function movedBy(item: ScenarioItem, by: number): ScenarioItem {
  const copy = structuredClone(item);
  for (const one of everyItem([copy])) one.line += by;
  return copy;
}
