/*
 * One folder of plain texts, a file each. Files are replaced as a whole, so that a crash leaves the old or the new
 * text; and the content is compared before each write, because other programs may write there too.
 */

import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { codeOf, type Disk, type DiskWatch, type FileFacts } from '../journal/disk.ts';
import { MOST_BYTES, textOf } from '../text-file.ts';
import { nameInFile, staysInFolder, SUFFIX } from './session-name.ts';

export interface ShelfText {
  readonly text: string;
  /** The same for the same bytes. */
  readonly version: string;
}

/** A refusal in a sentence for the coach, as an error. */
export class ShelfRefusal extends Error {
  /** Where the file is another than the one that was to be replaced. */
  readonly changed: { readonly now: ShelfText | null } | undefined;

  constructor(why: string, changed?: { readonly now: ShelfText | null }) {
    super(why);
    this.changed = changed;
  }
}

export class Shelf {
  readonly folder: string;
  private readonly disk: Disk;
  /** The files whose ending is in capitals, by name, as last listed; null where it is to be listed first. */
  private inCapitals: ReadonlyMap<string, string> | null = null;

  constructor(disk: Disk, folder: string) {
    this.disk = disk;
    this.folder = folder;
  }

  /** All names; none where the folder does not exist. Of two files with one name, the one in capitals is not there. */
  async names(): Promise<readonly string[]> {
    const files = new Map<string, string>();
    for (const file of await this.disk.list(this.folder)) {
      const name = nameInFile(file);
      if (name === null || !staysInFolder(name)) continue;
      if (!files.has(name) || file.endsWith(SUFFIX)) files.set(name, file);
    }
    this.inCapitals = new Map([...files].filter(([, file]) => !file.endsWith(SUFFIX)));
    return [...files.keys()];
  }

  async facts(name: string): Promise<FileFacts | null> {
    return this.disk.facts(await this.pathOf(name));
  }

  /** null where there is no such file. Rejects with a refusal for what is no text. */
  async read(name: string): Promise<ShelfText | null> {
    const path = await this.pathOf(name);
    let bytes: Uint8Array;
    try {
      // One byte more than a session can have tells that it is too long; a film with that name is not read whole.
      bytes = await this.disk.readStart(path, MOST_BYTES + 1);
    } catch (error) {
      if (codeOf(error) === 'ENOENT') return null;
      throw error;
    }
    const text = textOf(bytes);
    if (text.ok) return { text: text.value, version: versionOf(bytes) };
    throw new ShelfRefusal(`${name}${SUFFIX} cannot be opened: ${text.faults[0]!.message}.`);
  }

  async create(name: string, text: string): Promise<string> {
    const bytes = Buffer.from(text);
    await this.disk.makeFolder(this.folder);
    await this.disk.create(this.newPath(name), bytes);
    this.inCapitals = null;
    return versionOf(bytes);
  }

  /** The new version. Rejects with a refusal where the file is not at `version`; then nothing is written. */
  async replace(name: string, text: string, version: string): Promise<string> {
    const path = await this.pathOf(name);
    const mark = this.disk.mark(path);
    const now = await this.read(name);
    const changed = `${name}${SUFFIX} was changed elsewhere.`;
    if (now?.version !== version) throw new ShelfRefusal(changed, { now });
    const bytes = Buffer.from(text);
    if (versionOf(bytes) === version) return version;
    await this.disk
      .replace(path, bytes, () => {
        const last = this.disk.mark(path);
        if (last?.changed !== mark?.changed || last?.length !== mark?.length) throw new ChangedMeanwhile();
      })
      .catch(async (error: unknown) => {
        if (!(error instanceof ChangedMeanwhile)) throw error;
        throw new ShelfRefusal(changed, { now: await this.read(name) });
      });
    return versionOf(bytes);
  }

  async move(name: string, to: Shelf, as: string): Promise<void> {
    await this.disk.makeFolder(to.folder);
    await this.disk.move([{ from: await this.pathOf(name), to: to.newPath(as) }]);
    to.inCapitals = null;
  }

  async remove(name: string): Promise<void> {
    return this.disk.remove(await this.pathOf(name));
  }

  /** Calls with a name that may have changed, null for any. The folder is made for it; null where the system cannot tell. */
  async watch(changed: (name: string | null) => void): Promise<DiskWatch | null> {
    await this.disk.makeFolder(this.folder);
    return this.disk.watch(this.folder, (file) => {
      const name = file === null ? null : nameInFile(file);
      if (file === null) changed(null);
      else if (name !== null && staysInFolder(name)) changed(name);
    });
  }

  private async pathOf(name: string): Promise<string> {
    const usual = this.newPath(name);
    if (this.inCapitals === null) await this.names();
    const file = this.inCapitals?.get(name);
    return file === undefined ? usual : join(this.folder, file);
  }

  private newPath(name: string): string {
    if (!staysInFolder(name)) throw new ShelfRefusal(`${name} is no name of a file in the library.`);
    return join(this.folder, name + SUFFIX);
  }
}

class ChangedMeanwhile extends Error {}

function versionOf(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex').slice(0, 32);
}
