/*
 * Floods at the doors of the built program, each by a process of its own, while the coach stops and resumes on this
 * machine, a wall looks on, and one that was let in reads nothing. The coach must be answered within 100 ms, the
 * program's own loop must be no later than in calm, to a millisecond at the 99th percentile, and it must stay small.
 */

import { spawn } from 'node:child_process';
import { on, once } from 'node:events';
import { readFileSync } from 'node:fs';
import { constants, setPriority } from 'node:os';
import { fileURLToPath } from 'node:url';
import { setTimeout as pause } from 'node:timers/promises';
import { JOINING_VERSION } from '../../../app/wire/sharing/joining.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { DoorSocket } from '../../support/host/sharing/door-socket.ts';
import type { ServedHost } from '../../support/host/served-host.ts';
import { ATTACKS } from './attacks.ts';
import { SharedPool } from './shared-pool.ts';

/** In ms. */
const ANSWERED_WITHIN = 100;

/** In ms, at the 99th percentile: how much later the program's loop may be in a flood. */
const LATER = 1;

/** In MiB: how much more the program may need in a flood. */
const MORE_MEMORY = 100;

const LATENESS = new URL('./loop-lateness.mjs', import.meta.url);
const ATTACKER = fileURLToPath(new URL('./attacker.ts', import.meta.url));

/** seconds: how long each flood takes; 0 leaves them out. */
export async function tryFloods(seconds: number): Promise<readonly string[]> {
  if (seconds === 0) return [];
  const pool = await SharedPool.open(freshDataFolder(), { load: LATENESS });
  try {
    const wall = await wallLetIn(pool, '10.77.4.1');
    const deaf = await wallLetIn(pool, '10.77.4.2');
    deaf.stopReading();
    await give(pool.coach, 'start');
    const calm = await watched(pool, wall, seconds);
    say('nobody', calm, '');
    const wrong: string[] = [];
    const lateness: (readonly [attack: string, p99: number])[] = [];
    for (const attack of ATTACKS) {
      const words = [...process.execArgv, ATTACKER, attack, pool.network, String(seconds * 1000)];
      const attacker = spawn(process.execPath, words, { stdio: ['ignore', 'pipe', 'inherit'] });
      // It would have a machine of its own.
      setPriority(attacker.pid!, constants.priority.PRIORITY_LOW);
      let times = '';
      attacker.stdout.on('data', (chunk: Buffer) => (times += chunk.toString().trim()));
      const ended = once(attacker, 'exit');
      const seen = await watched(pool, wall, seconds);
      await ended;
      say(attack, seen, ` (${times} times)`);
      if (seen.answers.at(-1)! > ANSWERED_WITHIN)
        wrong.push(`${attack}: a Stop was answered after ${seen.answers.at(-1)} ms`);
      lateness.push([attack, seen.loop.p99]);
      if (seen.memory > calm.memory + MORE_MEMORY) wrong.push(`${attack}: the program grew to ${seen.memory} MiB`);
    }
    const after = await watched(pool, wall, seconds);
    say('nobody again', after, '');
    // Calm is what it is at best: the machine may have been busy with something else.
    const atBest = Math.min(calm.loop.p99, after.loop.p99);
    for (const [attack, p99] of lateness)
      if (p99 > atBest + LATER)
        wrong.push(`${attack}: the loop was ${(p99 - atBest).toFixed(2)} ms later than in calm`);
    return wrong;
  } finally {
    await pool.end();
  }
}

interface Lateness {
  readonly p50: number;
  readonly p99: number;
  readonly most: number;
}

interface Seen {
  /** Of the coach's commands, in ms, the longest last. */
  readonly answers: readonly number[];
  /** Of the wall's pings. */
  readonly pongs: readonly number[];
  /** How late the program's loop was, in ms. */
  readonly loop: Lateness;
  /** The most that the program needed, in MiB. */
  readonly memory: number;
}

async function watched({ coach, served }: SharedPool, wall: DoorSocket, seconds: number): Promise<Seen> {
  await lateness(served);
  const until = performance.now() + seconds * 1000;
  const answers: number[] = [];
  const pongs: number[] = [];
  let memory = 0;
  for (let n = 0; performance.now() < until; n++) {
    answers.push(await timed(() => give(coach, n % 2 === 0 ? 'stop' : 'resume')));
    pongs.push(await timed(() => pinged(wall, n)));
    memory = Math.max(memory, memoryOf(served.child.pid!));
    await pause(200);
  }
  const loop = await lateness(served);
  return { answers: answers.sort((a, b) => a - b), pongs: pongs.sort((a, b) => a - b), loop, memory };
}

/** Of the program's loop, since it was asked last. */
async function lateness({ child }: ServedHost): Promise<Lateness> {
  child.kill('SIGUSR2');
  for await (const chunk of on(child.stderr!, 'data')) {
    const [, json] = /^loop (.*)$/m.exec(String(chunk)) ?? [];
    if (json !== undefined) return JSON.parse(json) as Lateness;
  }
  throw new Error('The program has ended.');
}

function say(who: string, { answers, pongs, loop, memory }: Seen, times: string): void {
  const of = (all: readonly number[]): string =>
    `${all[Math.floor(all.length / 2)]!.toFixed(1)} ms (median), ${all.at(-1)!.toFixed(1)} ms at worst`;
  process.stdout.write(
    `floods: ${who}${times}: the coach’s Stop or Resume answered in ${of(answers)}; a wall’s ping in ${of(pongs)}; ` +
      `the program’s loop ${loop.p50.toFixed(2)} ms late (p50), ${loop.p99.toFixed(2)} (p99), ${loop.most.toFixed(1)} at worst; ${memory} MiB\n`,
  );
}

async function timed(act: () => Promise<void>): Promise<number> {
  const begun = performance.now();
  await act();
  return performance.now() - begun;
}

let given = 0;

async function give(coach: DoorSocket, name: string): Promise<void> {
  const id = `flood-${given++}`;
  coach.tell({ say: 'command', id, command: { do: name } });
  await coach.hears('answer', (answer) => answer.id === id);
}

async function pinged(wall: DoorSocket, n: number): Promise<void> {
  wall.tell({ say: 'ping', n, t1: 0 });
  await wall.hears('pong', (pong) => pong.n === n);
}

async function wallLetIn({ coach, network }: SharedPool, from: string): Promise<DoorSocket> {
  const wall = await DoorSocket.open({ host: network, from, socket: 'wall' });
  wall.say({ say: 'show', version: JOINING_VERSION });
  const shown = await wall.heard();
  if (shown?.say !== 'digits') throw new Error('A wall is given no digits.');
  await coach.wish({ do: 'let-in', digits: shown.digits });
  await wall.heard();
  wall.hello('wall');
  await wall.hears('snapshot');
  return wall;
}

/** Resident, in MiB. */
function memoryOf(pid: number): number {
  const [, kib] = /VmRSS:\s*(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))!;
  return Math.round(Number(kib) / 1024);
}
