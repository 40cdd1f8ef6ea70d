/*
 * From where a session can be rehearsed: its beginning, each part, and each line that is swum.
 */

import type { Command } from '../../../app/core/run/command/command.ts';
import type { Target } from '../../../app/core/run/view/outline.ts';
import type { RunView } from '../../../app/core/run/view.ts';
import { outlineParts } from '../outline/outline-rows.ts';

export interface Place {
  /** Stays the same while the text does. */
  readonly choice: string;
  readonly name: string;
  /** null for the beginning. */
  readonly from: Extract<Command, { do: 'go-to' }> | null;
}

export const BEGINNING: Place = { choice: 'beginning', name: 'the beginning', from: null };

/** view: of a run in which nothing has begun. */
export function placesIn(view: RunView): readonly Place[] {
  const places: Place[] = [BEGINNING];
  outlineParts(view, () => true).forEach(({ row, lines }, index) => {
    const swum = lines.filter(({ target }) => target !== null);
    const [first] = swum;
    if (!first?.target) return;
    if (index > 0) places.push({ choice: row.key, name: row.text, from: goTo(first.target) });
    for (const { key, text, target } of swum) {
      if (target) places.push({ choice: `${row.key} ${key}`, name: `${row.text}: ${text}`, from: goTo(target) });
    }
  });
  return places;
}

function goTo({ line, rounds }: Target): NonNullable<Place['from']> {
  const numbers = rounds.map(({ round }) => round);
  return { do: 'go-to', line, ...(numbers.length > 0 ? { rounds: numbers } : {}), rep: 1 };
}
