/*
 * The history by week and lane. Loads, monotony and strain by Foster and others 2001 and Foster 1998, with the standard
 * deviation of a sample.
 */

import { describe, expect, test } from 'vitest';
import { historyCsv } from '../../../../app/core/record/tables/history-csv.ts';
import type { HistoryRun } from '../../../../app/core/record/history/history-run.ts';
import { lanesOf, testedPaces, weeksOf } from '../../../../app/core/record/history/over-time.ts';

function run(day: string, more: Partial<HistoryRun> = {}): HistoryRun {
  return {
    run: day,
    title: 'Harbour squad',
    openedAt: `${day}T19:30:00`,
    ended: 'done',
    durationMs: 3_600_000,
    unit: 'm',
    plannedDistance: 3000,
    distance: 2500,
    lanes: [
      { lane: 1, plannedDistance: 2000, distance: 1500 },
      { lane: 2, plannedDistance: 1000, distance: 1000 },
    ],
    attendance: null,
    effort: null,
    load: null,
    notes: [],
    css: [],
    ...more,
  };
}

describe('[history] over time', () => {
  test('a week with the published loads has the published monotony and strain', () => {
    const loads = [450, 0, 520, 300, 610, 400, 0];
    const runs = loads.flatMap((load, day) => (load > 0 ? run(`2026-11-${23 + day}`, { effort: 5, load }) : []));
    const [week, ...others] = weeksOf(runs.reverse());
    expect(others).toEqual([]);
    expect(week).toMatchObject({
      monday: '2026-11-23',
      runs: 5,
      loaded: 5,
      load: 2280,
      planned: 15_000,
      distance: 12_500,
    });
    expect(week?.monotony).toBeCloseTo(1.344, 3);
    expect(week?.strain).toBeCloseTo(3064.41, 1);
  });

  test('weeks come in order, and a run without a load counts for distance alone', () => {
    const runs = [run('2026-11-30'), run('2026-11-29', { effort: 6, load: 360 }), run('2026-11-23')];
    expect(weeksOf(runs).map(({ monday, runs: count, loaded, load }) => [monday, count, loaded, load])).toEqual([
      ['2026-11-23', 2, 1, 360],
      ['2026-11-30', 1, 0, 0],
    ]);
  });

  test('yards of another pool are metres where the newest run was in metres', () => {
    const yards = run('2026-11-23', {
      unit: 'yd',
      plannedDistance: 1000,
      distance: 1000,
      lanes: [{ lane: 1, plannedDistance: 1000, distance: 1000 }],
    });
    expect(weeksOf([run('2026-11-24'), yards])[0]).toMatchObject({ planned: 3914, distance: 3414 });
    expect(lanesOf([run('2026-11-24'), yards])[0]).toEqual({ lane: 1, runs: 2, planned: 2914, distance: 2414 });
  });

  test('paces of tests go by lane and day, those of the other unit left out', () => {
    const css = [{ lane: 2, cssMs: 95_000, caution: null }];
    const runs = [
      run('2026-11-24', { css }),
      run('2026-11-23', { css, unit: 'yd' }),
      run('2026-11-22', { css: [...css, { lane: 1, cssMs: 80_000, caution: null }] }),
    ];
    expect(testedPaces(runs)).toEqual([
      { lane: 1, day: '2026-11-22', css: 80_000 },
      { lane: 2, day: '2026-11-22', css: 95_000 },
      { lane: 2, day: '2026-11-24', css: 95_000 },
    ]);
  });
});

test('[history] as a table a title cannot become a formula, and a lane that a run had not is empty', () => {
  const one = run('2026-11-24', { title: '=1+1', lanes: [{ lane: 3, plannedDistance: 50, distance: 50 }] });
  expect(historyCsv([one, run('2026-11-23', { effort: 4, load: 240 })]).split('\r\n')).toEqual([
    'day,opened at,title,ended,minutes,unit,planned distance,distance,were there,effort,load,lane 1,lane 2,lane 3,notes',
    "2026-11-24,19:30:00,'=1+1,done,60.0,m,3000,2500,,,,,,50,",
    '2026-11-23,19:30:00,Harbour squad,done,60.0,m,3000,2500,,4,240,1500,1000,,',
    '',
  ]);
});
