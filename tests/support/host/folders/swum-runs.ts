/*
 * Runs that a small squad has swum, on a disk in memory, with the records that answer about them.
 */

import type { Records } from '../../../../app/host/records/records.ts';
import type { RecordsAnswer, RecordsRequest, RecordsWish } from '../../../../app/wire/records/records.ts';
import { FakeDisk } from './fake-disk.ts';
import { recordsOn } from './records-folder.ts';
import { DONE, journalLines, said, type WrittenRun } from './written-journal.ts';

export const SQUAD_TEXT = `Harbour squad, Thursday
# for Thursday 26 November 2026
start 19:30
lane 1 css 1:20, Ana, Bram
lane 2 3 swimmers

Main set
4 x 50 fast @ 1:00 hold 0:40

Swim-down
100 easy @ 3:00
`;

/** Started at the opening; a mark in lane 2, one rep less in lane 1. */
export const SQUAD_DEEDS = said([
  { atMs: 0, fields: { do: 'start' } },
  { atMs: 40_000, fields: { do: 'mark', lanes: [2], words: 'cramp' } },
  { atMs: 90_000, fields: { do: 'sit-out', lanes: [1] } },
]);

export class SwumRuns {
  readonly disk: FakeDisk;
  readonly records: Records;

  /** On the disk of another, as after a restart. */
  constructor(disk = new FakeDisk()) {
    this.disk = disk;
    this.records = recordsOn(disk);
  }

  write(run: string, more: Partial<WrittenRun> = {}, deeds: typeof SQUAD_DEEDS = SQUAD_DEEDS): void {
    const lines = journalLines({ run, text: SQUAD_TEXT, ...more }, [...deeds, DONE]);
    this.disk.put(`/data/runs/${run}.jsonl`, Buffer.from(lines.join('')));
  }

  ask = <Wish extends RecordsWish>(asked: Extract<RecordsRequest, { do: Wish }>): Promise<RecordsAnswer<Wish>> =>
    this.records.ask<Wish>(asked);

  /** What stands in a file; null for none. */
  text(path: string): string | null {
    try {
      return Buffer.from(this.disk.readNow(path)).toString('utf8');
    } catch {
      return null;
    }
  }
}
