/*
 * A screen without a picture: the pages' own link, clock and schedule of cues over a real socket, with every
 * arrival and every cue noted beside the time that it really was. Host and screen are on one machine, whose
 * monotonic clock both read, so that what the screen believes can be held against the truth.
 */

import { randomUUID } from 'node:crypto';
import { WebSocket } from 'ws';
import { view, type RunView } from '../../app/core/run/view.ts';
import type { Command } from '../../app/core/run/command/command.ts';
import { cuesDue, type Cue } from '../../app/core/sound/cues.ts';
import { readFromHost } from '../support/host/from-host.ts';
import type { Carrier } from '../../renderer/link/connection/carrier.ts';
import { createLink, type Link } from '../../renderer/link/link.ts';
import type { CommandAnswer } from '../../renderer/link/outbox.ts';
import type { Ports } from '../../renderer/link/connection/ports.ts';
import { seenIn } from '../../renderer/link/seen.ts';
import type { DeckRun } from '../../renderer/link/store.ts';
import { createSchedule, NO_SOUND, type DueSound, type ScheduledSound } from '../../renderer/sound/schedule.ts';

/** As the pages feed their players, and for how long ahead, in ms. */
const PASS = 250;
export const HORIZON = 2000;

/** No file of sounds is played here. */
const VOICE = { file: 'leave', gain: 1 } as const;

/** All in ms. */
export interface ScreenNotes {
  /** From the time of a command's acceptance to the arrival of the snapshot with it, by this screen's synced clock. */
  readonly snapshots: number[];
  /** From giving a command to having its answer. */
  readonly answers: number[];
  /** How long after a leave came within the two seconds ahead its cue was handed over. */
  readonly foundAfter: number[];
  /** What the screen took the host's clock for, less what it was. */
  readonly clockErrors: number[];
}

type HandedCue = Cue & DueSound;

interface Handed {
  readonly cue: HandedCue;
  /** As it was put right last, by this screen's own clock, in ms. */
  readonly time: { readonly heardAt: number };
  takenBack: boolean;
}

export class ListeningScreen {
  readonly notes: ScreenNotes = { snapshots: [], answers: [], foundAfter: [], clockErrors: [] };
  /** How many cues were taken back before their time. */
  takenBack = 0;
  private readonly link: Link;
  private readonly handed: Handed[] = [];
  private lastTime: Handed['time'] | null = null;
  private readonly timer: ReturnType<typeof setInterval>;

  constructor(origin: string) {
    const carrier = socketTo(origin, (text) => this.noteArrival(text));
    this.link = createLink('desk', carrier, ownPorts());
    const output = { schedule: (_: unknown, heardAt: number) => this.hand(heardAt) };
    const schedule = createSchedule<HandedCue>(output, (what, cue) =>
      what === 'scheduled' ? this.noteHanded(cue) : this.noteTakenBack(cue),
    );
    const pass = (): void => {
      const run = this.run();
      const now = performance.now();
      const t = this.link.exactNow();
      if (!run || t === null) return;
      this.notes.clockErrors.push(run.openedAt + t - trueTime());
      const cues = cuesDue(run.state, Math.floor(t), Math.floor(t + HORIZON));
      schedule.bring(
        now,
        cues.map((cue) => ({ ...cue, voice: VOICE, heardAt: now - t + cue.at })),
      );
    };
    this.link.store.subscribe(pass);
    this.timer = setInterval(pass, PASS);
  }

  close(): void {
    clearInterval(this.timer);
    this.link.close();
  }

  run(): DeckRun | null {
    return this.link.store.getState().run;
  }

  /** The run's t; null before there is one. */
  now(): number | null {
    return this.link.now();
  }

  view(): RunView | null {
    const run = this.run();
    const t = this.link.now();
    return run && t !== null ? view(run.state, t) : null;
  }

  /** Gives a command with what this screen shows. */
  async give(command: Command): Promise<CommandAnswer> {
    const shown = this.view();
    const begun = performance.now();
    const answer = await this.link.command(command, shown ? seenIn(shown, command) : undefined);
    this.notes.answers.push(performance.now() - begun);
    return answer;
  }

