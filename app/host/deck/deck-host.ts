/*
 * The host of the run. It opens a session, takes commands in the order in which they arrive, has the journal write
 * them down before it answers, and then sends every screen a new snapshot.
 */

import type { Millis } from '../../core/units.ts';
import { openPlan } from '../../core/plan/open-plan.ts';
import type { Source } from '../../core/plan/plan.ts';
import { readCommand } from '../../core/run/command/read-command.ts';
import { apply } from '../../core/run/fold.ts';
import { changedSince } from '../../core/run/command/expected-reps.ts';
import { overtaken } from '../../core/run/command/overtaken.ts';
import type { Command } from '../../core/run/command/command.ts';
import { changedText } from '../../core/session/text/line-changes.ts';
import { textLines } from '../../core/session/text/lines.ts';
import { settle } from '../../core/run/settle.ts';
import { openRun } from '../../core/run/state.ts';
import { withoutOldUndos } from '../../core/run/commands/undo.ts';
import { WIRE_VERSION, type FromHost, type Snapshot } from '../../wire/messages.ts';
import { AnswerMemory, type CommandAnswer } from './answers/answer-memory.ts';
import { timeOfDayAt, type Clock, type ClockInstant } from '../time/clock.ts';
import { Dispatch } from './telling/dispatch.ts';
import type { FoundRun } from '../recovery/found-run.ts';
import type { Closing, Journal } from '../journal/journal.ts';
import type { ClosedWhy } from '../journal/journal-line.ts';
import { JournalWatch, PATIENCE_AT_START } from '../journal/journal-watch.ts';
import { matchedRun } from './matched-run.ts';
import { DevicePace } from './answers/device-pace.ts';
import { Givers } from './answers/givers.ts';
import { PoolClock } from './pool-clock.ts';
import { StartUpReport } from '../recovery/start-up-report.ts';
import { giver, runTold, type Asked, type OpenAnswer, type OpenOptions, type OpenRun } from './open-run.ts';
import { Presence } from './telling/presence.ts';
import type { Recovery } from '../recovery/recovery.ts';
import { runStreams, type RunStreams } from './telling/run-stream.ts';
import { NO_MORE_TEXTS, RunTexts, weightOf } from './run-texts.ts';
import { faultOf, GOING, NOT_OFFERED, NOT_YOURS, OTHER_RUN, refusal } from './answers/refusals.ts';
import { isOverForGood } from '../recovery/run-end.ts';
import { TouchBook } from '../records/touch-book.ts';
import { ScreenBook } from '../screens/screen-book.ts';
import { askerOf, COACH_HERE, type Commander } from '../sharing/doors/guest.ts';
import { SoundArbiter } from './telling/sound-arbiter.ts';
import { textHash } from './text-hash.ts';
import type { Timers } from '../time/timers.ts';

export interface DeckPorts {
  readonly clock: Clock;
  readonly timers: Timers;
  readonly journal: Journal;
  /** Makes a name that was never given before. */
  readonly newId: () => string;
}

export type MatchAnswer = { readonly ok: true; readonly run: string } | { readonly ok: false; readonly why: string };

export type LeaveAnswer = { readonly ok: true; readonly why: null } | { readonly ok: false; readonly why: string };

export class DeckHost {
  readonly screenBook: ScreenBook;
  readonly presence: Presence;
  readonly soundArbiter = new SoundArbiter();
  readonly devicePace = new DevicePace();
  readonly dispatch: Dispatch;
  readonly streams: RunStreams;
  readonly touchBook = new TouchBook(() => this.run?.id ?? null);
  private readonly clock: Clock;
  private readonly journal: Journal;
  private readonly watch: JournalWatch;
  private readonly newId: () => string;
  private readonly answers = new AnswerMemory();
  private readonly givers = new Givers();
  private readonly listeners = new Set<() => void>();
  private readonly poolClock: PoolClock;
  private readonly runTexts = new RunTexts();
  private run: OpenRun | null = null;
  private lastAt: Millis = 0;
  private startUpReport: StartUpReport | null = null;
  /** Notices for the coach from other parts of the program, by subject. */
  private readonly said = new Map<string, string>();
  /** Subjects of which it is said no more once the coach has read the report of the start. */
  private readonly news = new Set<string>();
  private n = 0;
  /** Everything that arrives is carried out one by one, in the order of arrival. */
  private queue: Promise<unknown> = Promise.resolve();

