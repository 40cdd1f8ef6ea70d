/*
 * Cues on an output, pass by pass, with the page's clock handed in.
 */

import { describe, expect, test } from 'vitest';
import type { RunState } from '../../../app/core/run/state.ts';
import { createCuePlayer, HORIZON, type CuePlayer } from '../../../renderer/sound/cue-player.ts';
import { afterCommands, runOf } from '../../support/coach-run.ts';

const SET = 'lane 1\nlane 2\nSet\n4 x 50 @ 1:00/1:10';
const going = runOf(SET, [0, { do: 'start' }]);

/** The run's t = 0 by the page's clock. */
const ZERO = 5_000;

interface Bench {
  readonly player: CuePlayer;
  /** Sounds not taken back: kind and the page's time at which they are heard. */
  readonly sounds: Map<number, string>;
  readonly told: string[];
  passAt(t: number, state?: RunState, id?: string, zero?: number): void;
}

function bench(): Bench {
  const sounds = new Map<number, string>();
  const told: string[] = [];
  let n = 0;
  const player = createCuePlayer(
    {
      schedule(kind, heardAt) {
        const sound = n++;
        sounds.set(sound, `${kind} ${heardAt}`);
        return () => void sounds.delete(sound);
      },
    },
    (what, { key }) => told.push(`${what} ${key}`),
  );
  const passAt = (t: number, state = going, id = 'run', zero = ZERO): void =>
    player.pass({ now: zero + t, run: { id, state, t } });
  return { player, sounds, told, passAt };
}

const heard = ({ sounds }: Bench): readonly string[] => [...sounds.values()];

describe('[sound] what is scheduled', () => {
  test('each cue once, mapped to the page’s clock, however many passes see it', () => {
    const b = bench();
    for (let t = 0; t <= 12_000; t += 250) b.passAt(t);
    expect(heard(b)).toEqual(['pip 12000', 'pip 13000', 'pip 14000', 'leave 15000']);
  });

  test('as soon as the horizon reaches it, and not before', () => {
    const b = bench();
    b.passAt(70_000 - HORIZON);
    expect(heard(b)).toEqual([]);
    b.passAt(70_000 - HORIZON + 1);
    expect(heard(b)).toEqual(['leave 75000']);
  });

  test('one pass a second, as on a covered page, loses none', () => {
    const b = bench();
    for (let t = 11_000; t < 300_000; t += 1_000) b.passAt(t);
    expect(heard(b)).toEqual([
      'leave 75000',
      'leave 85000',
      'leave 135000',
      'leave 155000',
      'leave 195000',
      'leave 225000',
    ]);
  });

  test('what fell due while nobody looked is not sounded late', () => {
    const b = bench();
    b.passAt(11_000);
    b.passAt(100_000);
    expect(heard(b)).toEqual([]);
  });
});

describe('[sound] what is taken back', () => {
  test('a stop cancels the tones of the lanes it stops', () => {
    const b = bench();
    b.passAt(68_500);
    expect(heard(b)).toEqual(['leave 75000']);
    const stopped = afterCommands(going, [69_000, { do: 'stop' }]);
    b.passAt(69_000, stopped);
    expect(heard(b)).toEqual([]);
    expect(b.told).toEqual(['scheduled leave 70000', 'cancelled leave 70000']);
  });

  test('a tone that another lane still needs is neither cancelled nor doubled', () => {
    const together = runOf('lane 1\nlane 2\nSet\n4 x 50 @ 1:00', [0, { do: 'start' }]);
    const b = bench();
    b.passAt(68_500, together);
    b.passAt(69_000, afterCommands(together, [69_000, { do: 'stop', lanes: [2] }]));
    expect(heard(b)).toEqual(['leave 75000']);
    expect(b.told).toEqual(['scheduled leave 70000']);
  });

  test('what has sounded is not taken back', () => {
    const b = bench();
    b.passAt(69_500);
    b.passAt(70_100, afterCommands(going, [70_050, { do: 'stop' }]));
    expect(heard(b)).toEqual(['leave 75000']);
  });

  test('another run, no run and silence take everything back', () => {
    for (const change of [
      (b: Bench) => b.passAt(69_000, runOf(SET), 'another'),
      (b: Bench) => b.player.pass({ now: ZERO + 69_000, run: null }),
      (b: Bench) => b.player.silence(),
    ]) {
      const b = bench();
      b.passAt(68_500);
      expect(b.player.scheduled()).toHaveLength(1);
      change(b);
      expect(heard(b)).toEqual([]);
      expect(b.player.scheduled()).toEqual([]);
    }
  });

  test('a clock that is put right moves what is scheduled; one that trembles by a millisecond does not', () => {
    const b = bench();
    b.passAt(68_500);
    b.passAt(68_750, going, 'run', ZERO + 1);
    expect(heard(b)).toEqual(['leave 75000']);
    b.passAt(69_000, going, 'run', ZERO + 80);
    expect(heard(b)).toEqual(['leave 75080']);
  });
});
