// @vitest-environment happy-dom
/*
 * The sound of a hidden page whose timers come once a minute: what is scheduled far ahead, what a command
 * takes back, and that a throw is not the end of it.
 */

import { afterEach, describe, expect, test, vi } from 'vitest';
import type { RunState } from '../../../app/core/run/state.ts';
import type { Link } from '../../../renderer/link/link.ts';
import { createDeckStore, type DeckRun } from '../../../renderer/link/store.ts';
import type { AudioOutput } from '../../../renderer/sound/output/howler-output.ts';
import { openSound, type Sound } from '../../../renderer/sound/sound.ts';
import { afterCommands, runOf } from '../../support/coach/coach-run.ts';

const MINUTE = 60_000;

const going = runOf('lane 1\nlane 2\nSet\n20 x 50 @ 0:45/0:50', [0, { do: 'start' }]);

/** A page that plays the run from t = 0 on, its clock at the run's time. */
class SoundingPage {
  now = 0;
  isHidden = false;
  throws = false;
  /** Sounds not taken back, by when they are heard. */
  readonly sounds = new Map<number, string>();
  readonly sound: Sound;
  readonly deck = createDeckStore();
  private readonly timers: { pace: number; at: number; call: () => void }[] = [];
  private told: () => void = () => undefined;

  constructor(state: RunState = going) {
    this.follow(state);
    const memory = new Map([['lanecall.sound', 'on']]);
    const keep = { getItem: (key: string) => memory.get(key) ?? null, setItem: () => undefined };
    const link = { store: this.deck, now: () => this.now, exactNow: () => this.now, sound: () => undefined };
    this.sound = openSound(link as unknown as Link, keep, {
      now: () => this.now,
      every: (pace, call) => void this.timers.push({ pace, at: pace, call }),
      isHidden: () => this.isHidden,
      onHidden: (call) => (this.told = call),
      openOutput: () => this.output(),
    });
  }

  /** What a snapshot does. */
  follow(state: RunState): void {
    this.deck.setState({ status: 'live', run: { id: 'run', state } as DeckRun });
  }

  hide(isHidden: boolean): void {
    this.isHidden = isHidden;
    this.told();
  }

  /** Timers fire at their times, in a hidden page at whole minutes. */
  pass(ms: number): void {
    const until = this.now + ms;
    const dueOf = (at: number): number => (this.isHidden ? Math.ceil(at / MINUTE) * MINUTE : at);
    for (;;) {
      const due = [...this.timers].sort((a, b) => dueOf(a.at) - dueOf(b.at))[0]!;
      if (dueOf(due.at) > until) break;
      this.now = Math.max(this.now, dueOf(due.at));
      due.at = this.now + due.pace;
      due.call();
    }
    this.now = until;
  }

  /** When tones are heard, up to now. */
  heard(): readonly number[] {
    return [...this.sounds]
      .filter(([at, file]) => file === 'leave' && at <= this.now)
      .map(([at]) => at)
      .sort((a, b) => a - b);
  }

  private output(): AudioOutput {
    const idle = (): void => undefined;
    return {
      state: () => {
        if (this.throws) throw new Error('no state');
        return 'running';
      },
      look: idle,
      unlock: idle,
      renew: idle,
      setVolume: idle,
      keepAwake: idle,
      loadPitches: idle,
      schedule: ({ file }, heardAt) => {
        this.sounds.set(heardAt, file);
        return { retime: idle, cancel: () => void this.sounds.delete(heardAt), release: idle };
      },
    };
  }
}

function leaves(until: number, from = 0): readonly number[] {
  const of = (interval: number): number[] => Array.from({ length: 20 }, (_, rep) => 10_000 + rep * interval);
  const all = new Set([...of(45_000), ...of(50_000)].filter((at) => at > from && at <= until));
  return [...all].sort((a, b) => a - b);
}

afterEach(() => {
  vi.restoreAllMocks();
});

describe('[sound] in a hidden page whose timers come once a minute', () => {
  test('every leave sounds, however long the page is hidden, and on through its being seen again', () => {
    const page = new SoundingPage();
    page.pass(20_300);
    page.hide(true);
    page.pass(9 * MINUTE);
    page.hide(false);
    page.pass(2 * MINUTE);
    expect(page.heard()).toEqual(leaves(page.now));
    expect(page.heard().length).toBeGreaterThan(20);
  });

  test('a Stop takes back at once what is no longer due, and a Resume puts in what is', () => {
    const page = new SoundingPage();
    page.pass(20_300);
    page.hide(true);
    page.pass(40_000);
    const stopped = afterCommands(going, [61_000, { do: 'stop' }]);
    page.pass(700);
    page.follow(stopped);
    expect([...page.sounds.keys()].filter((at) => at > page.now)).toEqual([]);
    page.pass(3 * MINUTE);
    expect(page.heard()).toEqual(leaves(61_000));
    const resumed = afterCommands(stopped, [page.now, { do: 'resume' }]);
    page.follow(resumed);
    page.pass(MINUTE);
    expect(page.heard().filter((at) => at > 61_000).length).toBeGreaterThanOrEqual(2);
  });

  test('seen again, nothing further than two seconds ahead is left scheduled', () => {
    const page = new SoundingPage();
    page.hide(true);
    expect(Math.max(...page.sounds.keys())).toBeGreaterThanOrEqual(MINUTE);
    page.hide(false);
    expect([...page.sounds.keys()].filter((at) => at > 2000)).toEqual([]);
  });

  test('the beeps of the settings go on as well', () => {
    const page = new SoundingPage(runOf('lane 1\nSet\n4 x 50 @ 1:00'));
    page.hide(true);
    page.sound.setPulsing(true);
    page.pass(5 * MINUTE);
    const beeps = [...page.sounds].filter(([at, file]) => file === 'pip' && at <= page.now);
    expect(beeps.length).toBeGreaterThanOrEqual(300);
  });
});

describe('[sound] a throw while it plays', () => {
  test('is reported once, keeps nobody else from the changed, and the next pass plays again', () => {
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const page = new SoundingPage();
    const changed = vi.fn();
    page.deck.subscribe(changed);
    page.throws = true;
    page.pass(1000);
    page.follow(going);
    expect(changed).toHaveBeenCalledTimes(1);
    page.throws = false;
    page.pass(MINUTE);
    // By the timer, and by whoever follows the deck.
    expect(told.mock.calls.map(([words]) => words as string)).toEqual([
      'Lanecall, playing the sound: no state',
      'Lanecall, following the deck: no state',
    ]);
    expect(page.heard()).toEqual(leaves(page.now));
  });
});
