/*
 * The host over fake time with a journal on a fake disk, that a test can kill and start again.
 */

import { runsFolder } from '../../../../app/host/lock/data-folder.ts';
import { DeckHost } from '../../../../app/host/deck/deck-host.ts';
import { JournalFile } from '../../../../app/host/journal/journal-file.ts';
import { startLoop, type Loop } from '../../../../app/host/time/loop.ts';
import { recover, type Recovery } from '../../../../app/host/recovery/recovery.ts';
import { lifeSigns } from '../../../../app/host/journal/life-signs.ts';
import { FakeClock } from '../../clock/fake-clock.ts';
import { FakeDisk } from '../folders/fake-disk.ts';
import { FreeFolder } from '../../system/free-folder.ts';

export const FOLDER = runsFolder('/data');

export const SQUAD = `Harbour squad
start on 1
lane 1 base 1:00, 3 swimmers
lane 2 base 1:00

Main set
8 x 50 free @ 0:40/0:45

Swim-down
100 easy @ 3:00
`;

export class JournalledDeck {
  readonly host: DeckHost;
  readonly journal: JournalFile;
  readonly clock: FakeClock;
  readonly disk: FakeDisk;
  readonly guard = new FreeFolder();
  private readonly loop: Loop;
  private dead = false;

  private constructor(clock: FakeClock, disk: FakeDisk, boot: string, prefix: string) {
    this.clock = clock;
    this.disk = disk;
    const { timers } = clock;
    const tell = (sentence: string | null): void => this.host.tell('record', sentence);
    this.journal = new JournalFile({ disk, folder: FOLDER, boot, timers, guard: this.guard, tell });
    let ids = 0;
    this.host = new DeckHost({ clock, timers, journal: this.journal, newId: () => `${prefix}-${++ids}` });
    this.loop = startLoop(clock, timers, [lifeSigns(this.host, clock, this.journal)]);
    this.host.onChange(() => this.loop.wake());
  }

  /** A host that is started on what the disk holds, and what it found there. */
  static async start(
    clock = new FakeClock(),
    disk = new FakeDisk(),
    boot = 'boot-1',
    prefix = 'run',
  ): Promise<{ readonly deck: JournalledDeck; readonly recovery: Recovery }> {
    const deck = new JournalledDeck(clock, disk, boot, prefix);
    const moment = clock.instant();
    const recovery = await recover({ disk, folder: FOLDER, boot, moment });
    if (recovery.found) deck.journal.takeUp(recovery.found.run, recovery.found.file);
    await deck.host.comeBack(recovery, moment);
    await settled();
    return { deck, recovery };
  }

  async open(text: string): Promise<void> {
    const answer = await this.host.open({ text, lanesText: null }, { replace: true, clockPhase: 0 });
    if (!answer.ok) throw new Error(JSON.stringify(answer));
  }

  /** Time passes, and what is written on the way gets to the disk. */
  async pass(ms: number): Promise<void> {
    for (let left = ms; left > 0; left -= 1000) {
      this.clock.advance(Math.min(1000, left));
      await settled();
    }
  }

  /** As SIGKILL does: nothing more is done, nothing is said. */
  kill(): void {
    if (this.dead) return;
    this.dead = true;
    this.loop.stop();
    this.guard.dead = true;
  }

  /** The run's t now. */
  now(): number {
    return this.clock.now() - this.host.current()!.openedAt;
  }

  /** The only journal on the disk; throws with none or several. */
  path(): string {
    const paths = [...this.disk.files.keys()].filter((path) => path.endsWith('.jsonl'));
    if (paths.length !== 1) throw new Error(`${paths.length} journals`);
    return paths[0]!;
  }
}

/** A run that has been going for a minute: lane 1 left at 10 and 50 s, lane 2 at 10 and 55 s, and skips its next. */
export async function goingDeck(): Promise<JournalledDeck> {
  const { deck } = await JournalledDeck.start();
  await deck.open(SQUAD);
  await deck.host.command('a', { do: 'start' });
  await deck.pass(60_000);
  await deck.host.command('b', { do: 'skip', lanes: [2] });
  await settled();
  return deck;
}

/** A host that is started where another was killed. */
export function restarted({ clock, disk }: JournalledDeck, boot = 'boot-1') {
  return JournalledDeck.start(clock, disk, boot, 'later');
}

/** Lets everything happen that waits for nothing but its turn. */
export async function settled(): Promise<void> {
  for (let turn = 0; turn < 200; turn++) await Promise.resolve();
}
