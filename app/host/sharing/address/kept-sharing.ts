/*
 * Keeps at which address the host shares, in a file of the data folder, for a start after a crash: where a run comes back
 * within ten minutes on the same address, sharing stands as it stood. Otherwise it is off at every start.
 */

import { join } from 'node:path';
import { LET_IN_VERSION, sharingFile } from '../../../wire/sharing/let-in.ts';
import { readKept, type KeptForm } from '../../kept-json.ts';
import { KeptWriting, type KeptWritingPorts } from '../../kept-writing.ts';

const FILE = 'sharing.json';

const FORM: KeptForm<string | null> = {
  version: LET_IN_VERSION,
  mostBytes: 4096,
  read: (json) => sharingFile.safeParse(json).data?.address ?? null,
};

export interface KeptSharing {
  /** Where it shared when it was last cut off; null where it did not. */
  readonly address: string | null;
  /**
   * Null for off: a program that has never shared writes no file. Where the disk refuses, the next start does not share
   * by itself: nobody is told.
   */
  keep(address: string | null): Promise<void>;
}

/** Never rejects. */
export async function keepSharing(ports: KeptWritingPorts): Promise<KeptSharing> {
  const path = join(ports.folder, FILE);
  const writing = new KeptWriting(ports, path);
  const found = await readKept(ports.disk, path, FORM);
  const address = found.kind === 'kept' ? found.value : null;
  /** What the file says, or is to say; undefined where nobody knows. */
  let stands: string | null | undefined = found.kind === 'unreadable' ? undefined : address;
  let written = Promise.resolve();
  return {
    address,
    keep(wanted) {
      if (found.kind === 'newer' || wanted === stands) return written;
      stands = wanted;
      written = writing.write({ version: LET_IN_VERSION, address: wanted }).then((fault) => {
        if (fault !== null) stands = undefined;
      });
      return written;
    },
  };
}
