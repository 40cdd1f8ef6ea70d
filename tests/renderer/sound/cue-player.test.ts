/*
 * Cues on an output, pass by pass, with the page's clock handed in.
 */

import { describe, expect, test } from 'vitest';
import { PLAIN_CUES, type CueChoice } from '../../../app/core/sound/cue-choice.ts';
import type { RunState } from '../../../app/core/run/state.ts';
import { createCuePlayer, HORIZON, type CuePlayer } from '../../../renderer/sound/cue-player.ts';
import { afterCommands, runOf } from '../../support/coach/coach-run.ts';

const SET = 'lane 1\nlane 2\nSet\n4 x 50 @ 1:00/1:10';
const going = runOf(SET, [0, { do: 'start' }]);

/** The run's t = 0 by the page's clock. */
const ZERO = 5_000;

interface Bench {
  readonly player: CuePlayer;
  /** Sounds not taken back: the file and the page's time at which they are heard. */
  readonly sounds: Map<number, string>;
  /** Those of which the player has said that their time is past. */
  readonly released: string[];
  readonly told: string[];
  choice: CueChoice;
  shift: number;
  passAt(t: number, state?: RunState, id?: string, zero?: number): void;
}

function bench(): Bench {
  const sounds = new Map<number, string>();
  const released: string[] = [];
  const told: string[] = [];
  let n = 0;
  const player = createCuePlayer(
    {
      schedule({ file }, heardAt) {
        const sound = n++;
        const at = (time: number): void => void sounds.set(sound, `${file} ${Math.round(time * 1000) / 1000}`);
        at(heardAt);
        return {
          retime: at,
          cancel: () => void sounds.delete(sound),
          release: () => void released.push(sounds.get(sound)!),
        };
      },
    },
    (what, { key }) => told.push(`${what} ${key}`),
  );
  const b: Bench = {
    player,
    sounds,
    released,
    told,
    choice: PLAIN_CUES,
    shift: 0,
    passAt: (t, state = going, id = 'run', zero = ZERO) =>
      player.pass({ now: zero + t, run: { id, state, t }, choice: b.choice, pitches: false, shift: b.shift }),
  };
  return b;
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
      (b: Bench) => b.player.pass({ now: ZERO + 69_000, run: null, choice: PLAIN_CUES, pitches: false, shift: 0 }),
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

  test('the same cue of another run is another sound', () => {
    const b = bench();
    b.passAt(68_500);
    b.passAt(68_750, going, 'another');
    expect(b.told).toEqual(['scheduled leave 70000', 'cancelled leave 70000', 'scheduled leave 70000']);
  });

  test('a clock that is put right just before a leave does not cost its tone', () => {
    const b = bench();
    b.passAt(68_500);
    b.passAt(70_006, going, 'run', ZERO - 9);
    b.passAt(70_200, going, 'run', ZERO - 9);
    expect(heard(b)).toEqual(['leave 75000']);
    expect([b.told, b.released]).toEqual([['scheduled leave 70000'], ['leave 75000']]);
  });

  test('a clock that is put right moves what is scheduled; by a little, without a word of it', () => {
    const b = bench();
    b.passAt(68_500);
    b.passAt(68_750, going, 'run', ZERO + 1);
    expect(heard(b)).toEqual(['leave 75001']);
    expect(b.told).toEqual(['scheduled leave 70000']);
    b.passAt(69_000, going, 'run', ZERO + 80);
    expect(heard(b)).toEqual(['leave 75080']);
    expect(b.told).toEqual(['scheduled leave 70000', 'cancelled leave 70000', 'scheduled leave 70000']);
  });
});

describe('[sound] how exactly', () => {
  test('to a fraction of a millisecond of the run’s time', () => {
    const b = bench();
    b.passAt(68_500.375);
    expect(heard(b)).toEqual(['leave 75000']);
    b.passAt(68_750.125, going, 'run', ZERO + 0.25);
    expect(heard(b)).toEqual(['leave 75000.25']);
  });

  test('between passes what is scheduled is put right by the device’s clock, at the time last known', () => {
    const retimed: number[] = [];
    const player = createCuePlayer(
      {
        schedule: () => ({ retime: (to) => retimed.push(to), cancel: () => undefined, release: () => undefined }),
      },
      () => undefined,
    );
    player.retime();
    player.pass({ now: ZERO + 68_500, run: { id: 'run', state: going, t: 68_500 } });
    player.pass({ now: ZERO + 68_750.5, run: { id: 'run', state: going, t: 68_750 } });
    player.retime();
    expect(retimed).toEqual([75_000.5, 75_000.5]);
  });

  test('what is past is given back, so that a device which has slept does not play it late', () => {
    const b = bench();
    b.passAt(69_500);
    b.passAt(70_001);
    expect(b.released).toEqual(['leave 75000']);
    b.passAt(70_250);
    expect(b.released).toHaveLength(1);
  });

  test('after a sleep there are the cues to come, and none of those missed', () => {
    const b = bench();
    b.passAt(68_500);
    b.passAt(190_500);
    expect(b.released).toEqual(['leave 75000']);
    for (let t = 190_500; t < 226_000; t += 250) b.passAt(t);
    expect(heard(b)).toEqual(['leave 75000', 'leave 225000']);
  });
});

describe('[sound] sent later or earlier', () => {
  test('by so much, each once, none lost at either end', () => {
    for (const shift of [-300, -120, 120, 300]) {
      const b = bench();
      b.shift = shift;
      for (let t = 0; t <= 90_000; t += 250) b.passAt(t);
      const times = [12_000, 13_000, 14_000, 15_000, 75_000, 85_000];
      expect(heard(b).map((sound) => Number(sound.split(' ')[1]))).toEqual(times.map((time) => time + shift));
    }
  });

  test('one sent earlier is scheduled by so much sooner', () => {
    const b = bench();
    b.shift = -300;
    b.passAt(70_000 - HORIZON - 300);
    expect(heard(b)).toEqual([]);
    b.passAt(70_000 - HORIZON - 299);
    expect(heard(b)).toEqual(['leave 74700']);
  });

  test('a sound that is sent later is still taken back by a command before its time', () => {
    const b = bench();
    b.shift = 300;
    b.passAt(69_500);
    b.passAt(69_700, afterCommands(going, [69_650, { do: 'stop' }]));
    expect(heard(b)).toEqual([]);
  });

  test('[R1] and sounds where it was on its way, even past its time', () => {
    const b = bench();
    b.shift = 300;
    b.passAt(69_500);
    const stopped = afterCommands(going, [69_900, { do: 'stop' }]);
    for (const t of [69_950, 70_100, 70_250]) b.passAt(t, stopped);
    expect(heard(b)).toEqual(['leave 75300']);
    expect(b.told).toEqual(['scheduled leave 70000']);
  });
});

describe('[sound] what is chosen', () => {
  test('nothing: the usual tone, when it is due', () => {
    const b = bench();
    b.player.pass({ now: ZERO + 69_000, run: { id: 'run', state: going, t: 69_000 } });
    expect(heard(b)).toEqual(['leave 75000']);
  });

  test('takes effect on the next pass, for what is scheduled too', () => {
    const b = bench();
    b.passAt(8_500);
    expect(heard(b)).toEqual(['pip 14000', 'leave 15000']);
    b.choice = { ...PLAIN_CUES, pips: 'never' };
    b.passAt(8_750);
    expect(heard(b)).toEqual(['leave 15000']);
    b.choice = { ...PLAIN_CUES, muted: [1, 2] };
    b.passAt(9_000);
    expect(heard(b)).toEqual([]);
  });
});
