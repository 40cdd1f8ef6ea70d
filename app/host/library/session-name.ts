/*
 * Names of sessions, which are the names of their files. A name is what people write ("Thursday masters"), and one that
 * every file system takes, so that a data folder can be copied from one machine to another.
 */

/** The file of a session or piece. */
export const SUFFIX = '.txt';

/** The name that a file has, whose ending may be in capitals; null for a file of another kind. */
export function nameInFile(file: string): string | null {
  return /\.txt$/i.test(file) ? file.slice(0, -SUFFIX.length) : null;
}

/** Whether it is what a write that was broken off has left. */
export function isHalfWritten(file: string): boolean {
  return /\.txt\.new$/i.test(file);
}

/** Leaves room in the 255 bytes of a file's name for the time in the bin and the suffixes. */
const MOST_BYTES = 200;

/** Windows refuses them, and some mean another place everywhere. */
const FOREIGN = /[\\/:*?"<>|]/u;

/** Control characters, line ends, halves of characters, and what turns the direction of the letters around it. */
const UNSEEN = /[\p{Cc}\p{Cs}\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]/u;

/** Devices of Windows, with whatever stands behind a dot. */
const DEVICE = /^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])\s*(\.|$)/iu;

const NAMELESS = 'Session';

/** Why a text can be no name; null where it can. */
export function nameFlaw(text: string): string | null {
  const name = tidied(text);
  if (name === '') return 'A session needs a name: write one.';
  const foreign = FOREIGN.exec(name);
  if (foreign) return `A name cannot have ${foreign[0]} in it: file systems do not take it. Leave it out.`;
  if (UNSEEN.test(name)) return 'The name has a character in it that cannot be seen: type it anew.';
  if (name.startsWith('.')) return 'A name cannot begin with a dot: such files are hidden.';
  if (name.endsWith('.')) return 'A name cannot end with a dot: Windows takes it away.';
  if (DEVICE.test(name)) return `Windows keeps the name ${name} for itself: add a word to it.`;
  if (Buffer.byteLength(name) > MOST_BYTES) return 'The name is too long for a file: make it shorter.';
  return null;
}

/** As it is written to the disk: composed letters, single spaces, none at the ends. */
export function tidied(text: string): string {
  return text.normalize('NFC').replace(/\s+/gu, ' ').trim();
}

/** The name that is nearest to any text. */
export function nearestName(text: string): string {
  const seen = tidied(text.replace(new RegExp(`${FOREIGN.source}|${UNSEEN.source}`, 'gu'), ' '));
  const name = shortened(seen).replace(/^[. ]+|[. ]+$/gu, '');
  if (name === '') return NAMELESS;
  return DEVICE.test(name) ? `${NAMELESS} ${name}` : name;
}

/** As many of its letters as a name can have. */
export function shortened(text: string): string {
  let name = '';
  for (const letter of text) if (Buffer.byteLength(name + letter) <= MOST_BYTES) name += letter;
  return name;
}

/** The same for names that some file systems take for one: case and the way letters are composed do not count. */
export function nameKey(name: string): string {
  return name.normalize('NFC').toLocaleUpperCase('en');
}

/** The name itself, or with the first number behind it that is not taken. `taken`: keys. */
export function freeName(name: string, taken: ReadonlySet<string>): string {
  if (!taken.has(nameKey(name))) return name;
  for (let n = 2; ; n++) {
    const end = ` (${n})`;
    let stem = name;
    while (Buffer.byteLength(stem + end) > MOST_BYTES) stem = Array.from(stem).slice(0, -1).join('');
    if (!taken.has(nameKey(stem + end))) return stem + end;
  }
}

/** Whether a name can only mean a file in its folder, and not one elsewhere or a stream of a file. */
export function staysInFolder(name: string): boolean {
  return name !== '' && !/[\\/:\0]/u.test(name) && !name.startsWith('.');
}
