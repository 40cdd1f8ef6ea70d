/*
 * Makes a plan from the files named on the command line, or prints what is wrong with them.
 */

import type { Fault } from '../core/result.ts';
import { openPlan } from '../core/plan/open-plan.ts';
import type { Plan, Source } from '../core/plan/plan.ts';
import { readTextFile, readTextStream, type TextRead } from '../host/text-file.ts';
import { complain, EXIT, pathFrom, type Io } from './io.ts';

/** Names standard input, on the command line and before the line and column of a fault. */
export const STANDARD_INPUT = '-';

export type PlanRead =
  | { readonly ok: true; readonly plan: Plan }
  /**
   * The exit status; what is wrong has been printed on standard error. No faults if a file could not be read.
   * `source`: the texts, if the faults are in them.
   */
  | { readonly ok: false; readonly status: number; readonly faults: readonly Fault[]; readonly source?: Source };

/** Reads the plan from the session file and, if not null, the lanes file. Only one of them can be standard input. */
export async function readPlan(io: Io, session: string, lanes: string | null): Promise<PlanRead> {
  const text = await readText(io, session);
  // If the lanes are in another file, not all lines can be checked without it.
  if (!text.ok) return refused(io, session, lanes === null ? withFaultsOfAllLines(text) : text);
  const lanesText = lanes === null ? null : await readText(io, lanes);
  if (lanes !== null && lanesText && !lanesText.ok) return refused(io, lanes, lanesText);
  const source = { text: text.text, lanesText: lanesText?.ok ? lanesText.text : null };
  const opened = openPlan(source);
  if (opened.ok) return { ok: true, plan: opened.value };
  const { in: where, faults } = opened.faults;
  const name = where === 'lanes' && lanes !== null ? lanes : session;
  return { ...(await refused(io, name, { ok: false, why: 'fault', faults })), source };
}

/** Adds the other faults of a session that is not all UTF-8, so that they are reported together. */
function withFaultsOfAllLines(read: Exclude<TextRead, { ok: true }>): Exclude<TextRead, { ok: true }> {
  if (read.why !== 'fault' || read.legible === undefined) return read;
  const opened = openPlan({ text: read.legible, lanesText: null });
  return opened.ok ? read : { ...read, faults: opened.faults.faults };
}

/** The text of a file, or of standard input for `-`. */
export function readText(io: Io, name: string): Promise<TextRead> {
  return name === STANDARD_INPUT ? readTextStream(io.stdin) : readTextFile(pathFrom(io, name));
}

/** Prints why a text cannot be used: one line for each fault, or one line about its file. */
export async function refused(
  io: Io,
  name: string,
  read: Exclude<TextRead, { ok: true }>,
): Promise<PlanRead & { ok: false }> {
  if (read.why === 'unreadable') {
    await complain(io, `${name}: ${read.message}`);
    return { ok: false, status: EXIT.noInput, faults: [] };
  }
  await complain(
    io,
    read.faults.map(({ line, column, message }) => `${name}:${line}:${column}: ${message}`).join('\n'),
  );
  return { ok: false, status: EXIT.faults, faults: read.faults };
}
