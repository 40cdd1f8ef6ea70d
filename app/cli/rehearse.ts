/*
 * `lanecall rehearse`: runs a session without waiting, with the commands of a script at their times, and prints what
 * happened: every leave, and the answer to every command.
 */

import { readCommand } from '../core/run/command/read-command.ts';
import { apply } from '../core/run/fold.ts';
import { projectedEnd } from '../core/run/hour/projection.ts';
import { leavesOf, type Leave } from '../core/run/record.ts';
import { settle } from '../core/run/settle.ts';
import { openRun, type RunState } from '../core/run/state.ts';
import type { Plan } from '../core/plan/plan.ts';
import type { Millis } from '../core/units.ts';
import { readArguments } from './arguments.ts';
import { EXIT, write, type Io } from './io.ts';
import { readScript, type ScriptLine } from './script.ts';
import { readPlan, readText, refused, STANDARD_INPUT } from './session-file.ts';
import { help, wrongUsage } from './usage.ts';

export type { ScriptLine } from './script.ts';

export interface RehearsalJson {
  readonly leaves: readonly RehearsedLeave[];
  readonly answers: readonly RehearsedAnswer[];
  readonly phase: RunState['phase'];
  /** The index of the current stretch once nothing more will happen. */
  readonly stretch: number;
  readonly endMs: Millis | null;
  readonly projectedEndMs: Millis;
}

export interface RehearsedLeave {
  readonly lane: number;
  readonly stretch: number;
  readonly line: number;
  readonly rounds: readonly { readonly round: number; readonly of: number }[];
  readonly rep: number;
  readonly of: number;
  /** In the pool's unit. */
  readonly distance: number;
  readonly atMs: Millis;
}

export interface RehearsedAnswer {
  readonly atMs: Millis;
  readonly do: string;
  readonly ok: boolean;
  /** Why the command was refused; null if it was accepted. */
  readonly message: string | null;
}

/** Runs `rehearse` with the words after it; gives the exit status. */
export async function rehearse(args: readonly string[], io: Io): Promise<number> {
  const read = readArguments(args, { lanes: 'value', script: 'value', phase: 'value', format: 'value' });
  if (!read.ok) return wrongUsage(io, 'rehearse', read.faults);
  const { positionals, values, flags } = read.value;
  if (flags.has('help')) return help(io, 'rehearse');
  const [session, ...more] = positionals;
  if (session === undefined || more.length > 0) {
    return wrongUsage(io, 'rehearse', `takes one session, not ${positionals.length}`);
  }
  const script = values.get('script');
  if (script === undefined) return wrongUsage(io, 'rehearse', 'needs --script FILE');
  const lanes = values.get('lanes') ?? null;
  if ([session, lanes, script].filter((name) => name === STANDARD_INPUT).length > 1) {
    return wrongUsage(io, 'rehearse', 'only one of session, lanes and script can be standard input');
  }
  if ((values.get('format') ?? 'json') !== 'json') return wrongUsage(io, 'rehearse', '--format can only be json');
  const phase = phaseOf(values.get('phase') ?? '0');
  if (phase === null) return wrongUsage(io, 'rehearse', '--phase needs whole milliseconds from 0 to 59999');
  return printRehearsal(io, session, lanes, script, phase);
}

/**
 * What happens when the commands of a script are given at their times, and none after the last. phase: what the pool's
 * clock shows past the full minute at t = 0, 0 to 59 999 ms. The script must be in order of time.
 */
export function rehearsal(plan: Plan, phase: Millis, script: readonly ScriptLine[]): RehearsalJson {
  let state = openRun(plan, phase);
  const answers: RehearsedAnswer[] = [];
  for (const { atMs, fields } of script) {
    const name = String(fields['do']);
    const command = readCommand(fields);
    const answer = command.ok ? apply(state, command.value, atMs) : null;
    if (answer) state = answer.state;
    const message = !command.ok ? command.faults : answer && !answer.ok ? answer.why : null;
    answers.push({ atMs, do: name, ok: message === null, message });
  }
  const lastAt = script[script.length - 1]?.atMs ?? 0;
  const end = settle(state, Infinity);
  return {
    leaves: leavesOf(end).map(leaveJson),
    answers,
    phase: end.phase,
    stretch: end.index,
    endMs: end.doneAt,
    projectedEndMs: projectedEnd(settle(state, lastAt), lastAt),
  };
}

async function printRehearsal(
  io: Io,
  session: string,
  lanes: string | null,
  script: string,
  phase: Millis,
): Promise<number> {
  const plan = await readPlan(io, session, lanes);
  if (!plan.ok) return plan.status;
  const text = await readText(io, script);
  if (!text.ok) return (await refused(io, script, text)).status;
  const lines = readScript(text.text);
  if (!lines.ok) return (await refused(io, script, { ok: false, why: 'fault', faults: lines.faults })).status;
  await write(io.stdout, `${JSON.stringify(rehearsal(plan.plan, phase, lines.value), null, 2)}\n`);
  return EXIT.done;
}

function leaveJson({ lane, stretch, rep, at }: Leave): RehearsedLeave {
  return {
    lane,
    stretch,
    line: rep.set.line,
    rounds: rep.set.rounds.map(({ round, of }) => ({ round, of })),
    rep: rep.rep,
    of: rep.of,
    distance: rep.distance / 10,
    atMs: at,
  };
}

function phaseOf(text: string): Millis | null {
  return /^\d{1,5}$/.test(text) && Number(text) <= 59_999 ? Number(text) : null;
}
