/*
 * From the files named on the command line to a plan, or to the lines that say what is wrong.
 */

import type { Fault } from '../core/result.ts';
import { openPlan } from '../core/plan/open-plan.ts';
import type { Plan, Source } from '../core/plan/plan.ts';
import { readTextFile, readTextStream, type TextRead } from '../host/text-file.ts';
import { complain, EXIT, pathFrom, type Io } from './io.ts';

/** Standard input, on the command line and before a fault's line and column. */
export const STANDARD_INPUT = '-';

export type PlanRead =
  | { readonly ok: true; readonly plan: Plan }
  /**
   * What to exit with; everything is said on standard error already. No faults where a file could not be read.
   * `source`: the texts, where it is they that have faults.
   */
  | { readonly ok: false; readonly status: number; readonly faults: readonly Fault[]; readonly source?: Source };

/** The plan of the session file and, if not null, the lanes file (at most one of them standard input). */
export async function readPlan(io: Io, session: string, lanes: string | null): Promise<PlanRead> {
  const text = await readText(io, session);
  // Without the lanes of a file of their own the lines cannot all be judged.
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

/** A session that is not UTF-8 in places has its other faults said at once; the parser places both. */
function withFaultsOfAllLines(read: Exclude<TextRead, { ok: true }>): Exclude<TextRead, { ok: true }> {
  if (read.why !== 'fault' || read.legible === undefined) return read;
  const opened = openPlan({ text: read.legible, lanesText: null });
  return opened.ok ? read : { ...read, faults: opened.faults.faults };
}

/** The text of a file, or of standard input where `-` is named. */
export function readText(io: Io, name: string): Promise<TextRead> {
  return name === STANDARD_INPUT ? readTextStream(io.stdin) : readTextFile(pathFrom(io, name));
}

/** Says why a text cannot be used: a line a fault, or one line about its file. */
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
