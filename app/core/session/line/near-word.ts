/*
 * The word of the notation that a misspelt one is surely meant as: one slip of the keyboard away, or two in a long word,
 * and no other as near. Another letter makes another word ("best" is not "rest"), but in a long one.
 */

const WORDS = [
  ...['pool', 'start', 'finish', 'gap', 'between', 'grid', 'lane', 'lanes', 'auto'],
  ...['base', 'css', 'swimmers', 'rest', 'hold', 'drop', 'add', 'rounds', 'times', 'odds', 'evens', 'talk', 'break'],
];

/** A shorter word is too many other words at one slip. */
const SHORTEST = 3;
/** From so many letters on, two slips are one word still. */
const LONG = 7;

/** null for a word that is right, and for one that is like none or like several. */
export function nearWord(word: string): string | null {
  const written = word.toLowerCase();
  if (written.length < SHORTEST || WORDS.includes(written)) return null;
  const near = WORDS.map((right) => ({ right, slips: slipsBetween(written, right) }))
    .filter(({ right, slips }) => slips <= (right.length >= LONG ? 2 : 1))
    .sort((a, b) => a.slips - b.slips);
  const [first, second] = near;
  return first && first.slips !== second?.slips ? first.right : null;
}

/** How many letters are missing, too many, wrong, or in each other's place. */
function slipsBetween(one: string, other: string): number {
  const rows: number[][] = [Array.from({ length: other.length + 1 }, (_, index) => index)];
  for (let at = 1; at <= one.length; at++) {
    const row = [at];
    for (let to = 1; to <= other.length; to++) {
      const same = one[at - 1] === other[to - 1] ? 0 : other.length >= LONG ? 1 : 2;
      row.push(Math.min(rows[at - 1]![to]! + 1, row[to - 1]! + 1, rows[at - 1]![to - 1]! + same));
      const isSwapped = at > 1 && to > 1 && one[at - 1] === other[to - 2] && one[at - 2] === other[to - 1];
      if (isSwapped) row[to] = Math.min(row[to]!, rows[at - 2]![to - 2]! + 1);
    }
    rows.push(row);
  }
  return rows[one.length]![other.length]!;
}
