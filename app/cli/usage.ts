/*
 * The texts of `--help`, and the line about wrong usage.
 */

import { complain, EXIT, write, type Io } from './io.ts';

export const COMMANDS = ['timetable', 'rehearse', 'serve', 'record'] as const;

export type CommandName = (typeof COMMANDS)[number];

const OPENING = `lanecall: a pace clock and send-off timer for swimming squads

`;

const HELP: Readonly<Record<CommandName, string>> = {
  timetable: `lanecall timetable SESSION [--lanes FILE] [--format text|json|csv|ics] [--date YYYY-MM-DD]
  Prints when every lane leaves, for people (text), programs (json), a spreadsheet (csv)
  or a calendar (ics, which needs the session's start and --date).
`,
  rehearse: `lanecall rehearse SESSION [--lanes FILE] --script FILE [--phase MS] [--format json]
  Runs the session without waiting, with the commands of the script at their times, and prints
  every leave that happened and every refusal.
`,
  serve: `lanecall serve [SESSION] [--lanes FILE] [--port N] [--data DIR] [--share]
  Runs the clock without a window and serves its pages to browsers. What it must not lose
  it keeps in DIR; a run that was cut off there comes back. With --share other screens on this
  machine's private network can be let in; it prints the address for televisions, and one with
  which the coach's window opens on this machine, once.
`,
  record: `lanecall record [RUN] [--data DIR] [--format text|json|csv]
  Prints what was swum: without RUN a line for each run that is kept in DIR, newest first, with
  RUN its record. It only reads, also while a host uses DIR.
`,
};

const CLOSING = `
SESSION is a file, or - for standard input. Results go to standard output, faults to
standard error as FILE:LINE:COLUMN: message.
Exit status: 0 done, 2 faults in a text, 64 wrong usage, 66 a file that cannot be read.
`;

/** Prints the help of one command, or of all commands, on standard output. */
export async function help(io: Io, command: CommandName | null): Promise<number> {
  const texts = command ? HELP[command] : COMMANDS.map((name) => HELP[name]).join('\n');
  await write(io.stdout, OPENING + texts + CLOSING);
  return EXIT.done;
}

/** Prints one line on standard error that says what was wrong with the usage. */
export async function wrongUsage(io: Io, command: CommandName | null, message: string): Promise<number> {
  const name = command ? `lanecall ${command}` : 'lanecall';
  await complain(io, `${name}: ${message} (see ${name} --help)`);
  return EXIT.usage;
}
