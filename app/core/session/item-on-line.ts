/*
 * What of a session stands on a line of its text.
 */

import { itemsUnder, type Item, type Part } from './session.ts';

/** The item of a part that a line belongs to, by its place in the part; -1 where it is of no item. */
export function itemIndexOf(part: Part, line: number): number {
  return part.items.findIndex((item) => holdsLine(item, line));
}

/** The set on a line, at any depth; null where there is none. */
export function setOnLine(part: Part, line: number): Item | null {
  return find(part.items, line);
}

export function holdsLine(item: Item, line: number): boolean {
  return item.line === line || itemsUnder(item).some((inner) => holdsLine(inner, line));
}

function find(items: readonly Item[], line: number): Item | null {
  for (const item of items) {
    const under = itemsUnder(item);
    const found = under.length > 0 ? find(under, line) : item.line === line ? item : null;
    if (found) return found;
  }
  return null;
}
