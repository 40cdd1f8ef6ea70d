/*
 * The grammar of every sentence: how many of a thing, several things in a row, a first letter.
 */

/** "1 rep", "3 reps", "2 lengths"; `many` where an s does not make the plural. */
export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}

/** "a", "a and b", "a, b and c". */
export function listed(texts: readonly string[]): string {
  if (texts.length < 2) return texts.join('');
  return `${texts.slice(0, -1).join(', ')} and ${texts[texts.length - 1]}`;
}

/** "rep 3", "reps 3 and 4", "reps 3 to 5": what is numbered, from one to another. */
export function spanned(one: string, from: number, to: number): string {
  if (from === to) return `${one} ${from}`;
  return `${one}s ${from} ${to === from + 1 ? 'and' : 'to'} ${to}`;
}

/** What there is of several texts, one space between. */
export function spaced(...texts: readonly string[]): string {
  return texts.filter((text) => text !== '').join(' ');
}

/** The same with commas. */
export function commaed(...texts: readonly string[]): string {
  return texts.filter((text) => text !== '').join(', ');
}

/** As a sentence begins. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
