/*
 * A snapshot is the whole of a run. Screens that have one are then told only the commands since; what these make of it
 * is a snapshot again, the same as a whole one would be.
 */

import type { FromHost, Snapshot } from './messages.ts';

export type LaterCommands = Extract<FromHost, { say: 'commands' }>;

/** The snapshot that these commands make of the one before; null where they do not follow it, and a whole one is needed. */
export function withCommands(before: Snapshot | null, later: LaterCommands): Snapshot | null {
  const run = before?.run;
  if (!run || run.id !== later.run || before.epoch !== later.epoch || run.commands.length !== later.after) return null;
  const { n, notices, startUp } = later;
  return { ...before, n, notices, startUp, run: { ...run, commands: [...run.commands, ...later.commands] } };
}
