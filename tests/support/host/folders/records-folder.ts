/*
 * The runs of a data folder for tests: on a disk in memory, or on a real one, with the host that they belong to.
 */

import { Records, type OpenedRun } from '../../../../app/host/records/records.ts';
import type { Disk } from '../../../../app/host/journal/disk.ts';
import type { Library } from '../../../../app/host/library/library.ts';
import type { Guard } from '../../../../app/host/journal/run-file.ts';
import type { RecordsAnswer, RecordsGiven, RecordsRequest, RecordsWish } from '../../../../app/wire/records/records.ts';
import { FreeFolder } from '../../system/free-folder.ts';

const NO_RUN: OpenedRun = { id: () => null, letGo: () => Promise.resolve(true) };

export interface RecordsOptions {
  readonly data?: string;
  readonly opened?: OpenedRun;
  readonly library?: Library;
  readonly guard?: Guard;
  readonly now?: () => number;
}

export function recordsOn(disk: Disk, options: RecordsOptions = {}): Records {
  const { data = '/data', opened = NO_RUN, library, guard = new FreeFolder(), now = () => 0 } = options;
  const withLibraryStill = <Value>(task: () => Promise<Value>): Promise<Value> =>
    library ? library.still(task) : task();
  return new Records({ disk, data, guard, now, opened, withLibraryStill });
}

/** What is given; throws where it is refused. */
export async function given<Wish extends RecordsWish>(
  records: Records,
  asked: Extract<RecordsRequest, { do: Wish }>,
): Promise<RecordsGiven[Wish]> {
  const answer: RecordsAnswer<Wish> = await records.ask<Wish>(asked);
  if (!answer.ok) throw new Error(answer.why);
  return answer;
}
