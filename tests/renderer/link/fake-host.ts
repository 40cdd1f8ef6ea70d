/*
 * A host, a network and a machine for a link under test: time moves only when told, and every message
 * takes as long as the test says.
 */

import { openPlan } from '../../../app/core/plan/open-plan.ts';
import { createLink, type Introduce, type Link } from '../../../renderer/link/link.ts';
import type { Carrier, Heard, ToCarrier } from '../../../renderer/link/connection/carrier.ts';
import type { Ports } from '../../../renderer/link/connection/ports.ts';
import {
  readFromScreen,
  WIRE_VERSION,
  type FromHost,
  type FromScreen,
  type ScreenKind,
  type Snapshot,
} from '../../../app/wire/messages.ts';

export const TEXT = 'Main set\n4 x 50 fast @ 1:00\n';
export const HASH = 'a'.repeat(16);

type SnapshotRun = NonNullable<Snapshot['run']>;

interface Timer {
  readonly at: number;
  readonly call: () => void;
}

export class FakeHost {
  /** The screen's own clock, its time of day, and host time minus the first. */
  now = 1000;
  wall = 5_000_000;
  ahead = 700_000;
  epoch = 'first';
  /** One way, in ms. */
  delay = 5;
  /** The carrier's. */
  longestPause = 1500;
  isReachable = true;
  answersPings = true;
  /** In ms: as in a hidden page, timers of the screen fire at multiples of this only; 0: at their times. */
  timersEvery = 0;
  /** What chance says of every wait: the whole of it. */
  chance = 1;
  readonly heard: FromScreen[] = [];
  readonly posted: string[] = [];
  readonly connectedAt: number[] = [];
  /** How often the page was to load itself anew. */
  reloads = 0;
  private timers = new Set<Timer>();
  private wakers = new Set<() => void>();
  /** What the host has said to whoever carries its messages. */
  readonly toCarrier: ToCarrier[] = [];
  /** What whoever carries them wants to be said first. */
  saysFirst: string | undefined = undefined;
  private line: Heard | null = null;
  private ids = 0;
  private snapshots = 0;
  run: SnapshotRun | null = null;

  open(screen: ScreenKind = 'wall', introduce?: Introduce): Link {
    const link = createLink(screen, this.carrier(), this.ports(), introduce);
    this.pass(0);
    return link;
  }

  /** Lets time pass, everything due happening at its time. */
  pass(ms: number): void {
    const until = this.now + ms;
    for (;;) {
      const due = [...this.timers].filter(({ at }) => at <= until).sort((a, b) => a.at - b.at)[0];
      if (!due) break;
      this.timers.delete(due);
      this.step(Math.max(0, due.at - this.now));
      due.call();
    }
    this.step(until - this.now);
  }

  /** The machine sleeps: its own clock stands still, time of day and host time go on. */
  sleep(ms: number): void {
    this.wall += ms;
    this.ahead += ms;
  }

  wake(): void {
    this.wakers.forEach((call) => call());
  }

  /** Opens a run now, at host time. */
  openRun(id = 'run-1'): void {
    this.run = {
      id,
      text: HASH,
      openedAt: this.now + this.ahead,
      clockPhase: 0,
      openedAtTimeOfDay: 70_200_000,
      commands: [],
    };
    this.sendText();
    this.sendSnapshot();
  }

  accept(at: number, command: Record<string, unknown>): void {
    if (!this.run) throw new Error('no run');
    this.run = { ...this.run, commands: [...this.run.commands, { at, command }] };
    this.sendSnapshot();
  }

  sendText(text = TEXT, hash = HASH): void {
    if (!openPlan({ text, lanesText: null }).ok) throw new Error('a faulty text');
    this.send({ say: 'text', hash, text, lanesText: null });
  }

  sendSnapshot(version: number = WIRE_VERSION): void {
    this.send({
      say: 'snapshot',
      version,
      n: this.snapshots++,
      epoch: this.epoch,
      run: this.run,
      notices: [],
      startUp: null,
    });
  }

  send(message: FromHost): void {
    this.sendRaw(JSON.stringify(message));
  }

  /** Something that may be no message at all. */
  sendRaw(text: string): void {
    const { line } = this;
    this.after(this.delay, () => {
      if (line === this.line) line?.message(text);
    });
  }

  /** The connection breaks. */
  cut(): void {
    const { line } = this;
    this.line = null;
    line?.closed();
  }

  /** Nothing of the connection arrives any more, and nobody is told. */
  forget(): void {
    this.line = null;
  }

  /** How many of the screen's messages say that. */
  count(say: FromScreen['say']): number {
    return this.heard.filter((message) => message.say === say).length;
  }

  private step(ms: number): void {
    this.now += ms;
    this.wall += ms;
  }

  /** A timer of the screen's page. */
  private pageTimer(ms: number, call: () => void): () => void {
    const every = this.timersEvery;
    return this.after(every > 0 ? Math.ceil((this.now + ms) / every) * every - this.now : ms, call);
  }

  private after(ms: number, call: () => void): () => void {
    const timer = { at: this.now + ms, call };
    this.timers.add(timer);
    return () => this.timers.delete(timer);
  }

  /** What the link has of its machine. */
  ports(): Ports {
    return {
      now: () => this.now,
      wall: () => this.wall,
      after: (ms, call) => this.pageTimer(ms, call),
      random: () => this.chance,
      newId: () => `id-${this.ids++}`,
      post: (message) => {
        this.posted.push(message);
        return this.isReachable
          ? Promise.resolve({ ok: true, at: 1234, why: null })
          : Promise.reject(new Error('gone'));
      },
      onWake: (call) => {
        this.wakers.add(call);
        return () => this.wakers.delete(call);
      },
      reloadOnce: () => this.reloads++,
    };
  }

  private carrier(): Carrier {
    return {
      patience: 6000,
      longestPause: this.longestPause,
      told: (message) => {
        this.toCarrier.push(message);
        return this.saysFirst;
      },
      connect: (line) => {
        this.connectedAt.push(this.now);
        let isOver = false;
        this.line = {
          opened: () => !isOver && line.opened(),
          message: (text) => !isOver && line.message(text),
          closed: () => !isOver && line.closed(),
        };
        const mine = this.line;
        this.after(this.delay, () => {
          if (mine !== this.line) return;
          if (this.isReachable) mine.opened();
          else this.cut();
        });
        return {
          send: (text) => this.after(this.delay, () => mine === this.line && this.take(text)),
          close: () => {
            isOver = true;
            if (this.line === mine) this.line = null;
          },
        };
      },
    };
  }

  private take(text: string): void {
    const message = readFromScreen(text);
    if (!message) throw new Error(`no message of a screen: ${text}`);
    this.heard.push(message);
    if (message.say === 'hello') {
      if (this.run) this.sendText();
      this.sendSnapshot();
    }
    if (message.say === 'ping' && this.answersPings) {
      const t = this.now + this.ahead;
      this.send({ say: 'pong', n: message.n, t1: message.t1, t2: t, t3: t, epoch: this.epoch });
    }
  }
}

/** A live link with a run opened when the host's clock and the run's start are the same. */
export function live(): { host: FakeHost; link: Link } {
  const host = new FakeHost();
  const link = host.open();
  host.pass(1000);
  host.openRun();
  host.pass(100);
  return { host, link };
}
