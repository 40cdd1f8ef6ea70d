/*
 * All runs for the history. A summary of each closed run is worked out once and kept beside its journal; it is worked out
 * anew where it is missing, damaged, of another version, or of another journal or addition than those that are there.
 * That takes its time, so each look does a little of it.
 */

import { join } from 'node:path';
import { NOTHING_ADDED } from '../../core/record/afterwards.ts';
import { historyRun, searchedWords } from '../../core/record/history/history-run.ts';
import { swumOf } from '../../core/record/record.ts';
import { hasStarted } from '../../core/run/first-start.ts';
import type { Millis } from '../../core/units.ts';
import { runSummary, SUMMARY_VERSION, type RunSummary, type SummarisedFile } from '../../wire/records/run-summary.ts';
import type { Disk, FileMark } from '../journal/disk.ts';
import type { Guard } from '../journal/run-file.ts';
import { afterwardsPath, readAfterwards } from './afterwards-file.ts';
import { readKept } from './kept-journal.ts';
import { isJournal, summaryPath } from './run-files.ts';

export interface HistoryPorts {
  readonly disk: Disk;
  /** Of the journals. */
  readonly folder: string;
  readonly guard: Guard;
  /** In ms, of any beginning. */
  readonly now: () => Millis;
}

export interface KnownRun {
  readonly path: string;
  readonly summary: RunSummary;
  /** Why it cannot be read; null where it can. */
  readonly unread: string | null;
}

export interface HistoryLook {
  /** The newest first, by the time of opening in their names. */
  readonly runs: readonly KnownRun[];
  /** How many are still to be worked out. */
  readonly toCome: number;
}

/** For how long one look works out summaries. */
const PATIENCE: Millis = 150;

/** After so many files everything else gets its turn. */
const AT_A_TIME = 20;

export class History {
  private readonly ports: HistoryPorts;
  private known = new Map<string, KnownRun>();

  constructor(ports: HistoryPorts) {
    this.ports = ports;
  }

  /** Rejects with the system's reason where the folder cannot be read. */
  async look(patience = PATIENCE): Promise<HistoryLook> {
    const { disk, folder, now } = this.ports;
    const names = await disk.list(folder);
    const there = new Set(names);
    const known = new Map<string, KnownRun>();
    const missing: Found[] = [];
    const newest = names.filter(isJournal).sort((a, b) => (a < b ? 1 : -1));
    for (const [index, name] of newest.entries()) {
      if (index % AT_A_TIME === AT_A_TIME - 1) await turn();
      const found = this.find(join(folder, name), there);
      const run = found && this.recall(found, there);
      if (run) known.set(name, run);
      else if (found) missing.push(found);
    }
    const until = now() + patience;
    let done = 0;
    while (done < missing.length && (done === 0 || now() < until)) {
      const found = missing[done++]!;
      known.set(found.name, await this.workOut(found));
      await turn();
    }
    this.known = known;
    const runs = newest.flatMap((name) => known.get(name) ?? []);
    return { runs, toCome: missing.length - done };
  }

  private find(path: string, there: ReadonlySet<string>): Found | null {
    const { disk, folder } = this.ports;
    const journal = disk.mark(path);
    const after = afterwardsPath(path);
    const name = path.slice(folder.length + 1);
    const hasAfter = there.has(after.slice(folder.length + 1));
    return journal && { name, path, journal: fileOf(journal), after: markOf(hasAfter ? disk.mark(after) : null) };
  }

  /** What is known of a run, by memory or by its kept summary; null where that is not of these files. */
  private recall(found: Found, there: ReadonlySet<string>): KnownRun | null {
    const { disk, folder } = this.ports;
    const remembered = this.known.get(found.name);
    if (remembered && isOf(remembered.summary, found)) return remembered;
    const path = summaryPath(found.path);
    if (!there.has(path.slice(folder.length + 1))) return null;
    const summary = summaryIn(() => disk.readNow(path));
    return summary && isOf(summary, found) ? { path: found.path, summary, unread: null } : null;
  }

  private async workOut({ path, journal, after }: Found): Promise<KnownRun> {
    const { disk } = this.ports;
    const nothing = { version: SUMMARY_VERSION, journal, after, run: null, isStarted: false, words: [] };
    const read = await readKept(disk, path);
    if (read.kind === 'unread') return { path, summary: nothing, unread: read.why };
    let summary: RunSummary = nothing;
    if (read.kind === 'run') {
      const { kept } = read;
      const added = await readAfterwards(disk, { path, run: kept.run });
      const swum = swumOf(kept, added.ok ? added.added : NOTHING_ADDED);
      const isStarted = hasStarted(kept.commands);
      summary = { ...nothing, run: historyRun(swum), isStarted, words: searchedWords(swum) };
    }
    // One that goes on is another with its next line.
    if (summary.run?.ended !== 'going') await this.keep(path, summary);
    return { path, summary, unread: null };
  }

  /** Where the disk refuses it is worked out again another time. */
  private async keep(journal: string, summary: RunSummary): Promise<void> {
    const { disk, guard } = this.ports;
    try {
      await guard.check();
      await disk.replace(summaryPath(journal), Buffer.from(`${JSON.stringify(summary, null, 2)}\n`));
    } catch {
      // Nothing is lost.
    }
  }
}

/** A journal and its additions, as they are now. */
interface Found extends Pick<RunSummary, 'journal' | 'after'> {
  readonly name: string;
  readonly path: string;
}

function fileOf({ length, changed }: FileMark): SummarisedFile {
  return { length, changed: String(changed) };
}

function markOf(mark: FileMark | null): SummarisedFile | null {
  return mark && fileOf(mark);
}

function isOf(summary: RunSummary, { journal, after }: Found): boolean {
  return isSame(summary.journal, journal) && isSame(summary.after, after);
}

function isSame(a: SummarisedFile | null, b: SummarisedFile | null): boolean {
  return a?.length === b?.length && a?.changed === b?.changed;
}

/** null for what is no summary of this version. */
function summaryIn(read: () => Uint8Array): RunSummary | null {
  try {
    const parsed = runSummary.safeParse(JSON.parse(Buffer.from(read()).toString('utf8')));
    return parsed.success ? parsed.data : null;
  } catch {
    return null;
  }
}

function turn(): Promise<void> {
  return new Promise((resolve) => setImmediate(resolve));
}
