/*
 * Whom something is for: "lane 2", "lanes 1–3 and 5", "all lanes".
 */

import { listed } from './phrase.ts';

/** "lane 2", "lanes 2 and 4", "lanes 1–6", "lanes 1–3 and 5". */
export function lanesNamed(numbers: readonly number[]): string {
  return `${numbers.length === 1 ? 'lane' : 'lanes'} ${listed(ranged(numbers))}`;
}

/** Three in a row and more as a range. */
function ranged(numbers: readonly number[]): readonly string[] {
  const rows: number[][] = [];
  for (const number of numbers) {
    const row = rows[rows.length - 1];
    if (row && number === row[row.length - 1]! + 1) row.push(number);
    else rows.push([number]);
  }
  return rows.reduce<string[]>(
    (all, row) => all.concat(row.length > 2 ? `${row[0]}–${row[row.length - 1]}` : row.map(String)),
    [],
  );
}

/** As a command has them: those named, or all where it names none. */
export function lanesOrAll(numbers: readonly number[]): string {
  return numbers.length > 0 ? lanesNamed(numbers) : 'all lanes';
}

/** "all lanes" where those named are all that are in, else their numbers. */
export function lanesOf(
  numbers: readonly number[],
  lanes: readonly { readonly number: number; readonly in: boolean }[],
): string {
  const inside = lanes.filter((lane) => lane.in);
  const isAll = inside.length > 1 && inside.every(({ number }) => numbers.includes(number));
  return isAll ? 'all lanes' : lanesNamed(numbers);
}