  constructor({ clock, timers, journal, newId }: DeckPorts) {
    this.clock = clock;
    this.poolClock = new PoolClock(this.clock);
    this.journal = journal;
    this.newId = newId;
    this.screenBook = new ScreenBook(timers);
    this.presence = new Presence(timers);
    this.dispatch = new Dispatch(clock, timers);
    this.streams = runStreams(() => this.snapshot(), this.runTexts);
    this.watch = new JournalWatch(timers, () => this.changed());
    clock.onJump(() => this.changed());
    journal.onCaughtUp(() => this.watch.caughtUpWithAll());
  }

  /**
   * Continues the run that was found; to be called before anything else is opened. `moment` is the time of its
   * position. The coach sees the report until they say that they have read it.
   */
  comeBack(recovery: Recovery, moment: ClockInstant): Promise<void> {
    return this.inOrder(async () => {
      this.startUpReport = new StartUpReport(recovery);
      if (recovery.found) await this.takeUp(recovery.found, moment);
      this.changed();
    });
  }

  /** Opens a session; t = 0 is the moment of the call. Refuses if a run is going, unless `replace` is set. */
  open(source: Source, options: OpenOptions): Promise<OpenAnswer> {
    // Checked before the text is read: reading a large one would take time that lanes which are going need.
    if (!options.replace && this.wouldBeLost()) return Promise.resolve({ ok: false, reason: 'going', why: GOING });
    const opened = openPlan(source);
    if (!opened.ok) return Promise.resolve({ ok: false, reason: 'faults', ...opened.faults });
    this.clock.check();
    const moment = this.clock.instant();
    const timeOfDay = timeOfDayAt(moment, this.clock.wall());
    return this.inOrder(async () => {
      if (!options.replace && this.wouldBeLost()) return { ok: false, reason: 'going', why: GOING };
      const clockPhase = options.clockPhase ?? timeOfDay % 60_000;
      if (options.clockPhase !== undefined) this.poolClock.match(clockPhase, timeOfDay);
      const place = { clockPhase, openedAtTimeOfDay: timeOfDay };
      const id = this.newId();
      const replaced = this.run && this.closing(this.run, 'replaced', moment);
      await this.watch.written(this.journal.open({ run: id, source, ...place, ...moment }, replaced));
      this.startUpReport?.otherRunOpened();
      const text = this.runTexts.begin(source, weightOf(opened.value));
      const state = openRun(opened.value, clockPhase);
      this.run = { id, text, openedAt: moment.hostTime, ...place, state, commands: [], away: [] };
      this.lastAt = 0;
      this.changed();
      return { ok: true, run: id };
    });
  }

  /**
   * Matches the pool's clock. shown: what it shows past the full minute now, in ms; null for the time of day's. The run
   * is opened again by that clock, with a new id and a new journal; its commands stay.
   */
  matchClock(meantFor: string, shown: Millis | null): Promise<MatchAnswer> {
    const moment = this.clock.instant();
    return this.inOrder(async () => {
      const { run } = this;
      if (run?.id !== meantFor) return { ok: false, why: OTHER_RUN };
      const sourceOf = (hash: string): Source => this.runTexts.get(hash)!;
      const matched = matchedRun(run, shown, { moment, newId: this.newId, sourceOf });
      if (!matched.ok) return matched;
      const { opening, carried } = matched;
      // Given together, the lines are written together; the run before is closed when all of them are on the disk.
      const opened = this.journal.open(opening, this.closing(run, 'replaced', moment));
      const lines = carried.map((line) => this.journal.append(line).safe);
      // Marks where the run is now, which is later than its last command.
      this.journal.alive({ run: matched.run.id, at: Math.floor(opening.at ?? 0), leaves: [], ...moment });
      await this.watch.written(Promise.all([opened, ...lines]).then(() => undefined));
      this.startUpReport?.otherRunOpened();
      this.run = matched.run;
      this.poolClock.match(shown === null ? null : this.run.clockPhase, this.run.openedAtTimeOfDay);
      this.changed();
      return { ok: true, run: matched.run.id };
    });
  }

  /**
   * Takes a command as it came from a screen. The same id twice from the same device is one command and gets the same
   * answer twice. The command's time is that of the call, before anything is written or waited for. Refuses
   * a command that was meant for another run, or given by somebody who did not know what another screen did meanwhile.
   */
  command(id: string, fields: Readonly<Record<string, unknown>>, asked: Asked = {}): Promise<CommandAnswer> {
    const { by = COACH_HERE } = asked;
    const asker = askerOf(by);
    const known = this.answers.get(asker, id);
    if (known) return known;
    this.clock.check();
    const moment = this.clock.instant();
    const answer = this.inOrder(() => this.carryOut(id, fields, { ...asked, by }, moment)).catch(faultOf);
    this.answers.keep(asker, id, answer, moment.hostTime);
    return answer;
  }

