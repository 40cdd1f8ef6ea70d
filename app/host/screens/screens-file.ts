/*
 * Keeps the wall screens in one file of the data folder. It is replaced as a whole, so that a crash leaves the old one
 * or the new one. What is not ours, or broken, is set aside and never written over; a newer program's is left alone.
 */

import { join } from 'node:path';
import { SCREENS_VERSION, screensFile, type KeptScreen } from '../../wire/screen-settings.ts';
import { diskReason, type Disk } from '../journal/disk.ts';
import { readKept, setAside, type KeptForm } from '../kept-json.ts';
import { KeptWriting, type KeptWritingPorts } from '../kept-writing.ts';
import type { ScreenBook } from './screen-book.ts';

export interface ScreensFilePorts extends KeptWritingPorts {
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

const FORM: KeptForm<readonly KeptScreen[]> = {
  version: SCREENS_VERSION,
  // A hundred screens take 60 KiB.
  mostBytes: 1024 * 1024,
  read: (json) => screensFile.safeParse(json).data?.screens ?? null,
};

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
  const settled = found.kind === 'not ours' ? await movedAside(ports, path) : found;
  if (settled.kind === 'leave alone') {
    book.keepWith([], () => undefined);
    return { said: settled.why, written: () => Promise.resolve() };
  }
  const writing = new KeptWriting(ports, path);
  let latest: Promise<string | null> = Promise.resolve(null);
  book.keepWith(settled.screens, (screens) => {
    const written = writing.write({ version: SCREENS_VERSION, screens });
    if (written === latest) return;
    latest = written;
    void written.then((reason) => ports.tell(reason && notKept(path, reason)));
  });
  return { said: settled.why, written: async () => void (await latest) };
}

const NOTHING = { kind: 'screens', screens: [], why: null } as const;

async function readScreens(disk: Disk, path: string): Promise<Found> {
  const found = await readKept(disk, path, FORM);
  switch (found.kind) {
    case 'kept':
      return { kind: 'screens', screens: found.value, why: null };
    case 'none':
      return NOTHING;
    case 'newer':
      return { kind: 'leave alone', why: `${path} is of a newer Lanecall and left as it is: ${NOT_KEPT}` };
    case 'unreadable':
      return { kind: 'leave alone', why: `${path} cannot be read (${found.reason}): ${NOT_KEPT}` };
    case 'not ours':
      return { kind: 'not ours' };
  }
}

const NOT_KEPT = 'the screens have their first settings, and changes last until Lanecall ends.';

async function movedAside(
  { disk, guard }: ScreensFilePorts,
  path: string,
): Promise<Exclude<Found, { kind: 'not ours' }>> {
  try {
    const aside = await setAside(disk, guard, path);
    const why = `${path} does not hold the settings of screens: it is kept as ${aside}, and the screens have their first settings.`;
    return { ...NOTHING, why };
  } catch (error) {
    return {
      kind: 'leave alone',
      why: `${path} does not hold the settings of screens and cannot be moved (${diskReason(error)}): ${NOT_KEPT}`,
    };
  }
}

function notKept(path: string, reason: string): string {
  return (
    `The screens' settings cannot be kept in ${path} (${reason}): they hold until Lanecall ends. ` +
    'They are written with the next change.'
  );
}
