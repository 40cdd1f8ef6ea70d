/*
 * The name of a wall screen, by which its settings are kept.
 */

/** So long a name can be read across a pool when it is shown large. */
export const LONGEST_NAME = 40;

/** Of the desktop program's own wall screen. */
export const OWN_WALL = 'Wall';

/** A name as it is kept: without spaces at its ends, and one between words; null for what is no name. */
export function screenName(text: string): string | null {
  const name = text.normalize('NFC').replace(/\s+/g, ' ').trim();
  // Nothing that cannot be seen, or that turns the letters after it around.
  const isSeen = !/[\p{C}\p{Zl}\p{Zp}\ufffd]/u.test(name);
  return name !== '' && name.length <= LONGEST_NAME && isSeen ? name : null;
}

/** "Screen 1", or the first number after it that is not taken. */
export function freeName(isTaken: (name: string) => boolean): string {
  for (let n = 1; ; n++) {
    const name = `Screen ${n}`;
    if (!isTaken(name)) return name;
  }
}
