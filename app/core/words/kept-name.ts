/*
 * A name that somebody gives to something that is kept: a wall screen, a squad.
 */

/** As it is kept: without spaces at its ends, and one between words; null for what is no name. */
export function keptName(text: string, longest: number): string | null {
  const name = text.normalize('NFC').replace(/\s+/g, ' ').trim();
  // Nothing that cannot be seen, or that turns the letters after it around.
  const isSeen = !/[\p{C}\ufffd]/u.test(name);
  return name !== '' && name.length <= longest && isSeen ? name : null;
}
