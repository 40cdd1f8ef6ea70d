/*
 * Reads a rehearsal's script: one JSON object on each line, in order of time. A line that is not a command is a fault
 * with its place. Whether a command makes sense is for the run to answer.
 */

import type { Fault, Result } from '../core/result.ts';
import type { Millis } from '../core/units.ts';

export interface ScriptLine {
  /** Whole ms since the run was opened. */
  readonly atMs: Millis;
  /** The command as written, with its `do`; not checked yet. */
  readonly fields: Readonly<Record<string, unknown>>;
}

/** All commands of a script, or the fault of every line that has one. Blank lines are skipped. */
export function readScript(text: string): Result<readonly ScriptLine[]> {
  const lines: ScriptLine[] = [];
  const faults: Fault[] = [];
  let latest = 0;
  text
    .replace(/^\uFEFF/, '')
    .split(/\r?\n/)
    .forEach((written, index) => {
      if (written.trim() === '') return;
      const line = readLine(written);
      if (typeof line === 'string') faults.push(faultIn(written, index, line));
      else if (line.atMs < latest) {
        faults.push(
          faultIn(written, index, `"atMs" is ${line.atMs} after ${latest}: put the commands in order of time`),
        );
      } else {
        latest = line.atMs;
        lines.push(line);
      }
    });
  return faults.length > 0 ? { ok: false, faults } : { ok: true, value: lines };
}

/** The command in a line, or what is wrong with it. */
function readLine(written: string): ScriptLine | string {
  const example = '{"atMs": 61000, "do": "skip", "lanes": [2]}';
  let value: unknown;
  try {
    value = JSON.parse(written);
  } catch {
    return `this is not JSON: write a line of a script as ${example}`;
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return `this is not a JSON object: write a line of a script as ${example}`;
  }
  const { atMs, ...fields } = value as Record<string, unknown>;
  if (typeof atMs !== 'number' || !Number.isSafeInteger(atMs) || atMs < 0) {
    return '"atMs" is missing or wrong: write whole milliseconds from 0';
  }
  if (typeof fields['do'] !== 'string') return '"do" is missing or wrong: write the name of a command';
  return { atMs, fields };
}

function faultIn(written: string, index: number, message: string): Fault {
  const indent = written.slice(0, written.length - written.trimStart().length);
  const column = [...indent].reduce((at, character) => at + (character === '\t' ? 4 : 1), 1);
  return { line: index + 1, column, message };
}
