/*
 * The runs that are kept, for the coach's window: the history, the review of one, what is added to it, and deleting.
 * Whatever changes files is done one after the other.
 */

import { join } from 'node:path';
import { withTouch, type Touch } from '../../core/record/times/touch.ts';
import { recordOf, type RunRecord } from '../../core/record/record.ts';
import { recordCsv } from '../../core/record/tables/record-csv.ts';
import { reviewJson } from '../../core/record/tables/review-json.ts';
import { NOTHING_ADDED, type HandTimes } from '../../core/record/afterwards.ts';
import { dayText, readDay } from '../../core/day.ts';
import { courseOf } from '../../core/record/course/course.ts';
import { namePattern } from '../../core/session/names/name-pattern.ts';
import type { Millis } from '../../core/units.ts';
import type { ToDelete } from '../../wire/records/deletion.ts';
import type {
  NeverStarted,
  RecordsAnswer,
  RecordsGiven,
  RecordsRefusal,
  RecordsRequest,
  RecordsWish,
} from '../../wire/records/records.ts';
import type { RunSummary } from '../../wire/records/run-summary.ts';
import { diskReason, type Disk } from '../journal/disk.ts';
import type { Guard } from '../journal/run-file.ts';
import { searchedLetters, searchedWords } from '../library/session-facts.ts';
import { runsFolder } from '../lock/data-folder.ts';
import { keepAfterwards, readAfterwards, type AfterwardsRead, type PlacedRun } from './afterwards-file.ts';
import { deleteForGood, finishDeletion, unfinishedText } from './deletion/deletion.ts';
import { History, type KnownRun } from './history.ts';
import { readKept, type KeptRead } from './kept-journal.ts';
import { neverStartedIn } from './never-started.ts';
import { isJournalOf, stemOf } from './run-files.ts';

type Asked<Wish extends RecordsWish> = Extract<RecordsRequest, { do: Wish }>;

type Grants = { readonly [Wish in RecordsWish]: (asked: Asked<Wish>) => Promise<RecordsGiven[Wish]> };

/** The run that is open in the host, whose journal may not be touched. */
export interface OpenedRun {
  /** Its id; null for none. */
  id(): string | null;
  /** Lets go of it where it is over or was never begun, so that it may be deleted; false where it still goes on. */
  letGo(): Promise<boolean>;
}

export interface RecordsPorts {
  readonly disk: Disk;
  /** The data folder. */
  readonly data: string;
  readonly guard: Guard;
  readonly now: () => Millis;
  readonly opened: OpenedRun;
  /** Carries something out while nothing else writes to the library, which reads all anew afterwards. */
  readonly withLibraryStill: <Value>(task: () => Promise<Value>) => Promise<Value>;
}

export type Granted<Given> = ({ readonly ok: true } & Given) | RecordsRefusal;

/** A touch with its id. */
export interface SentTouch extends Touch {
  readonly id: string;
}

/** A refusal in a sentence for the coach, as an error. */
class RecordsRefused extends Error {
  readonly changed: RecordsRefusal['changed'];

  constructor(why: string, changed?: RecordsRefusal['changed']) {
    super(why);
    this.changed = changed;
  }
}

export class Records {
  private readonly ports: RecordsPorts;
  private readonly history: History;
  private turn: Promise<unknown> = Promise.resolve();

  constructor(ports: RecordsPorts) {
    this.ports = ports;
    this.history = new History({ ...ports, folder: runsFolder(ports.data) });
  }

  /** Never rejects: what is refused, by the disk too, is answered with a sentence. */
  async ask<Wish extends RecordsWish>(asked: Asked<Wish>): Promise<RecordsAnswer<Wish>> {
    const grant = this.grants[asked.do] as (asked: Asked<Wish>) => Promise<RecordsGiven[Wish]>;
    return this.answered(async () => {
      if (OF_ALL.has(asked.do)) await this.workOutAll();
      return this.inTurn(() => grant(asked));
    });
  }

