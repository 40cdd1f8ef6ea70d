/*
 * The evening on which everything happens (tests/cases/eventful-evening), as a run that is kept.
 */

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readScript, type ScriptLine } from '../../../app/cli/script.ts';
import type { KeptRun } from '../../../app/core/record/kept-run.ts';
import { readCommand } from '../../../app/core/run/command/read-command.ts';
import { HOUR } from '../../../app/core/units.ts';
import { keptUntil } from './kept-run.ts';

const folder = new URL('../../cases/eventful-evening/', import.meta.url);
const textOf = (name: string): string => readFileSync(fileURLToPath(new URL(name, folder)), 'utf8');

export function eveningText(): string {
  return textOf('session.txt');
}

export function eveningScript(): readonly ScriptLine[] {
  const script = readScript(textOf('script.jsonl'));
  if (!script.ok) throw new Error(JSON.stringify(script.faults));
  return script.value;
}

export function eventfulEvening(): KeptRun {
  const commands = eveningScript().map(({ atMs, fields }) => {
    const command = readCommand(fields);
    if (!command.ok) throw new Error(command.faults);
    return { at: atMs, command: command.value };
  });
  return keptUntil(eveningText(), commands, HOUR);
}
