/*
 * A host that can be killed and comes back on the same folder, port and clock, the clock being moved from
 * here, and its pages in a real browser, which have to find their way by themselves.
 */

import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { BrowserContext, Page } from 'playwright';
import type { JournalEntry } from '../../../../app/host/journal/journal-line.ts';
import { readJournal } from '../../../../app/host/journal/journal-text.ts';
import { followRun, type FollowedRun } from '../../../../renderer/link/follow-run.ts';
import type { DeckRun } from '../../../../renderer/link/store.ts';
import type { CalledLeave } from '../../sound/called-leaves.ts';
import { freshDataFolder } from '../folders/data-folder.ts';
import type { FromParent, ToParent } from '../mortal-host.ts';
import { MovingClock } from '../../clock/moving-clock.ts';

const HOST = fileURLToPath(new URL('../mortal-host.ts', import.meta.url));

/** In ms: how late the browser may tell of a connection that was refused. */
const HEARD_LATE = 1000;

export class MortalDeck {
  /** What the browser complained of on any page, in its words; not that a host that is dead does not answer. */
  readonly complaints: string[] = [];
  /** How often each page was loaded. */
  readonly loads = new Map<Page, number>();
  private readonly data = freshDataFolder();
  private readonly clock = new MovingClock();
  private child: ChildProcess | null = null;
  /** On this process's clock, in ms: until when the host was dead; null while it is. */
  private deadUntil: number | null = null;
  private port = 0;
  private followed: FollowedRun | null = null;

  static async start(): Promise<MortalDeck> {
    const deck = new MortalDeck();
    await deck.revive();
    return deck;
  }

  /** Starts the host where there is none, on what the one before has left. Resolves when it serves. */
  async revive(): Promise<void> {
    const words = [HOST, this.data, String(this.port), JSON.stringify(this.clock.setting())];
    const child = spawn(process.execPath, ['--import', 'tsx', ...words], {
      stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
    });
    this.child = child;
    await new Promise<void>((resolve, reject) => {
      child.once('exit', (status) => reject(new Error(`the host has ended with ${status}`)));
      child.on('message', (message: ToParent) => {
        if (message.say === 'told') return this.follow(message);
        this.port = message.port;
        this.deadUntil = performance.now();
        resolve();
      });
    });
  }

  /** As a power switch does it: nothing is said, nothing is written any more. */
  async kill(): Promise<void> {
    const { child } = this;
    this.child = this.deadUntil = null;
    if (!child || child.exitCode !== null || child.signalCode !== null) return;
    const gone = once(child, 'exit');
    child.kill('SIGKILL');
    await gone;
  }

  /** To the living host: stops it where it is, or lets it go on. */
  signal(name: 'SIGSTOP' | 'SIGCONT'): void {
    this.child?.kill(name);
  }

  get origin(): string {
    return `http://127.0.0.1:${this.port}`;
  }

  /** The run that is open, as a screen has it; throws without one. */
  run(): DeckRun {
    if (!this.followed) throw new Error('no session is open');
    return this.followed.run;
  }

  /** Whether this process has heard of a run: a page may have before. */
  hasRun(): boolean {
    return this.followed !== null;
  }

  /** Since the clock began, in ms. */
  now(): number {
    return this.clock.now();
  }

  /** Moves the evening on; the pages hear of it from the host alone. */
  moveTo(time: number): void {
    this.clock.moveTo(time);
    this.child?.send({ ahead: this.clock.setting().ahead } satisfies FromParent);
  }

  /** The leaves that the only journal says were handed over. */
  handedOver(): readonly CalledLeave[] {
    return this.journal().flatMap((entry) =>
      entry.say === 'alive' ? entry.leaves.map(([lane, at]) => ({ lane, at })) : [],
    );
  }

  /** The commands that the only journal says a device of this name has given. */
  givenOn(device: string): readonly unknown[] {
    return this.journal().flatMap((entry) =>
      entry.say === 'command' && entry.from?.name === device ? [entry.command['do']] : [],
    );
  }

  private journal(): readonly JournalEntry[] {
    const [name] = readdirSync(join(this.data, 'runs'));
    const journal = readJournal(readFileSync(join(this.data, 'runs', name!)));
    if (journal.kind !== 'journal') throw new Error('the journal cannot be read');
    return journal.entries;
  }

  async openPage(context: BrowserContext, path: string, origin = this.origin): Promise<Page> {
    const page = await context.newPage();
    this.loads.set(page, 0);
    page.on('framenavigated', (frame) => {
      if (frame === page.mainFrame()) this.loads.set(page, (this.loads.get(page) ?? 0) + 1);
    });
    page.on('console', (message) => {
      const isUnanswered = message.text().includes('ERR_CONNECTION_REFUSED');
      const wasDead = this.deadUntil === null || performance.now() < this.deadUntil + HEARD_LATE;
      if (message.type() === 'error' && !(isUnanswered && wasDead)) this.complaints.push(`${path}: ${message.text()}`);
    });
    page.on('pageerror', (error) => this.complaints.push(`${path}: ${error.message}`));
    await page.goto(origin + path);
    return page;
  }

  private follow({ snapshot, texts }: Extract<ToParent, { say: 'told' }>): void {
    if (!snapshot.run) return void (this.followed = null);
    const known = new Map(texts.map(({ hash, text, lanesText }) => [hash, { text, lanesText }]));
    const followed = followRun(this.followed, snapshot.run, known);
    if (!followed.ok) throw new Error(followed.faults);
    this.followed = followed.value;
  }
}
