/*
 * Keeps the wall screens in one file of the data folder. It is replaced as a whole, so that a crash leaves the old one
 * or the new one. What is not ours, or broken, is set aside and never written over; a newer program's is left alone.
 */

import { join } from 'node:path';
import { SCREENS_VERSION, screensFile, type KeptScreen } from '../../wire/screen-settings.ts';
import { codeOf, diskReason, type Disk } from '../journal/disk.ts';
import type { Guard } from '../journal/run-file.ts';
import type { ScreenBook } from './screen-book.ts';

export interface ScreensFilePorts {
  readonly disk: Disk;
  /** The data folder. */
  readonly folder: string;
  readonly guard: Guard;
  /** For the coach, as long as screens cannot be kept; null when they can. */
  readonly tell: (sentence: string | null) => void;
}

export interface KeptScreens {
  /** A sentence for the coach where the file could not be read; null where all is well. */
  readonly said: string | null;
  /** Resolves when what has changed is on the disk, or refused by it. */
  written(): Promise<void>;
}

const FILE = 'screens.json';

/** A hundred screens take 60 KiB; whatever is larger is not ours. */
const MOST_BYTES = 1024 * 1024;

/** What stands in the file. */
type Found =
  | { readonly kind: 'screens'; readonly screens: readonly KeptScreen[]; readonly why: string | null }
  /** Nothing may be written there. */
  | { readonly kind: 'leave alone'; readonly why: string }
  | { readonly kind: 'not ours' };

/** Reads the file into the book, and writes it whenever that changes. Never rejects. */
export async function keepScreens(book: ScreenBook, ports: ScreensFilePorts): Promise<KeptScreens> {
  const path = join(ports.folder, FILE);
  const found = await readScreens(ports.disk, path);
  const settled = found.kind === 'not ours' ? await setAside(ports, path) : found;
  if (settled.kind === 'leave alone') {
    book.keepWith([], () => undefined);
    return { said: settled.why, written: () => Promise.resolve() };
  }
  const writing = new Writing(ports, path);
  book.keepWith(settled.screens, (screens) => writing.write(screens));
  return { said: settled.why, written: () => writing.done };
}

const NOTHING = { kind: 'screens', screens: [], why: null } as const;

async function readScreens(disk: Disk, path: string): Promise<Found> {
  let bytes: Uint8Array;
  try {
    if (!(await disk.exists(path))) return NOTHING;
    bytes = await disk.read(path);
  } catch (error) {
    return codeOf(error) === 'ENOENT'
      ? NOTHING
      : { kind: 'leave alone', why: `${path} cannot be read (${diskReason(error)}): ${NOT_KEPT}` };
  }
  const value = bytes.length > MOST_BYTES ? null : jsonOf(bytes);
  const { version } = Object(value) as { readonly version?: unknown };
  if (Number.isSafeInteger(version) && Number(version) > SCREENS_VERSION) {
    return { kind: 'leave alone', why: `${path} is of a newer Lanecall and left as it is: ${NOT_KEPT}` };
  }
  const file = screensFile.safeParse(value);
  return file.success ? { kind: 'screens', screens: file.data.screens, why: null } : { kind: 'not ours' };
}

const NOT_KEPT = 'the screens have their first settings, and changes last until Lanecall ends.';

async function setAside(
  { disk, guard }: ScreensFilePorts,
  path: string,
): Promise<Exclude<Found, { kind: 'not ours' }>> {
  try {
    await guard.check();
    const aside = await freePath(disk, path);
    await disk.move([{ from: path, to: aside }]);
    const why = `${path} does not hold the settings of screens: it is kept as ${aside}, and the screens have their first settings.`;
    return { ...NOTHING, why };
  } catch (error) {
    return {
      kind: 'leave alone',
      why: `${path} does not hold the settings of screens and cannot be moved (${diskReason(error)}): ${NOT_KEPT}`,
    };
  }
}

async function freePath(disk: Disk, path: string): Promise<string> {
  for (let n = 1; ; n++) {
    const aside = `${path}.aside-${n}`;
    if (!(await disk.exists(aside))) return aside;
  }
}

/** One write at a time, each of what is latest then. */
class Writing {
  done: Promise<void> = Promise.resolve();
  private latest: readonly KeptScreen[] | null = null;
  private readonly ports: ScreensFilePorts;
  private readonly path: string;

  constructor(ports: ScreensFilePorts, path: string) {
    this.ports = ports;
    this.path = path;
  }

  write(screens: readonly KeptScreen[]): void {
    const isWaiting = this.latest !== null;
    this.latest = screens;
    if (!isWaiting) this.done = this.done.then(() => this.writeLatest());
  }

  private async writeLatest(): Promise<void> {
    const { disk, folder, guard, tell } = this.ports;
    const screens = this.latest ?? [];
    this.latest = null;
    const text = `${JSON.stringify({ version: SCREENS_VERSION, screens }, null, 2)}\n`;
    try {
      await guard.check();
      await disk.makeFolder(folder);
      await disk.replace(this.path, Buffer.from(text));
      tell(null);
    } catch (error) {
      tell(
        `The screens' settings cannot be kept in ${this.path} (${diskReason(error)}): they hold until Lanecall ends. ` +
          'They are written with the next change.',
      );
    }
  }
}

/** The value; null if the bytes are not JSON in UTF-8. */
function jsonOf(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return null;
  }
}
