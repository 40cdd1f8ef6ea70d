/*
 * A real host killed over and over at random moments, and held each time against what it had answered:
 * every command it has acknowledged is there, in order and at its time, and the run is where it should be.
 */

import { setTimeout as pause } from 'node:timers/promises';
import { fold } from '../../../app/core/run/fold.ts';
import type { TimedCommand } from '../../../app/core/run/command/command.ts';
import { readCommand } from '../../../app/core/run/command/read-command.ts';
import { leavesOf, type Leave } from '../../../app/core/run/record.ts';
import { settle } from '../../../app/core/run/settle.ts';
import { planOf } from '../run/deck.ts';
import { ServedHost, type Sight } from './served-host.ts';
import { seeded } from '../formats/session-text.ts';

const SESSION = [
  'Crash trial',
  'start on 1',
  'lane 1, 3 swimmers',
  'lane 2',
  'lane 3, 2 swimmers',
  'Main set',
  '400 x 25 @ 0:12/0:15/0:20',
].join('\n');

interface Given {
  readonly id: string;
  readonly at: number;
  readonly fields: Readonly<Record<string, unknown>>;
}

export interface TrialResult {
  readonly kills: number;
  readonly acknowledged: number;
  /** Commands that were on their way when the host died, and were carried out all the same. */
  readonly unacknowledgedKept: number;
  /** In ms: from the start of the process to its address on standard output. */
  readonly restarts: readonly number[];
  /** In ms, the largest: how far the run was from where the first host had it. */
  readonly offPlace: number;
  /** What was wrong, in sentences. */
  readonly wrong: readonly string[];
}

export async function crashTrial(data: string, seed: number, kills: number): Promise<TrialResult> {
  const random = seeded(seed);
  const known: Given[] = [];
  const wrong: string[] = [];
  const restarts: number[] = [];
  let offPlace = 0;
  let kept = 0;
  let host = await ServedHost.start(data, { session: SESSION });
  try {
    const first = await host.sight();
    await give(host, known, 'start', { do: 'start' });
    for (let kill = 0; kill < kills; kill++) {
      const pending = await work(host, known, random, kill);
      // Now and then the next one does not get far either: it dies while it starts, or just after.
      if (random() < 0.2) await ServedHost.killedEarly(data, random() * 500);
      const begun = performance.now();
      host = await ServedHost.start(data);
      restarts.push(performance.now() - begun);
      const sight = await host.sight();
      offPlace = Math.max(offPlace, Math.abs(sight.ahead - first.ahead));
      if (sight.snapshot.run?.id !== first.snapshot.run!.id) wrong.push(`kill ${kill}: another run, or none`);
      const found = compare(sight, known, pending, `kill ${kill}`, wrong);
      if (found) kept++;
      // An id that was answered, or carried out, is not carried out again.
      const again = found ?? known[Math.floor(random() * known.length)]!;
      const answer = await host.command(again.id, again.fields);
      if (!answer.ok || answer.at !== again.at) wrong.push(`kill ${kill}: ${again.id} was done twice`);
    }
  } finally {
    await host.kill();
  }
  return { kills, acknowledged: known.length, unacknowledgedKept: kept, restarts, offPlace, wrong };
}

/** Some commands that are answered and one that may not be, then the kill; gives that one. */
async function work(host: ServedHost, known: Given[], random: () => number, kill: number): Promise<Given | null> {
  const count = Math.floor(random() * 5);
  for (let index = 0; index < count; index++) await give(host, known, `${kill}-${index}`, invent(random));
  const last = { id: `${kill}-last`, at: -1, fields: invent(random) };
  const answering = host.command(last.id, last.fields).catch(() => null);
  await pause(random() * 25);
  await host.kill();
  const answer = await answering;
  if (answer?.ok) known.push({ ...last, at: answer.at! });
  return answer ? null : last;
}

async function give(host: ServedHost, known: Given[], id: string, fields: Given['fields']): Promise<void> {
  const answer = await host.command(id, fields);
  if (answer.ok) known.push({ id, at: answer.at!, fields });
}

function invent(random: () => number): Given['fields'] {
  const lane = 1 + Math.floor(random() * 3);
  const commands: readonly Given['fields'][] = [
    { do: 'mark', words: `seen at ${Math.floor(random() * 1000)}` },
    { do: 'shift', lanes: [lane], seconds: 30 },
    { do: 'stop', lanes: [lane] },
    { do: 'resume' },
    { do: 'skip', lanes: [lane] },
    { do: 'sit-out', lanes: [lane] },
    { do: 'swimmers', lanes: [lane], n: 1 + Math.floor(random() * 6) },
    { do: 'undo' },
  ];
  return commands[Math.floor(random() * commands.length)]!;
}

/** Holds a sight against what is known; the one command more that may be there, which is known from then on. */
function compare(
  { snapshot }: Sight,
  known: Given[],
  pending: Given | null,
  where: string,
  wrong: string[],
): Given | null {
  const commands = snapshot.run?.commands ?? [];
  const expected = known.map(({ at, fields }) => ({ at, command: fields }));
  const more = commands.slice(expected.length);
  if (JSON.stringify(commands.slice(0, expected.length)) !== JSON.stringify(expected)) {
    wrong.push(`${where}: ${expected.length} commands were acknowledged, and others are there`);
  }
  const extra = more[0];
  if (more.length > 1 || (extra && JSON.stringify(extra.command) !== JSON.stringify(pending?.fields))) {
    wrong.push(`${where}: a command is there that nobody gave`);
  }
  const found = extra && pending ? { ...pending, at: extra.at } : null;
  if (found) known.push(found);
  const came = leaves(commands.map(({ at, command }) => ({ at, fields: command })));
  if (JSON.stringify(came) !== JSON.stringify(leaves(known)))
    wrong.push(`${where}: its leaves are not those of the fold`);
  return found;
}

function leaves(given: readonly Pick<Given, 'at' | 'fields'>[]): readonly Leave[] {
  const commands = given.flatMap(({ at, fields }): TimedCommand[] => {
    const command = readCommand(fields);
    return command.ok ? [{ at, command: command.value }] : [];
  });
  return leavesOf(settle(fold(planOf(SESSION), 0, commands), Infinity));
}
