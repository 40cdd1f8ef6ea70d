/* What is scheduled on an output, sound by sound, with the output's hands and ears handed in. */

import { describe, expect, test } from 'vitest';
import { createSchedule, type DueSound } from '../../../renderer/sound/schedule.ts';

const sound = (key: string, heardAt: number): DueSound => ({ key, heardAt, voice: { file: 'leave', gain: 1 } });

function bench(onReport: (silence: () => void) => void = () => undefined) {
  const done: string[] = [];
  const schedule = createSchedule(
    {
      schedule: (_, heardAt) => ({
        retime: (to) => void done.push(`${heardAt} moved to ${to}`),
        cancel: () => void done.push(`${heardAt} cancelled`),
        release: () => void done.push(`${heardAt} released`),
      }),
    },
    () => onReport(() => schedule.silence()),
  );
  return { schedule, done };
}

describe('[sound] a schedule', () => {
  test('lists what is scheduled by time, whenever that was done', () => {
    const { schedule } = bench();
    schedule.bring(0, [sound('b', 2000), sound('a', 1000)]);
    schedule.bring(250, [sound('c', 1500), sound('b', 2000), sound('a', 1000)]);
    expect(schedule.all()).toEqual([sound('a', 1000), sound('c', 1500), sound('b', 2000)]);
  });

  test('gives a sound back at its very time, and schedules none for now', () => {
    const { schedule, done } = bench();
    schedule.bring(0, [sound('a', 1000)]);
    schedule.bring(1000, [sound('a', 1000), sound('b', 1000)]);
    expect([done, schedule.all()]).toEqual([['1000 released'], []]);
  });

  test('puts a sound right by up to 5 ms; further off it is a new one', () => {
    const { schedule, done } = bench();
    schedule.bring(0, [sound('a', 1000)]);
    schedule.bring(250, [sound('a', 1005)]);
    schedule.bring(500, [sound('a', 1006)]);
    expect(done).toEqual(['1000 moved to 1005', '1000 cancelled']);
    expect(schedule.all()).toEqual([sound('a', 1006)]);
  });

  test('lets a sound be heard whose time is found to be past, by up to 50 ms; later it is taken back', () => {
    const { schedule, done } = bench();
    schedule.bring(0, [sound('a', 1000), sound('b', 1001)]);
    schedule.bring(998, [sound('a', 950), sound('b', 950)]);
    schedule.bring(1002, [sound('a', 950)]);
    expect(done).toEqual(['1001 cancelled', '1000 released']);
    expect(schedule.all()).toEqual([]);
  });

  test('takes each sound back once, even where whoever is told of one silences the rest', () => {
    let silences = false;
    const { schedule, done } = bench((silence) => silences && silence());
    schedule.bring(0, [sound('a', 1000), sound('b', 2000)]);
    silences = true;
    schedule.silence();
    expect(done).toEqual(['1000 cancelled', '2000 cancelled']);
  });
});