  /**
   * Adds a touch to a run, which may still be going, once for its id; null only looks. Gives all hand times that the
   * run has then. Touches of a run that is not there any more are gone with it, and none is kept. Never rejects.
   */
  touch(run: string, touch: SentTouch | null): Promise<Granted<{ readonly times: readonly HandTimes[] }>> {
    return this.answered(() =>
      this.inTurn(async () => {
        const placed = await this.placed(run);
        if (!placed && run === this.ports.opened.id()) throw new RecordsRefused(NOT_THERE_YET);
        while (placed) {
          const now = await readAfterwards(this.ports.disk, placed);
          if (!now.ok) throw new RecordsRefused(now.why);
          if (touch === null || now.touches.includes(touch.id)) return { times: now.added.times };
          const times = withTouch(now.added.times, touch);
          const kept = await keepAfterwards(this.ports, placed, now.version, { ...now.added, times }, touch.id);
          if (kept.ok) return { times };
          // Another program has written meanwhile: the touch goes on top of that.
          if (!kept.changed) throw new RecordsRefused(kept.why);
        }
        return { times: [] };
      }),
    );
  }

  private async answered<Given extends object>(task: () => Promise<Given>): Promise<Granted<Given>> {
    try {
      return { ok: true, ...(await task()) };
    } catch (error) {
      if (!(error instanceof RecordsRefused)) return { ok: false, why: this.notReadText(error) };
      const { message: why, changed } = error;
      return changed ? { ok: false, why, changed } : { ok: false, why };
    }
  }

  private readonly grants: Grants = {
    list: async ({ find, from, to, most }) => {
      const unfinished = await finishDeletion(this.ports);
      const { runs, toCome } = await this.history.look();
      const words = searchedWords(find);
      const fit = runs.flatMap(({ summary }) =>
        summary.run && summary.isStarted && fits(summary, words, from, to) ? summary.run : [],
      );
      fit.sort((a, b) => b.openedAt.localeCompare(a.openedAt));
      const said = [...(unfinished === null ? [] : [unfinished]), ...runs.flatMap(({ unread }) => unread ?? [])];
      return { runs: fit.slice(0, most), more: Math.max(0, fit.length - most), toCome, said };
    },

    review: async ({ run }) => {
      const { record, kept, said, after } = await this.read(run);
      const added = after.ok ? after : { added: NOTHING_ADDED, version: null };
      const sentences = [...(said === null ? [] : [said]), ...(after.ok ? [] : [after.why])];
      const own = { added: added.added, version: added.version, mayAdd: after.ok, said: sentences };
      return { ...reviewJson(record, kept.away), ...own };
    },

    table: async ({ run }) => ({ csv: recordCsv((await this.read(run)).record) }),

    session: async ({ run }) => {
      const { plan } = courseOf((await this.read(run)).kept).state;
      const { text, lanesText } = plan.source;
      return { title: plan.session.title ?? 'Session', text, lanesText };
    },

    keep: async ({ run, version, added }) => {
      const kept = await keepAfterwards(this.ports, await this.there(run), version, added);
      if (!kept.ok) throw new RecordsRefused(kept.why, kept.changed);
      return { version: kept.version };
    },

    'delete-run': async ({ run }) => {
      if (run === this.ports.opened.id()) await this.letGo('This run');
      const stems = (await this.allKnown())
        .filter(({ summary }) => summary.run?.run === run)
        .map(({ path }) => stemOf(path));
      if (stems.length === 0) throw new RecordsRefused(GONE);
      await this.delete({ what: 'runs', stems });
      return {};
    },

    'never-started': async () => {
      const runs: NeverStarted[] = [];
      for (const path of await this.neverStarted()) runs.push(...(await neverStartedIn(this.ports.disk, path)));
      return { runs };
    },

    'delete-never-started': async ({ only }) => {
      const stems = (await this.neverStarted()).map(stemOf).filter((stem) => only === null || stem === only);
      if (only !== null && stems.length === 0) throw new RecordsRefused(GONE);
      return stems.length === 0 ? { runs: 0, texts: 0, left: [] } : this.delete({ what: 'runs', stems });
    },

    'delete-name': async ({ name }) => {
      if (!namePattern(name))
        throw new RecordsRefused('A name has a letter: write the name as it stands in the sessions.');
      await this.letGo('A run');
      return this.delete({ what: 'name', name });
    },

    'delete-everything': async () => {
      await this.letGo('A run');
      return this.delete({ what: 'everything' });
    },
  };

