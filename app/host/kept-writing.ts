/*
 * Writes a file of the data folder that keeps something as JSON: one write at a time, each of what is latest then.
 */

import { diskReason, type Disk } from './journal/disk.ts';
import type { Guard } from './journal/run-file.ts';
import { keptBytes } from './kept-json.ts';

export interface KeptWritingPorts {
  readonly disk: Disk;
  /** The data folder. */
  readonly folder: string;
  readonly guard: Guard;
}

export class KeptWriting {
  private latest: object | null = null;
  private next: Promise<string | null> = Promise.resolve(null);
  private readonly ports: KeptWritingPorts;
  private readonly path: string;

  constructor(ports: KeptWritingPorts, path: string) {
    this.ports = ports;
    this.path = path;
  }

  /** Resolves when this, or what came after it, is on the disk; with the reason where the disk refused. */
  write(value: object): Promise<string | null> {
    const isWaiting = this.latest !== null;
    this.latest = value;
    if (!isWaiting) this.next = this.next.then(() => this.writeLatest());
    return this.next;
  }

  private async writeLatest(): Promise<string | null> {
    const { disk, folder, guard } = this.ports;
    const value = this.latest!;
    this.latest = null;
    try {
      await guard.check();
      await disk.makeFolder(folder);
      await disk.replace(this.path, keptBytes(value));
      return null;
    } catch (error) {
      return diskReason(error);
    }
  }
}
