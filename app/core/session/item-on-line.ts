/*
 * What of a session stands on a line of its text.
 */

import type { Item, Part } from './session.ts';

/** The item of a part that a line belongs to, by its place in the part; -1 where it is of no item. */
export function itemIndexOf(part: Part, line: number): number {
  return part.items.findIndex((item) => holdsLine(item, line));
}

/** The set on a line, at any depth; null where there is none. */
export function setOnLine(part: Part, line: number): Item | null {
  return find(part.items, line);
}

function holdsLine(item: Item, line: number): boolean {
  return item.line === line || (item.kind === 'rounds' && item.items.some((inner) => holdsLine(inner, line)));
}

function find(items: readonly Item[], line: number): Item | null {
  for (const item of items) {
    const found = item.kind === 'rounds' ? find(item.items, line) : item.line === line ? item : null;
    if (found) return found;
  }
  return null;
}
