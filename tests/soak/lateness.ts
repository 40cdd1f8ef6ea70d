/*
 * A whole session in real time: the built program with one of the machine's cores kept busy, a coach who
 * commands every few seconds, and a screen that notes how late everything reaches it. Afterwards every leave
 * of the record is held against what the screen was to sound and what the host handed over.
 */

import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, readFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { fold } from '../../app/core/run/fold.ts';
import type { TimedCommand } from '../../app/core/run/command/command.ts';
import { readCommand } from '../../app/core/run/command/read-command.ts';
import { leavesOf, type Leave } from '../../app/core/run/record.ts';
import { settle } from '../../app/core/run/settle.ts';
import { readJournal } from '../../app/host/journal/journal-text.ts';
import { wronglyCalled, type CalledLeave } from '../support/sound/called-leaves.ts';
import { freshDataFolder } from '../support/host/folders/data-folder.ts';
import { planOf } from '../support/run/deck.ts';
import { ServedHost } from '../support/host/served-host.ts';
import { seeded } from '../support/formats/session-text.ts';
import { HORIZON, ListeningScreen } from './listening-screen.ts';
import { nextMove, restlessSession } from './restless-coach.ts';

/** In ms: what the last leaves take to get from the loop into the journal. */
const LAST_SIGNS = 1500;

/** What the coach has done: accepted commands by their times, and how many were refused. */
interface Given {
  readonly accepted: readonly number[];
  readonly refused: number;
}

/** What the host has written down, up to its last sign of life. */
interface HostRecord {
  readonly commands: readonly TimedCommand[];
  readonly leaves: readonly Leave[];
  /** Leaves handed over, with the time at which each was. */
  readonly handed: readonly (CalledLeave & { readonly when: number })[];
}

export async function soakLateness(seed: number, minutes: number): Promise<readonly string[]> {
  if (minutes === 0) return [];
  const session = restlessSession(minutes);
  const data = freshDataFolder();
  const load = busyCore();
  const host = await ServedHost.start(data, { session });
  const screen = new ListeningScreen(host.origin);
  try {
    const given = await coach(screen, seeded(seed), minutes);
    const until = screen.now()!;
    const ownLeaves = leavesOf(settle(screen.run()!.state, until));
    await pause(LAST_SIGNS);
    const toned = screen.toned(until);
    const setOff = screen.setOff(until);
    screen.close();
    host.child.kill('SIGTERM');
    await once(host.child, 'exit');
    const record = recordIn(data, session);
    process.stdout.write(report(seed, minutes, { screen, setOff, given, record }));
    return [
      ...wronglyCalled('screen', timesOf(ownLeaves), toned.map(atAnyLane)),
      ...wronglyCalled('host', upTo(until, record.leaves), upTo(until, record.handed)),
      ...wronglyCalled('record', upTo(until, record.leaves), ownLeaves),
      ...(JSON.stringify(record.commands.map(({ at }) => at)) === JSON.stringify(given.accepted)
        ? []
        : [`${given.accepted.length} commands were accepted, and the journal has ${record.commands.length} or others`]),
    ];
  } finally {
    screen.close();
    await host.kill();
    load.kill('SIGKILL');
  }
}

/** A process that does nothing, as fast as it can. */
function busyCore(): ChildProcess {
  return spawn(process.execPath, ['-e', 'for (;;);'], { stdio: 'ignore' });
}

async function coach(screen: ListeningScreen, random: () => number, minutes: number): Promise<Given> {
  const accepted: number[] = [];
  let refused = 0;
  const end = performance.now() + minutes * 60_000;
  while (performance.now() < end) {
    const view = screen.view();
    if (!view) {
      await pause(50);
      continue;
    }
    const move = nextMove(view, random);
    const { ok, at } = await screen.give(move.command);
    if (ok) accepted.push(at!);
    else refused++;
    await pause(Math.min(move.pause, Math.max(0, end - performance.now())));
  }
  return { accepted, refused };
}

function recordIn(data: string, session: string): HostRecord {
  const [name] = readdirSync(join(data, 'runs'));
  const journal = readJournal(readFileSync(join(data, 'runs', name!)));
  if (journal.kind !== 'journal') throw new Error('the journal cannot be read');
  const { entries, opened } = journal;
  const commands = entries.flatMap((entry): TimedCommand[] => {
    const command = entry.say === 'command' ? readCommand(entry.command) : null;
    return command?.ok ? [{ at: entry.at, command: command.value }] : [];
  });
  const leaves = leavesOf(settle(fold(planOf(session), opened.clockPhase, commands), entries[entries.length - 1]!.at));
  const handed = entries.flatMap((entry) =>
    entry.say === 'alive' ? entry.leaves.map(([lane, at]) => ({ lane, at, when: entry.at })) : [],
  );
  return { commands, leaves, handed };
}

function upTo<Called extends CalledLeave>(t: number, leaves: readonly Called[]): readonly Called[] {
  return leaves.filter(({ at }) => at <= t);
}

/** A tone is for all lanes that leave together. */
function timesOf(leaves: readonly CalledLeave[]): readonly CalledLeave[] {
  return [...new Set(leaves.map(({ at }) => at))].map(atAnyLane);
}

function atAnyLane(at: number): CalledLeave {
  return { lane: 0, at };
}

interface Findings {
  readonly screen: ListeningScreen;
  readonly setOff: readonly number[];
  readonly given: Given;
  readonly record: HostRecord;
}

function report(seed: number, minutes: number, { screen, setOff, given, record }: Findings): string {
  const { snapshots, answers, foundAfter, clockErrors } = screen.notes;
  const handedAfter = record.handed.map(({ at, when }) => when - at);
  const head =
    `lateness: ${minutes} min with one of ${cpus().length} cores busy, seed ${seed}, ${given.accepted.length} commands accepted, ` +
    `${given.refused} refused, ${record.handed.length} leaves handed over, ${screen.takenBack} cues taken back\n`;
  const least = HORIZON - Math.max(...foundAfter);
  return [
    head,
    `  load ${loadavg()[2]!.toFixed(1)} over the last 15 min\n`,
    `  ${'in ms'.padEnd(52)}${['number', 'p50', 'p99', 'max'].map((name) => name.padStart(9)).join('')}\n`,
    figures('a command, from acceptance to the screen', snapshots),
    figures('a command, from the press to its answer', answers),
    figures('a leave, from its time to its line in the journal', handedAfter),
    figures('a leave’s cue, handed over after 2 s before it', foundAfter),
    figures('a cue, set off its true time', setOff.map(Math.abs)),
    figures('the screen’s clock, off the host’s', clockErrors.map(Math.abs)),
    `  The least that a leave’s cue was handed over ahead of it: ${least.toFixed(0)} ms.\n`,
  ].join('');
}

function figures(what: string, values: readonly number[]): string {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number): string => (sorted[Math.floor(share * (sorted.length - 1))] ?? NaN).toFixed(2);
  return `  ${what.padEnd(52)}${[String(sorted.length), at(0.5), at(0.99), at(1)].map((text) => text.padStart(9)).join('')}\n`;
}