  /** Gives up the run that has come back. Refuses if that is no longer offered. */
  leave(run: string): Promise<LeaveAnswer> {
    const moment = this.clock.instant();
    return this.inOrder(async () => {
      if (this.run?.id !== run || !this.startUpReport?.offersToLeave(run)) return { ok: false, why: NOT_OFFERED };
      await this.watch.written(this.endJournal(this.run, 'left', moment));
      this.told();
      this.withoutRun();
      return { ok: true, why: null };
    });
  }

  /** To be called when the coach has read the report. */
  told(): void {
    for (const about of this.news) this.tell(about, null);
    // Screens are told once it is certain that the report will not appear again.
    void this.startUpReport?.told().then(() => this.changed());
  }

  /** Shows the coach a notice, one for each subject, until it is called with null; news of the start, until they are read. */
  tell(about: string, sentence: string | null, isNews?: 'news'): void {
    if (isNews) this.news.add(about);
    if ((this.said.get(about) ?? null) === sentence) return;
    if (sentence === null) this.said.delete(about);
    else this.said.set(about, sentence);
    this.changed();
  }

  /** To be called when no more of the run can be kept, ever. The sentence says why and replaces all notices of the record. */
  recordLost(sentence: string): void {
    this.watch.giveUp();
    this.tell('record', null);
    this.tell('lock', sentence);
  }

  /**
   * Closes the journal of a run that is done, after everything that has arrived is carried out: an undo among it may
   * make the run go on. Resolves with whether the journal was closed.
   */
  closeDone(): Promise<boolean> {
    const moment = this.clock.instant();
    return this.inOrder(() => {
      const { run } = this;
      if (!run || !isOverForGood(run.state, Math.floor(moment.hostTime - run.openedAt))) return Promise.resolve(false);
      void this.watch.written(this.endJournal(run, 'done', moment));
      return Promise.resolve(true);
    });
  }

  /** To be called when the program ends normally: a session that nobody has begun need not come back. */
  endUnbegun(): Promise<void> {
    return this.inOrder(async () => {
      const { run } = this;
      if (run && run.commands.length === 0) {
        await this.watch.written(this.endJournal(run, 'not begun', this.clock.instant()));
      }
    });
  }

  /** Lets go of a run that is over for good, or was never begun, and of its journal; false where either still goes on. */
  letGo(): Promise<boolean> {
    const moment = this.clock.instant();
    return this.inOrder(async () => {
      const { run } = this;
      const isBegun = run !== null && run.commands.length > 0;
      if (isBegun && !isOverForGood(run.state, Math.floor(moment.hostTime - run.openedAt))) return false;
      if (run) await this.endJournal(run, isBegun ? 'done' : 'not begun', moment).catch(() => undefined);
      if (!(await this.journal.letGo())) return false;
      if (run) this.withoutRun();
      return true;
    });
  }