  /** The times of leaves up to t whose tone was handed over and not taken back; twice where it was twice. */
  toned(t: number): readonly number[] {
    const kept = this.handed.filter(({ cue, takenBack }) => cue.kind === 'leave' && cue.at <= t && !takenBack);
    return kept.map(({ cue }) => cue.at);
  }

  /** How far from its time, in truth, each cue up to t was set that was not taken back, in ms. */
  setOff(t: number): readonly number[] {
    const { openedAt } = this.run()!;
    const origin = ownOrigin();
    const kept = this.handed.filter(({ cue, takenBack }) => cue.at <= t && !takenBack);
    return kept.map(({ cue, time }) => time.heardAt + origin - (openedAt + cue.at));
  }

  private noteArrival(text: string): void {
    // Before the message is looked into, which takes its time too.
    const t = this.link.exactNow();
    const message = readFromHost(text);
    // Those of a whole snapshot may be older than this screen.
    if (message?.say !== 'commands' || t === null) return;
    for (const { at } of message.commands) this.notes.snapshots.push(t - at);
  }

  /** The schedule names the cue right after it has handed over its time. */
  private hand(heardAt: number): ScheduledSound {
    const time = { heardAt };
    this.lastTime = time;
    return { ...NO_SOUND, retime: (to) => void (time.heardAt = to) };
  }

  private noteHanded(cue: HandedCue): void {
    // A pip may come into being late, by what a command has done to the leaves of others; and a clock that is
    // being put right takes back a cue that was found before, and hands it over anew.
    const isFound = cue.kind === 'leave' && this.handed.every((each) => each.cue.key !== cue.key);
    if (isFound) this.notes.foundAfter.push(trueTime() - (this.run()!.openedAt + cue.at - HORIZON));
    this.handed.push({ cue, time: this.lastTime!, takenBack: false });
  }

  private noteTakenBack({ key }: HandedCue): void {
    const last = this.handed.filter(({ cue, takenBack }) => cue.key === key && !takenBack).pop();
    if (!last) throw new Error(`${key} was taken back and never handed over`);
    last.takenBack = true;
    this.takenBack++;
  }
}

/** The machine's monotonic clock in ms, which is the host's clock for as long as the machine does not sleep. */
function trueTime(): number {
  const [seconds, nanoseconds] = process.hrtime();
  return seconds * 1000 + nanoseconds / 1e6;
}

/** The true time at which this screen's own clock was 0: the nearest of many looks, for a look may be interrupted. */
function ownOrigin(): number {
  const looks = Array.from({ length: 100 }, () => {
    const before = performance.now();
    const origin = trueTime() - before;
    return { origin, took: performance.now() - before };
  });
  return looks.reduce((best, look) => (look.took < best.took ? look : best)).origin;
}

function ownPorts(): Ports {
  return {
    now: () => performance.now(),
    wall: () => Date.now(),
    after(delay, call) {
      const timer = setTimeout(call, delay);
      return () => clearTimeout(timer);
    },
    random: () => Math.random(),
    newId: () => randomUUID(),
    post: () => Promise.reject(new Error('no command of this screen is that long')),
    onWake: () => () => undefined,
    reloadOnce: () => undefined,
  };
}

function socketTo(origin: string, arrived: (text: string) => void): Carrier {
  return {
    // As the pages' own.
    patience: 6000,
    longestPause: 1500,
    connect(heard) {
      const socket = new WebSocket(`${origin.replace('http', 'ws')}/deck`, { origin });
      socket.on('open', () => heard.opened());
      socket.on('message', (data: Buffer) => {
        const text = data.toString('utf8');
        arrived(text);
        heard.message(text);
      });
      socket.on('close', () => heard.closed());
      // A connection that fails is closed next.
      socket.on('error', () => undefined);
      return {
        send: (message) => {
          if (socket.readyState === WebSocket.OPEN) socket.send(message);
        },
        close() {
          socket.removeAllListeners('close');
          socket.close();
        },
      };
    },
  };
}
