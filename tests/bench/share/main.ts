/*
 * `npm run bench:share`: what screens on a network cost the host, and how good their clocks are. 1, 20 and 200 screens on
 * this machine's own network, behind a run of 400 commands: how late a command reaches them, the host's processor and
 * memory, how late its loop wakes up; beside a host that sends every tick to every screen. Then 200 that lose their
 * connections at once. Clocks are measured over a simulated line, because jitter on a real one needs a kernel with netem.
 * About a minute and a half, on a quiet machine, or on Linux before all else by `chrt -f 20 npx tsx tests/bench/share/main.ts`.
 * Fails where a goal is missed.
 */

import { fork, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { cpus, loadavg } from 'node:os';
import { fileURLToPath } from 'node:url';
import { looksOver, quantile, wifi } from '../../support/clock/simulated-line.ts';
import { row, tableText, type Row } from '../table.ts';
import { BEHIND, BenchDeck, type Way } from './deck.ts';
import type { FromClients, ToClients } from './clients.ts';
import { watchLoop } from './lateness.ts';

/** Commands that are given while it is measured, and their distance in ms. */
const GIVEN = 40;
const APART = 200;

/** In ms. */
const GOALS = { delivery: 50, lateness: 1, reconnected: 3000, jitter20: 10, jitter80: 25 };

const missed: string[] = [];

function goal(what: string, value: number, most: number): void {
  if (value > most) missed.push(`${what}: ${value.toFixed(1)} ms, more than ${most}`);
}

interface Measured {
  readonly late: readonly number[];
  readonly loop: readonly number[];
  /** Share of one core. */
  readonly cpu: number;
  readonly megabytes: number;
}

async function measure(screens: number, way: Way): Promise<Measured> {
  const deck = await BenchDeck.open(way);
  const clients = screens === 0 ? null : await connected(screens, deck.port);
  await pause(1500);
  if (clients) await report(clients);
  const cpu = process.cpuUsage();
  const [begun, stop] = [performance.now(), watchLoop(deck.clock)];
  for (let given = 0; given < GIVEN; given++) {
    await deck.give();
    await pause(APART);
  }
  const loop = stop();
  const { user, system } = process.cpuUsage(cpu);
  const share = (user + system) / 1000 / (performance.now() - begun);
  const megabytes = process.memoryUsage().rss / 2 ** 20;
  const told = clients ? await report(clients) : { late: [], counts: [] };
  if (told.late.length !== GIVEN * screens)
    missed.push(`${screens} screens, ${way}: ${told.late.length} commands came`);
  if (told.counts.some((count) => count !== BEHIND + GIVEN))
    missed.push(`${screens} screens, ${way}: not all are right`);
  clients?.kill();
  deck.close();
  return { late: told.late, loop, cpu: share, megabytes };
}

async function reconnected(screens: number): Promise<readonly Row[]> {
  const deck = await BenchDeck.open('commands');
  const clients = await connected(screens, deck.port);
  await pause(1500);
  const stop = watchLoop(deck.clock);
  const begun = performance.now();
  const again = answerOf<{ connected: number }>(clients);
  deck.cutAll();
  await deck.give();
  await again;
  const took = performance.now() - begun;
  const loop = stop();
  const { counts } = await report(clients);
  if (counts.some((count) => count !== BEHIND + 1)) missed.push('reconnected: not all are right');
  clients.kill();
  deck.close();
  goal('reconnected', took, GOALS.reconnected);
  return [row(`${screens} screens reconnect at once: all right after`, `${took.toFixed(0)} ms; loop ${spread(loop)}`)];
}

function rowsOf(screens: number, way: Way, { late, loop, cpu, megabytes }: Measured): readonly Row[] {
  const what = way === 'naive' ? `${screens} screens, every tick to each` : `${screens} screens`;
  const load = `host ${(cpu * 100).toFixed(1)} % of a core, ${megabytes.toFixed(0)} MB; loop ${spread(loop)}`;
  return [
    ...(screens === 0 ? [] : [row(`${what}: a command reaches them after`, spread(late))]),
    row(`${what}: cost`, load),
  ];
}

function clockRows(): readonly Row[] {
  return [2, 20, 80].flatMap((jitter) =>
    [0, jitter / 4].map((asymmetry) => {
      const errors = Array.from({ length: 40 }, (_, seed) =>
        looksOver(wifi(seed + 1, { jitter, loss: 0.05, asymmetry, drift: 40e-6 }), 900_000),
      ).flatMap((looks) => looks.filter(({ at }) => at > 1000).map(({ error }) => Math.abs(error)));
      const p99 = quantile(errors, 0.99);
      if (jitter === 20) goal('clock, 20 ms of jitter', p99, GOALS.jitter20);
      if (jitter === 80) goal('clock, 80 ms of jitter', p99, GOALS.jitter80);
      return row(`clock, ${jitter} ms of jitter, 5 % lost, ${asymmetry} ms slower out: error`, spread(errors));
    }),
  );
}

async function connected(screens: number, port: number): Promise<ChildProcess> {
  const clients = fork(fileURLToPath(new URL('clients.ts', import.meta.url)));
  const answer = answerOf<{ connected: number }>(clients);
  say(clients, { connect: screens, port });
  await answer;
  return clients;
}

function report(clients: ChildProcess): Promise<Extract<FromClients, { late: unknown }>> {
  const answer = answerOf<Extract<FromClients, { late: unknown }>>(clients);
  say(clients, { report: true });
  return answer;
}

async function answerOf<Answer>(clients: ChildProcess): Promise<Answer> {
  const [answer] = (await once(clients, 'message')) as [Answer];
  return answer;
}

function say(clients: ChildProcess, message: ToClients): void {
  clients.send(message);
}

function spread(values: readonly number[]): string {
  const at = (share: number): string => quantile(values, share).toFixed(1);
  return `p50 ${at(0.5)}, p99 ${at(0.99)}, max ${at(1)} ms`;
}

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}

process.stdout.write(
  `Node ${process.versions.node}, ${cpus().length} cores, load ${loadavg()[0]!.toFixed(1)} before\n`,
);
const alone = await measure(0, 'commands');
const rows: Row[] = [...rowsOf(0, 'commands', alone)];
for (const screens of [1, 20, 200]) {
  for (const way of ['commands', 'naive'] as const) {
    const measured = await measure(screens, way);
    rows.push(...rowsOf(screens, way, measured));
    if (way === 'naive') continue;
    if (screens === 200) goal('delivery', quantile(measured.late, 0.99), GOALS.delivery);
    const lateness = quantile(measured.loop, 0.99) - quantile(alone.loop, 0.99);
    goal(`loop with ${screens} screens, p99 above that without`, lateness, GOALS.lateness);
  }
}
rows.push(...(await reconnected(200)), ...clockRows());
process.stdout.write(tableText(rows));
for (const miss of missed) process.stdout.write(`missed: ${miss}\n`);
process.exit(missed.length === 0 ? 0 : 1);
