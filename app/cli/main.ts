/*
 * The `lanecall` command: finds the command that is named and passes the rest of the words to it.
 */

import { realpathSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { complain, EXIT, type Io } from './io.ts';
import { timetable } from './timetable/timetable.ts';
import { COMMANDS, help, wrongUsage, type CommandName } from './usage.ts';

export { start } from './start/start.ts';

/** Runs a command line (without the program's name); resolves with the exit status, never rejects. */
export async function run(argv: readonly string[], io: Io): Promise<number> {
  const [word, ...args] = argv;
  if (word === '--help') return help(io, null);
  const command = COMMANDS.find((known) => known === word);
  if (!command) {
    const what = word === undefined ? 'no command given' : `there is no command ${word}`;
    return wrongUsage(io, null, `${what}; use ${COMMANDS.join(', ')}`);
  }
  try {
    return await runCommand(command, args, io);
  } catch (error) {
    await complain(io, `lanecall ${command}: ${error instanceof Error ? error.message : String(error)}`);
    return EXIT.failed;
  }
}

/** Loads a larger command only when it is used: a timetable needs no server. */
async function runCommand(command: CommandName, args: readonly string[], io: Io): Promise<number> {
  if (command === 'timetable') return timetable(args, io);
  if (command === 'rehearse') return (await import('./rehearse.ts')).rehearse(args, io);
  if (command === 'record') return (await import('./record/record.ts')).record(args, io);
  return (await import('./serve.ts')).serve(args, io);
}

function isStartedDirectly(): boolean {
  const started = process.argv[1];
  return started !== undefined && realpathSync(started) === realpathSync(fileURLToPath(import.meta.url));
}

if (isStartedDirectly()) {
  const { stdin, stdout, stderr } = process;
  // Only sets the exit code and does not exit, so that output still on its way to a slow pipe gets there.
  process.exitCode = await run(process.argv.slice(2), { stdin, stdout, stderr, cwd: process.cwd() });
}
