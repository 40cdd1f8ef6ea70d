/*
 * Keeps the devices that were let in, in two files of the data folder that only this user can read: the walls, of which
 * there is nothing in it that lets anyone in, and the keys of the others. What is not ours, or broken, is set aside and
 * never written over; a newer program's is left alone.
 */

import { join } from 'node:path';
import { keysFile, LET_IN_VERSION, wallsFile, type KeptKey, type KeptWall } from '../../../wire/sharing/let-in.ts';
import { diskReason } from '../../journal/disk.ts';
import { readKept, setAside, type KeptForm } from '../../kept-json.ts';
import { KeptWriting, type KeptWritingPorts } from '../../kept-writing.ts';
import type { Devices } from './devices.ts';

export interface DeviceFilesPorts extends KeptWritingPorts {
  /** For the coach, as long as devices cannot be kept; null when they can. */
  readonly tell: (sentence: string | null) => void;
}

export interface KeptDeviceFiles {
  /** A sentence for the coach for each file that could not be read. */
  readonly said: readonly string[];
  /** Resolves when what has changed is on the disk, or refused by it. */
  written(): Promise<void>;
}

// 256 walls take 60 KiB.
const MOST_BYTES = 1024 * 1024;

const WALLS: KeptForm<readonly KeptWall[]> = {
  version: LET_IN_VERSION,
  mostBytes: MOST_BYTES,
  read: (json) => wallsFile.safeParse(json).data?.walls ?? null,
};

const KEYS: KeptForm<readonly KeptKey[]> = {
  version: LET_IN_VERSION,
  mostBytes: MOST_BYTES,
  read: (json) => keysFile.safeParse(json).data?.keys ?? null,
};

/** Reads the files, and writes each whenever it changes. Never rejects. */
export async function keepDevices(devices: Devices, ports: DeviceFilesPorts): Promise<KeptDeviceFiles> {
  const walls = await DeviceFile.open(ports, 'walls.json', WALLS);
  const keys = await DeviceFile.open(ports, 'keys.json', KEYS);
  let latest: Promise<unknown> = Promise.resolve();
  devices.keepWith({ walls: walls.found, keys: keys.found }, (kept) => {
    const written = Promise.all([
      walls.write(kept.walls, { version: LET_IN_VERSION, walls: kept.walls }),
      keys.write(kept.keys, { version: LET_IN_VERSION, keys: kept.keys }),
    ]).then(([ofWalls, ofKeys]) => ofWalls ?? ofKeys);
    latest = written.then(ports.tell);
    return written;
  });
  return {
    said: [walls.said, keys.said].filter((sentence) => sentence !== null),
    written: async () => void (await latest),
  };
}

class DeviceFile<Entry> {
  /** What stood in it. */
  readonly found: readonly Entry[];
  readonly said: string | null;
  private readonly path: string;
  /** Null where nothing may be written. */
  private readonly writing: KeptWriting | null;
  private stands: string;
  private fault: Promise<string | null> = Promise.resolve(null);

  private constructor(path: string, writing: KeptWriting | null, found: readonly Entry[], said: string | null) {
    this.path = path;
    this.writing = writing;
    this.found = found;
    this.said = said;
    this.stands = JSON.stringify(found);
  }

  static async open<Entry>(
    ports: DeviceFilesPorts,
    name: string,
    form: KeptForm<readonly Entry[]>,
  ): Promise<DeviceFile<Entry>> {
    const path = join(ports.folder, name);
    const writing = new KeptWriting(ports, path);
    const found = await readKept(ports.disk, path, form);
    switch (found.kind) {
      case 'kept':
        return new DeviceFile(path, writing, found.value, null);
      case 'none':
        return new DeviceFile<Entry>(path, writing, [], null);
      case 'newer':
        return new DeviceFile<Entry>(path, null, [], `${path} is of a newer Lanecall and left as it is: ${NOT_KEPT}`);
      case 'unreadable':
        return new DeviceFile<Entry>(path, null, [], `${path} cannot be read (${found.reason}): ${NOT_KEPT}`);
      case 'not ours':
        try {
          const aside = await setAside(ports.disk, ports.guard, path);
          return new DeviceFile<Entry>(path, writing, [], `${path} holds no devices: it is kept as ${aside}.`);
        } catch (error) {
          const why = `${path} holds no devices and cannot be moved (${diskReason(error)}): ${NOT_KEPT}`;
          return new DeviceFile<Entry>(path, null, [], why);
        }
    }
  }

  /** A sentence where it could not be written. */
  write(entries: readonly Entry[], file: object): Promise<string | null> {
    const text = JSON.stringify(entries);
    if (text === this.stands || !this.writing) return this.fault;
    this.stands = text;
    this.fault = this.writing.write(file).then((reason) => {
      if (reason === null) return null;
      // The next change writes it all.
      this.stands = '';
      return `Who is let in cannot be kept in ${this.path} (${reason}): it holds until Lanecall ends, and no longer.`;
    });
    return this.fault;
  }
}

const NOT_KEPT = 'who is let in, or thrown out, is forgotten when Lanecall ends.';
