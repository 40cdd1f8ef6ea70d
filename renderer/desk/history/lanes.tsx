/*
 * The history by lane: distance planned and swum, and the paces that its tests came to. A drawing each, with its table.
 */

import { useMemo, type ReactElement } from 'react';
import type { HistoryRun } from '../../../app/core/record/history/history-run.ts';
import { lanesOf, testedPaces, unitOf } from '../../../app/core/record/history/over-time.ts';
import { reading } from '../../../app/core/words/time/reading.ts';
import { LaterDrawing } from './later-drawing.tsx';
import { dayWords, Heads, shareText } from './weeks.tsx';
import tableStyles from '../panel/table.module.css';
import styles from './over-time.module.css';

export function Lanes({ runs }: { readonly runs: readonly HistoryRun[] }): ReactElement {
  const lanes = useMemo(() => lanesOf(runs), [runs]);
  const paces = useMemo(() => testedPaces(runs), [runs]);
  const unit = unitOf(runs);
  const distance = useMemo(() => ({ kind: 'distance by lane', lanes, unit }) as const, [lanes, unit]);
  const css = useMemo(() => ({ kind: 'css over time', paces, unit }) as const, [paces, unit]);
  if (lanes.length === 0) return <p>There is no run to draw.</p>;
  return (
    <div className={styles.over}>
      <h2>Lanes</h2>
      <section aria-label="Distance by lane">
        <h3>Distance</h3>
        <LaterDrawing drawn={distance} label="Distance by lane, planned and swum">
          Filled: swum. Outline: planned.
        </LaterDrawing>
        <table className={tableStyles.table}>
          <caption>Distance by lane, in {unit}</caption>
          <Heads names={['Lane', 'Runs', 'Planned', 'Swum', 'Swum of planned']} />
          <tbody>
            {lanes.map((lane) => (
              <tr key={lane.lane}>
                <th scope="row">Lane {lane.lane}</th>
                <td>{lane.runs}</td>
                <td>{lane.planned}</td>
                <td>{lane.distance}</td>
                <td>{shareText(lane)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <section aria-label="CSS over time">
        <h3>CSS by tests</h3>
        {paces.length === 0 ? (
          <p>No lane has swum a test: a 400 and a 200 of one part, timed by hand during the run.</p>
        ) : (
          <>
            <LaterDrawing drawn={css} label="CSS of each lane over time">
              Higher is faster. Each lane has its shape and its number.
            </LaterDrawing>
            <table className={tableStyles.table}>
              <caption>CSS by lane and day, per 100 {unit}, estimated</caption>
              <Heads names={['Lane', 'Day', 'CSS']} />
              <tbody>
                {paces.map(({ lane, day, css: pace }, index) => (
                  <tr key={index}>
                    <th scope="row">Lane {lane}</th>
                    <td>{dayWords(day)}</td>
                    <td>≈{reading(pace)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </>
        )}
      </section>
    </div>
  );
}
