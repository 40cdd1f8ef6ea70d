/*
 * What is recorded: four lanes on short intervals for nearly three minutes, with all that a coach does
 * to them, and what has to be heard of it.
 */

import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { openPlan } from '../../../app/core/plan/open-plan.ts';
import type { TimedCommand } from '../../../app/core/run/command/command.ts';
import { readCommand } from '../../../app/core/run/command/read-command.ts';
import { apply } from '../../../app/core/run/fold.ts';
import { openRun } from '../../../app/core/run/state.ts';
import { cuesDue, type Cue } from '../../../app/core/sound/cues.ts';
import type { ServedHost } from '../../support/host/served-host.ts';

const SESSION = `Recording
start on 1
lane 1
lane 2
lane 3
lane 4

Main set
40 x 25 @ 0:05/0:06/0:07/0:09

Swim-down
20 x 25 easy @ 0:05/0:06/0:06/0:07
`;

/** In seconds of the run; a stop and its resume, a lane by itself, reps skipped, stops close to a leave, the next part. */
const SCRIPT: readonly (readonly [number, Readonly<Record<string, unknown>>])[] = [
  [2, { do: 'start' }],
  [30.4, { do: 'skip', lanes: [2] }],
  [45.6, { do: 'stop' }],
  [49.2, { do: 'resume' }],
  [72.3, { do: 'stop', lanes: [3] }],
  [80.1, { do: 'skip' }],
  [84.7, { do: 'resume', lanes: [3] }],
  [101.86, { do: 'stop', lanes: [1] }],
  [104.5, { do: 'rejoin', lanes: [1] }],
  [115.1, { do: 'shift', seconds: 3, lanes: [2] }],
  [126.5, { do: 'move-on' }],
  [128.5, { do: 'start' }],
  [149.6, { do: 'stop' }],
  [151, { do: 'undo' }],
];

/** When the recording ends, in s of the run: between two tones. */
const ENDS = 184.5;

/** Opens the session, which then waits for the coach. */
export async function openEvening(host: ServedHost): Promise<void> {
  const session = { text: SESSION, lanesText: null, replace: true, clockPhase: 0 };
  const headers = { 'Content-Type': 'application/json', Origin: host.origin };
  const reply = await fetch(`${host.origin}/session`, { method: 'PUT', headers, body: JSON.stringify(session) });
  if (!reply.ok) throw new Error(`the session was not opened: ${reply.status}`);
}

/** Opens the session, gives the commands at their times, and waits for the end. */
export async function playEvening(host: ServedHost, onOpen: () => Promise<void>): Promise<void> {
  await openEvening(host);
  const { ahead } = await host.sight();
  await onOpen();
  for (const [second, command] of SCRIPT) {
    await pause(Math.max(0, second * 1000 - ahead - performance.now()));
    const { ok, why } = await host.command(`bench-${ahead}-${second}`, command);
    if (!ok) throw new Error(`${command['do']} at ${second}: ${why}`);
  }
  await pause(Math.max(0, ENDS * 1000 - ahead - performance.now()));
}

export interface Played {
  /** Every tone and pip that has to be heard, by run time. */
  readonly cues: readonly Cue[];
  /** The run's t less the bench's clock, in ms. */
  readonly ahead: number;
}

/** What has to be heard of the run that is open, from its commands; the leaves as the host itself wrote them down. */
export async function played(host: ServedHost, data: string): Promise<Played> {
  const { snapshot, ahead } = await host.sight();
  const commands = (snapshot.run?.commands ?? []).map(({ at, command }): TimedCommand => {
    const read = readCommand(command);
    if (!read.ok) throw new Error(read.faults);
    return { at, command: read.value };
  });
  const cues = cuesOf(commands);
  const written = JSON.stringify([...new Set(leavesWritten(data, snapshot.run!.id))].sort((a, b) => a - b));
  const worked = JSON.stringify(cues.filter(({ kind }) => kind === 'leave').map(({ at }) => at));
  if (written !== worked) throw new Error(`the host wrote other leaves down: ${written}, not ${worked}`);
  return { cues, ahead };
}

function cuesOf(commands: readonly TimedCommand[]): readonly Cue[] {
  const plan = openPlan({ text: SESSION, lanesText: null });
  if (!plan.ok) throw new Error('a faulty session');
  let state = openRun(plan.value, 0);
  const cues: Cue[] = [];
  commands.forEach(({ at, command }, index) => {
    state = apply(state, command, at).state;
    cues.push(...cuesDue(state, at, commands[index + 1]?.at ?? ENDS * 1000));
  });
  return cues;
}

/** The leaves' times in the journal of a run, up to the recording's end. */
function leavesWritten(data: string, run: string): readonly number[] {
  const file = readdirSync(join(data, 'runs')).find((name) => name.includes(run));
  if (file === undefined) throw new Error('the run has no journal');
  const lines = readFileSync(join(data, 'runs', file), 'utf8')
    .trim()
    .split('\n');
  return lines
    .map((line) => JSON.parse(line) as { say: string; leaves?: readonly (readonly [number, number])[] })
    .flatMap(({ leaves }) => leaves ?? [])
    .map(([, at]) => at)
    .filter((at) => at < ENDS * 1000);
}
