/*
 * The hand times of a run, a set of a lane a row, with pace and fade; and the pace that a test of a lane came to.
 */

import type { ReactElement } from 'react';
import type { ReviewCss, ReviewSet } from '../../../app/core/record/tables/review-json.ts';
import { isTooSoon } from '../../../app/core/record/times/touch.ts';
import type { LengthUnit, Millis, Tenths } from '../../../app/core/units.ts';
import { overText, tenthText, TOO_SOON } from '../../../app/core/words/time/hand-time.ts';
import { reading } from '../../../app/core/words/time/reading.ts';
import { Button } from '../../ui/parts/button.tsx';
import tableStyles from '../panel/table.module.css';
import styles from './record-view.module.css';

/** A pace that a test came to, for the lane that swam it. */
export interface CssOffered {
  readonly lane: number;
  readonly css: Millis;
}

interface TimesTableProps {
  readonly sets: readonly ReviewSet[];
  readonly css: readonly ReviewCss[];
  readonly unit: LengthUnit;
  onCss(offered: CssOffered): void;
}

export function TimesTable({ sets, css, unit, onCss }: TimesTableProps): ReactElement | null {
  if (sets.length === 0 && css.length === 0) return null;
  return (
    <section aria-label="Times">
      <h2>Timed by hand, to the tenth</h2>
      {css.map(({ lane, cssMs, caution, why }, index) => (
        <div className={styles.css} key={index}>
          <p>{cssMs === null ? `Lane ${lane}: no CSS from its test. ${why}` : cssText(lane, cssMs, unit, caution)}</p>
          {cssMs === null ? null : (
            <Button
              name={`Use it for lane ${lane}`}
              hint="in the session in the editor"
              look="small"
              onPress={() => onCss({ lane, css: cssMs })}
            />
          )}
        </div>
      ))}
      <div className={styles.sets}>
        {sets.map((set, index) => (
          <SetTable set={set} unit={unit} key={index} />
        ))}
      </div>
    </section>
  );
}

/** What a pace is for. */
const HUNDRED: Tenths = 1000;

function SetTable({ set, unit }: { readonly set: ReviewSet; readonly unit: LengthUnit }): ReactElement {
  const { lane, part, words, reps, fadeMs } = set;
  return (
    <table className={`${tableStyles.table} ${styles.times}`}>
      <caption>
        Lane {lane}, {words} <span>{part}</span>
      </caption>
      <thead>
        <tr>
          <th scope="col">Rep</th>
          <th scope="col">Hand time</th>
          <th scope="col">Pace a 100 {unit}</th>
          <th scope="col">Against the target</th>
        </tr>
      </thead>
      <tbody>
        {reps.map(({ rep, of, atMs, timeMs, paceMs, overMs }) => (
          <tr key={atMs}>
            <th scope="row">
              {rep} of {of}
            </th>
            <td>
              {tenthText(timeMs)}
              {paceMs !== null && isTooSoon(paceMs, HUNDRED, unit) ? ` ${TOO_SOON}` : null}
            </td>
            <td>{paceMs === null ? '–' : tenthText(paceMs)}</td>
            <td>{overMs === null ? 'no target' : overText(overMs)}</td>
          </tr>
        ))}
      </tbody>
      {fadeMs === null ? null : (
        <tfoot>
          <tr>
            <th scope="row">Fade</th>
            <td colSpan={3}>{fadeText(fadeMs)}</td>
          </tr>
        </tfoot>
      )}
    </table>
  );
}

function cssText(lane: number, css: Millis, unit: LengthUnit, caution: string | null): string {
  return `Lane ${lane}: CSS ≈${reading(css)} per 100 ${unit} by its 400 and 200.${caution === null ? '' : ` ${caution}`}`;
}

function fadeText(fade: Millis): string {
  const tenths = (Math.floor(Math.abs(fade) / 100) / 10).toFixed(1);
  if (tenths === '0.0') return 'none: the second half was as fast as the first';
  return `${tenths} s a 100 ${fade > 0 ? 'slower' : 'faster'} in the second half`;
}