  /** Calls back whenever there is a new snapshot; the returned function stops that. */
  onChange(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  snapshot(): Snapshot {
    const { run } = this;
    return {
      say: 'snapshot',
      version: WIRE_VERSION,
      n: this.n,
      epoch: this.clock.epoch(),
      run: run && runTold(run),
      ...(run ? {} : { poolClock: this.poolClock.atZero() }),
      notices: [...(this.startUpReport?.notices() ?? []), ...this.watch.notices(), ...this.said.values()],
      startUp: this.startUpReport && this.startUpReport.forScreens(),
    };
  }

  /** The texts that the snapshot names. */
  texts(): readonly Extract<FromHost, { say: 'text' }>[] {
    return this.runTexts.messages();
  }

  /** The run that is open, for the parts of the host that follow it; null for none. */
  current(): OpenRun | null {
    return this.run;
  }

  /** Frees what can no longer be undone: the plan of a text that was replaced is large. */
  forgetUndone(): Promise<void> {
    const now = this.clock.now();
    return this.inOrder(() => {
      const { run } = this;
      if (run) this.run = { ...run, state: withoutOldUndos(run.state, Math.floor(now - run.openedAt)) };
      return Promise.resolve();
    });
  }

  private async carryOut(
    id: string,
    fields: Readonly<Record<string, unknown>>,
    asked: Asked & { readonly by: Commander },
    moment: ClockInstant,
  ): Promise<CommandAnswer> {
    const { run } = this;
    if (!run) return refusal('No session is open.');
    if (asked.meantFor !== undefined && asked.meantFor !== run.id) return refusal(OTHER_RUN);
    const at = Math.max(this.lastAt, Math.floor(moment.hostTime - run.openedAt));
    const command = readCommand(fields);
    if (!command.ok) return refusal(command.faults);
    const newText = 'text' in command.value ? command.value.text : null;
    const changed = this.changedMeanwhile(run, command.value, asked, at);
    if (changed !== null) return refusal(changed);
    const { lanesText } = run.state.plan.source;
    if (newText !== null && !this.runTexts.hasRoom({ text: newText, lanesText })) return refusal(NO_MORE_TEXTS);
    const answer = apply(run.state, command.value, at);
    if (!answer.ok) return refusal(answer.why);
    const { inFile, safe } = this.journal.append({ run: run.id, id, by: asked.by, at, fields, ...moment });
    await this.watch.written(safe, this.clock.now() - moment.hostTime, inFile);
    this.lastAt = at;
    this.givers.gave(askerOf(asked.by), command.value.do, at);
    if (newText !== null) this.runTexts.grow(weightOf(answer.state.plan));
    const commands = [...run.commands, { at, command: this.runTexts.named(fields, lanesText), ...giver(asked.by) }];
    this.run = { ...run, state: answer.state, commands };
    this.changed();
    return { ok: true, at, why: null };
  }

  /** A sentence where the screen did not know what has happened since, else null. */
  private changedMeanwhile(
    { state }: OpenRun,
    command: Command,
    asked: Asked & { readonly by: Commander },
    at: Millis,
  ): string | null {
    if (command.do === 'undo' && this.givers.isForbidden(state.undoable, asked.by)) return NOT_YOURS;
    if (command.do === 'rewrite') return this.rewrittenSince(state.plan.source, asked.madeFrom);
    return changedSince(state, command, asked.expected ?? {}, at) ?? overtaken(state, command, asked, at);
  }

  /** How the text in force differs from the one that a rewrite was made from; null if it does not. */
  private rewrittenSince(source: Source, madeFrom: string | undefined): string | null {
    if (madeFrom === undefined || madeFrom === textHash(source)) return null;
    const before = this.runTexts.get(madeFrom);
    const what = before ? changedText(textLines(before.text), textLines(source.text)) : '';
    return `The session was changed while you were writing${what === '' ? '' : `: ${what}`}. Look at it again.`;
  }

  /** Whether opening another session would lose a run. A run without commands is only a text that was opened. */
  private wouldBeLost(): boolean {
    const { run } = this;
    if (!run || run.commands.length === 0) return false;
    return settle(run.state, Math.floor(this.clock.now() - run.openedAt)).phase !== 'done';
  }

  private async takeUp(found: FoundRun, moment: ClockInstant): Promise<void> {
    const { run: id, source, clockPhase, openedAtTimeOfDay, state, position, away } = found;
    const { at, by } = position;
    const text = this.runTexts.begin(source, found.weight);
    const named = (each: FoundRun['commands'][number]) => this.runTexts.named(each.fields, source.lanesText);
    const commands = found.commands.map((each) => ({ at: each.at, command: named(each), ...giver(each.by) }));
    this.poolClock.match(clockPhase, openedAtTimeOfDay);
    this.run = { id, text, openedAt: moment.hostTime - at, clockPhase, openedAtTimeOfDay, state, commands, away };
    this.lastAt = commands[commands.length - 1]?.at ?? 0;
    for (const each of found.commands) {
      const asker = askerOf(each.by);
      this.answers.keep(asker, each.id, Promise.resolve({ ok: true, at: each.at, why: null }), moment.hostTime);
      this.givers.gave(asker, each.command.do, each.at);
    }
    await this.watch.written(this.journal.back({ run: id, at, by, ...moment }), 0, undefined, PATIENCE_AT_START);
  }

  private withoutRun(): void {
    this.run = null;
    this.givers.clear();
    this.runTexts.clear();
    this.changed();
  }

  private endJournal(run: OpenRun, why: ClosedWhy, moment: ClockInstant): Promise<void> {
    return this.journal.close(this.closing(run, why, moment));
  }

  private closing(run: OpenRun, why: ClosedWhy, moment: ClockInstant): Closing {
    const at = Math.max(this.lastAt, Math.floor(moment.hostTime - run.openedAt));
    return { run: run.id, at, why, ...moment };
  }

  private inOrder<Value>(task: () => Promise<Value>): Promise<Value> {
    const result = this.queue.then(task);
    // If it fails, its caller reports that; the queue goes on.
    this.queue = result.catch(() => undefined);
    return result;
  }

  private changed(): void {
    this.n++;
    this.streams.whole.changed();
    this.streams.open.changed();
    this.dispatch.news();
    for (const listener of this.listeners) listener();
  }
}