  /** The journals of those that were opened and never started, but for one that is open now. */
  private async neverStarted(): Promise<readonly string[]> {
    const open = this.ports.opened.id() ?? '';
    return (await this.allKnown())
      .filter(({ summary, unread }) => unread === null && !summary.isStarted)
      .filter(({ path, summary }) => summary.run?.run !== open && !isJournalOf(path, open))
      .map(({ path }) => path);
  }

  private async letGo(what: string): Promise<void> {
    if (await this.ports.opened.letGo()) return;
    throw new RecordsRefused(
      `${what} is still going, and nothing is deleted: finish it first. From ten seconds after its end on it can be deleted.`,
    );
  }

  private async delete(what: ToDelete): Promise<RecordsGiven['delete-name']> {
    const before = await finishDeletion(this.ports);
    if (before !== null) throw new RecordsRefused(before);
    try {
      return await this.ports.withLibraryStill(() => deleteForGood(this.ports, what));
    } catch (error) {
      throw new RecordsRefused(unfinishedText(diskReason(error)));
    }
  }

  private async read(run: string): Promise<ReadRun> {
    const { path } = await this.there(run);
    const read = await readKept(this.ports.disk, path);
    if (read.kind !== 'run') throw new RecordsRefused(read.kind === 'unread' ? read.why : GONE);
    const after = await readAfterwards(this.ports.disk, { path, run });
    return { ...read, after, record: recordOf(read.kept, after.ok ? after.added : NOTHING_ADDED) };
  }

  private async there(run: string): Promise<PlacedRun> {
    const placed = await this.placed(run);
    if (!placed) throw new RecordsRefused(GONE);
    return placed;
  }

  /** By the name of its journal: that tells it without the history. null where it is not there. */
  private async placed(run: string): Promise<PlacedRun | null> {
    const folder = runsFolder(this.ports.data);
    const name = (await this.ports.disk.list(folder)).find((each) => isJournalOf(each, run));
    if (name !== undefined) return { path: join(folder, name), run };
    const known = (await this.allKnown(run)).find(({ summary }) => summary.run?.run === run);
    return known ? { path: known.path, run } : null;
  }

  /** A little at a time, and whoever asks for something else meanwhile gets it in between. */
  private async workOutAll(): Promise<void> {
    for (let toCome = 1; toCome > 0;) ({ toCome } = await this.inTurn(() => this.history.look()));
  }

  /** Works out more of the history where one run, or all there are, must be known. */
  private async allKnown(run: string | null = null): Promise<readonly KnownRun[]> {
    for (;;) {
      const { runs, toCome } = await this.history.look();
      if (toCome === 0 || runs.some(({ summary }) => summary.run !== null && summary.run.run === run)) return runs;
    }
  }

  private notReadText(error: unknown): string {
    return `The runs cannot be reached (${diskReason(error)}): see to the folder ${this.ports.data}.`;
  }

  private inTurn<Value>(task: () => Promise<Value>): Promise<Value> {
    const result = this.turn.then(task);
    this.turn = result.catch(() => undefined);
    return result;
  }
}

const NOT_THERE_YET = 'Times are kept beside the run’s record, and that is not there: it is tried again.';

/** For these every run must be known. */
const OF_ALL: ReadonlySet<RecordsWish> = new Set(['delete-run', 'never-started', 'delete-never-started']);

const GONE = 'This run is not there any more: it was deleted or moved elsewhere.';

type ReadRun = Extract<KeptRead, { kind: 'run' }> & { readonly record: RunRecord; readonly after: AfterwardsRead };

/** Whether a run lies within two days and has all of the words, in its own or in those of its day. */
function fits({ run, words }: RunSummary, find: readonly string[], from: string | null, to: string | null): boolean {
  const iso = run!.openedAt.slice(0, 10);
  if (iso < (from ?? iso) || iso > (to ?? iso)) return false;
  if (find.length === 0) return true;
  const day = readDay(iso);
  const searched = searchedLetters([...words, iso, day && dayText(day)].join('\n'));
  return find.every((word) => searched.includes(word));
}
