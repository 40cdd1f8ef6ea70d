/*
 * A journal in memory: nothing outlives the process. `lines` are what a disk would hold, signs of life apart.
 */

import type {
  AliveSign,
  Closing,
  Journal,
  JournalLine,
  Opening,
  Writing,
} from '../../../../app/host/journal/journal.ts';

export class JournalInMemory implements Journal {
  readonly openings: Opening[] = [];
  readonly lines: JournalLine[] = [];
  readonly closings: Closing[] = [];
  lastSign: AliveSign | null = null;

  open(opening: Opening, replaced: Closing | null): Promise<void> {
    this.openings.push(opening);
    if (replaced) void this.close(replaced);
    return Promise.resolve();
  }

  append(line: JournalLine): Writing {
    this.lines.push(line);
    return { inFile: Promise.resolve(), safe: Promise.resolve() };
  }

  alive(sign: AliveSign): void {
    this.lastSign = sign;
  }

  back(): Promise<void> {
    return Promise.resolve();
  }

  close(closing: Closing): Promise<void> {
    if (this.closings[this.closings.length - 1]?.run !== closing.run) this.closings.push(closing);
    return Promise.resolve();
  }

  letGo(): Promise<boolean> {
    return Promise.resolve(true);
  }

  onCaughtUp(): void {
    // Nothing is ever refused here.
  }
}
