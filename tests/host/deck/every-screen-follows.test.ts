/*
 * Whatever becomes of the lines between them, every screen comes to the run that the host has: real links and the real
 * host on one fake clock, over lines that are slow, lose messages, stand still and break.
 */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { DeckHost } from '../../../app/host/deck/deck-host.ts';
import { connectScreen, type Screen } from '../../../app/host/deck/telling/screen.ts';
import type { ScreenKind } from '../../../app/wire/messages.ts';
import type { Heard } from '../../../renderer/link/connection/carrier.ts';
import { createLink, type Link } from '../../../renderer/link/link.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { JournalInMemory } from '../../support/host/folders/journal-in-memory.ts';
import { runs } from '../../support/run/runs.ts';

const TEXT = 'Harbour squad\n# a comment\nlane 1, Ana, Ben\nlane 2\nMain set\n20 x 50 @ 1:00\n';

/** One screen on its line to the host. */
class Distant {
  readonly kind: ScreenKind;
  readonly link: Link;
  /** Messages that are lost of what the host says of the run next. */
  toLose = 0;
  private readonly pool: Pool;
  private ids = 0;
  private screen: Screen | null = null;
  private page: Heard | null = null;
  private isStuck = false;
  private waiting: { readonly text: string; readonly sent: () => void }[] = [];

  constructor(pool: Pool, kind: ScreenKind) {
    this.pool = pool;
    this.kind = kind;
    const { clock } = pool;
    const after = (ms: number, call: () => void): (() => void) => {
      const timer = clock.timers.set(call, ms);
      return () => clock.timers.clear(timer);
    };
    this.link = createLink(
      kind,
      { patience: 6000, longestPause: 1500, connect: (page) => this.connect(page) },
      {
        now: () => clock.now() / 2 + 77,
        wall: () => clock.now() / 2,
        after,
        random: () => 0.5,
        newId: () => `${kind}-${this.ids++}`,
        post: () => Promise.reject(new Error('no way')),
        onWake: () => () => undefined,
        reloadOnce: () => undefined,
      },
    );
  }

  /** Nothing comes through until it moves again. */
  stick(): void {
    this.isStuck = true;
  }

  move(): void {
    this.isStuck = false;
    for (const { text, sent } of this.waiting.splice(0)) {
      this.deliver(text);
      sent();
    }
  }

  cut(): void {
    const { screen, page } = this;
    this.screen = this.page = null;
    this.waiting = [];
    this.isStuck = false;
    screen?.gone();
    page?.closed();
  }

  private connect(page: Heard) {
    const { pool } = this;
    pool.clock.timers.set(() => {
      this.page = page;
      this.screen = connectScreen(pool.host, pool.clock, {
        isOwnWindow: false,
        waiting: () => this.waiting.reduce((bytes, { text }) => bytes + text.length * 40, 0),
        send: (text, sent) => this.send(text, sent),
        close: () => this.cut(),
        terminate: () => this.cut(),
      });
      page.opened();
    }, 3);
    return { send: (text: string) => this.screen?.receive(text), close: () => this.cut() };
  }

  private send(text: string, sent: () => void): void {
    if (this.isStuck) return void this.waiting.push({ text, sent });
    this.deliver(text);
    sent();
  }

  private deliver(text: string): void {
    const isOfRun = text.startsWith('{"say":"commands"') || text.startsWith('{"say":"snapshot"');
    if (isOfRun && this.toLose > 0) this.toLose--;
    else this.page?.message(text);
  }
}

class Pool {
  readonly clock = new FakeClock();
  readonly host = new DeckHost({
    clock: this.clock,
    timers: this.clock.timers,
    journal: new JournalInMemory(),
    newId: () => `run-${this.runs++}`,
  });
  readonly screens: readonly Distant[] = (['desk', 'remote', 'wall', 'wall'] as const).map(
    (kind) => new Distant(this, kind),
  );
  private runs = 0;
  private given = 0;

  async give(fields: Record<string, unknown>): Promise<void> {
    await this.host.command(`c-${this.given++}`, fields);
  }

  /** The commands that a screen should have by now. */
  commandsFor(kind: ScreenKind): unknown {
    const { streams } = this.host;
    const told = JSON.parse(streams[kind === 'wall' ? 'open' : 'whole'].messageFrom(null)) as {
      run: { commands: { at: number; command: { do: string } }[] };
    };
    return told.run.commands.map(({ at, command }) => [at, command.do]);
  }
}

const COMMANDS = [
  { do: 'start' },
  { do: 'stop' },
  { do: 'resume' },
  { do: 'skip' },
  { do: 'mark', words: 'cramp' },
  { do: 'shift', seconds: 5 },
  { do: 'undo' },
  { do: 'rewrite', text: `${TEXT}4 x 100 @ 2:00\n` },
  { do: 'rewrite', text: `${TEXT}8 x 25 @ 0:40 Ana leads\n` },
];

const screen = fc.nat({ max: 3 });
const step = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({ what: fc.constant('give' as const), which: fc.nat({ max: COMMANDS.length - 1 }) }),
  },
  { weight: 4, arbitrary: fc.record({ what: fc.constant('pass' as const), ms: fc.nat({ max: 900 }) }) },
  fc.record({ what: fc.constant('lose' as const), screen, count: fc.integer({ min: 1, max: 3 }) }),
  fc.record({ what: fc.constant('stick' as const), screen }),
  fc.record({ what: fc.constant('move' as const), screen }),
  fc.record({ what: fc.constant('cut' as const), screen }),
  fc.record({ what: fc.constant('sleep' as const) }),
  fc.record({ what: fc.constant('open' as const) }),
);

test('[snapshots] whatever is lost, late or broken on the way, every screen comes to the run of the host', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 5, maxLength: 60 }), async (steps) => {
      const pool = new Pool();
      const { clock, host, screens } = pool;
      await host.open({ text: TEXT, lanesText: null }, { replace: true });
      await pool.give({ do: 'start' });
      clock.advance(1000);
      for (const each of steps) {
        if (each.what === 'give') await pool.give(COMMANDS[each.which]!);
        if (each.what === 'pass') clock.advance(each.ms);
        if (each.what === 'lose') screens[each.screen]!.toLose = each.count;
        if (each.what === 'stick' || each.what === 'move' || each.what === 'cut') screens[each.screen]![each.what]();
        if (each.what === 'open') await host.open({ text: TEXT, lanesText: null }, { replace: true });
        if (each.what === 'sleep') {
          clock.sleep(60_000);
          clock.check();
        }
      }
      for (const each of screens) {
        each.toLose = 0;
        each.move();
      }
      // What was lost last is missed by nobody until there is something new.
      await pool.give({ do: 'start' });
      await pool.give({ do: 'skip' });
      clock.advance(15_000);
      for (const { kind, link } of screens) {
        const { run, status, faults } = link.store.getState();
        expect({ status, faults, id: run?.id }).toEqual({ status: 'live', faults: [], id: host.current()!.id });
        expect(run!.commands.map(({ at, command }) => [at, command.do])).toEqual(pool.commandsFor(kind));
        if (kind !== 'wall') expect(run!.state).toEqual(host.current()!.state);
      }
    }),
    { numRuns: runs(60) },
  );
});
