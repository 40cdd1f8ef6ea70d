/*
 * A whole rehearsal by the model: the commands that were accepted are kept as a list, and every
 * question is answered by going through that list from the beginning. `undo` changes the list.
 */

import { faultInFields, type Command } from './command.ts';
import type { Refusal } from '../invent/named-lanes.ts';
import { perform } from './run-commands.ts';
import { advance, letGoWhatIsOnItsWay } from './run-events.ts';
import type { KnownTexts } from './run-rewrite.ts';
import { projectedEnd } from './run-projection.ts';
import { ON_ITS_WAY, openRun, type HappenedLeave, type RunState } from './run-state.ts';
import type { WrittenScenario } from '../scenario.ts';

export interface ModelRehearsal {
  /** By time, then lane. */
  readonly leaves: readonly HappenedLeave[];
  readonly answers: readonly {
    readonly atMs: number;
    readonly do: string;
    readonly ok: boolean;
    readonly message: Refusal;
  }[];
  readonly phase: 'waiting' | 'going' | 'done';
  readonly stretch: number;
  readonly endMs: number | null;
  readonly projectedEndMs: number;
}

const UNDO_WITHIN = 10_000;
const UNDONE_BY_RESUMING = ['stop', 'move-on', 'restart', 'go-to', 'lane-out', 'finish'];

/** Runs a script to where nothing more will happen. Its lines are in order of time. */
export function modelRehearsal(
  written: WrittenScenario,
  phaseMs: number,
  commands: readonly Command[],
  texts: KnownTexts = new Map(),
): ModelRehearsal {
  const run = new ModelRun(written, phaseMs, texts);
  const answers = commands.map((command) => {
    const message = run.give(command);
    return { atMs: command.atMs, do: command.do, ok: message === null, message };
  });
  const lastAt = commands[commands.length - 1]?.atMs ?? 0;
  const projectedEndMs = projectedEnd(run.at(lastAt), lastAt);
  const state = run.at(Infinity);
  return {
    leaves: state.leaves,
    answers,
    phase: state.phase,
    stretch: state.current,
    endMs: state.doneAt,
    projectedEndMs,
  };
}

interface Entry {
  readonly command: Command;
  /** Distinguishes commands; groups of stopped lanes are named by it. */
  readonly number: number;
}

/** The list of accepted commands of one run. */
export class ModelRun {
  private entries: readonly Entry[] = [];
  /** So many of them can no longer be undone. */
  private settled = 0;
  private given = 0;
  private readonly written: WrittenScenario;
  private readonly phaseMs: number;
  private readonly texts: KnownTexts;

  constructor(written: WrittenScenario, phaseMs: number, texts: KnownTexts) {
    this.written = written;
    this.phaseMs = phaseMs;
    this.texts = texts;
  }

  /** How the run stands at a time, were nothing more commanded. */
  at(until: number): RunState {
    return this.through(this.entries, until);
  }

  /** Gives a command; null where it is accepted, else why not. */
  give(command: Command): Refusal {
    this.given += 1;
    const entry = { command, number: this.given };
    if (command.do === 'undo') return faultInFields(command) ?? this.undo(command.atMs);
    const refusal = this.add(this.through(this.entries, command.atMs), entry);
    // A mark is a line in the record and nothing else.
    if (refusal === null && command.do !== 'mark') this.entries = [...this.entries, entry];
    return refusal;
  }

  private undo(t: number): Refusal {
    const last = this.entries[this.entries.length - 1];
    if (!last || this.entries.length <= this.settled) return 'nothing to undo';
    const { command } = last;
    if (t - command.atMs > UNDO_WITHIN) return 'too long ago';
    const before = this.entries.slice(0, -1);
    const happened = this.through(this.entries, t + ON_ITS_WAY).leaves;
    const otherwise = this.through(before, t + ON_ITS_WAY).leaves;
    const since = (leaves: readonly HappenedLeave[]): string =>
      JSON.stringify(leaves.filter((leave) => leave.atMs > command.atMs));
    if (since(happened) === since(otherwise)) {
      this.entries = before;
      return null;
    }
    if (!UNDONE_BY_RESUMING.includes(command.do)) return 'swimmers have left meanwhile';
    return this.standIn(before, command, t, happened);
  }

  /** The run as if the command had been a stop of the same lanes, and they were resumed now. */
  private standIn(before: readonly Entry[], command: Command, t: number, happened: readonly HappenedLeave[]): Refusal {
    const lanes = command.lanes ? { lanes: command.lanes } : {};
    const stop: Entry = { number: this.given, command: { atMs: command.atMs, do: 'stop', ...lanes } };
    const stoppedState = this.through(before, command.atMs);
    if (this.add(stoppedState, stop) !== null) return 'nothing would have been stopped';
    const stopped = stoppedState.lanes.filter((lane) => lane.stoppedBy === stop.number).map((lane) => lane.number);
    if (stopped.length === 0) return 'nothing would have been stopped';

    const resume: Entry = { number: this.given + 0.5, command: { atMs: t, do: 'resume', lanes: stopped } };
    const resumedState = this.through([...before, stop], t);
    if (this.add(resumedState, resume) !== null) return 'nothing could be resumed';
    const instead = [...before, stop, resume];
    const kept = new Set(this.through(instead, t + ON_ITS_WAY).leaves.map((leave) => JSON.stringify(leave)));
    if (happened.some((leave) => !kept.has(JSON.stringify(leave)))) return 'a leave that has happened would be lost';
    this.entries = instead;
    this.settled = instead.length;
    return null;
  }

  private through(entries: readonly Entry[], until: number): RunState {
    const state = openRun(this.written, this.phaseMs);
    for (const entry of entries) {
      advance(state, entry.command.atMs);
      const refusal = this.add(state, entry);
      if (refusal !== null) throw new Error(`accepted once, refused now: ${JSON.stringify(entry.command)}: ${refusal}`);
    }
    advance(state, until);
    state.leaves.sort((a, b) => a.atMs - b.atMs || a.lane - b.lane);
    return state;
  }

  private add(state: RunState, entry: Entry): Refusal {
    const t = entry.command.atMs;
    letGoWhatIsOnItsWay(state, t);
    state.now = t;
    const refusal = perform(state, entry.command, entry.number, this.texts);
    advance(state, t);
    return refusal;
  }
}
