/*
 * The history by week: distance planned and swum, and load with monotony and strain. A drawing each, with its table.
 */

import { useMemo, type ReactElement } from 'react';
import { readDay } from '../../../app/core/day.ts';
import type { HistoryRun } from '../../../app/core/record/history/history-run.ts';
import { unitOf, weeksOf, type WeekOf } from '../../../app/core/record/history/over-time.ts';
import { dateOf } from '../library/naming/moved-name.ts';
import { LaterDrawing } from './later-drawing.tsx';
import tableStyles from '../panel/table.module.css';
import styles from './over-time.module.css';

export function Weeks({ runs }: { readonly runs: readonly HistoryRun[] }): ReactElement {
  const weeks = useMemo(() => weeksOf(runs), [runs]);
  const unit = unitOf(runs);
  const distance = useMemo(() => ({ kind: 'distance by week', weeks, unit }) as const, [weeks, unit]);
  const load = useMemo(() => ({ kind: 'load by week', weeks }) as const, [weeks]);
  if (weeks.length === 0) return <p>There is no run to draw.</p>;
  const newest = [...weeks].reverse();
  return (
    <div className={styles.over}>
      <h2>Weeks</h2>
      <section aria-label="Distance by week">
        <h3>Distance, all lanes together</h3>
        <LaterDrawing drawn={distance} label="Distance by week, planned and swum">
          Filled: swum. Line: planned.
        </LaterDrawing>
        <table className={tableStyles.table}>
          <caption>Distance by week, in {unit}</caption>
          <Heads names={['Week from', 'Runs', 'Planned', 'Swum', 'Swum of planned']} />
          <tbody>
            {newest.map((week) => (
              <Row
                key={week.monday}
                week={week}
                cells={[`${week.runs}`, `${week.planned}`, `${week.distance}`, shareText(week)]}
              />
            ))}
          </tbody>
        </table>
      </section>
      <section aria-label="Load by week">
        <h3>Load</h3>
        {weeks.every(({ loaded }) => loaded === 0) ? (
          <p>No run has a load yet: open a run and say how hard it was.</p>
        ) : (
          <>
            <LaterDrawing drawn={load} label="Load and strain by week">
              Filled: load. Line with circles: strain.
            </LaterDrawing>
            <table className={tableStyles.table}>
              <caption>Load by week</caption>
              <Heads names={['Week from', 'Runs with a load', 'Load', 'Monotony', 'Strain']} />
              <tbody>
                {newest.map((week) => (
                  <Row
                    key={week.monday}
                    week={week}
                    cells={[
                      `${week.loaded} of ${week.runs}`,
                      week.loaded === 0 ? '–' : `${week.load}`,
                      week.monotony === null ? '–' : week.monotony.toFixed(2),
                      week.strain === null ? '–' : `${Math.round(week.strain)}`,
                    ]}
                  />
                ))}
              </tbody>
            </table>
            <p className={styles.quiet}>
              Load is the effort, 0 to 10, times the minutes of a run, from its opening to its end. Monotony is the mean
              of the week’s seven days over their standard deviation (of a sample, n − 1), strain is load × monotony;
              days without a run count as 0. They are estimates for training, not for health.
            </p>
          </>
        )}
      </section>
    </div>
  );
}

export function Heads({ names }: { readonly names: readonly string[] }): ReactElement {
  return (
    <thead>
      <tr>
        {names.map((name) => (
          <th scope="col" key={name}>
            {name}
          </th>
        ))}
      </tr>
    </thead>
  );
}

function Row({ week, cells }: { readonly week: WeekOf; readonly cells: readonly string[] }): ReactElement {
  return (
    <tr>
      <th scope="row">{dayWords(week.monday)}</th>
      {cells.map((text, index) => (
        <td key={index}>{text}</td>
      ))}
    </tr>
  );
}

/** "23 November 2026". */
export function dayWords(iso: string): string {
  const day = readDay(iso);
  return day ? `${dateOf(day)} ${day.year}` : iso;
}

/** "84 %". */
export function shareText({ planned, distance }: { readonly planned: number; readonly distance: number }): string {
  return planned === 0 ? '–' : `${Math.round((100 * distance) / planned)} %`;
}
