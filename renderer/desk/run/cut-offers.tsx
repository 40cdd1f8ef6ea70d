/*
 * The cuts that would end the session in time, offered while it is written and while it runs. A line above says how
 * many of them it takes; if it takes several, they are numbered.
 */

import type { ReactElement } from 'react';
import type { CutOption, Fit } from '../../../app/core/run/hour/fit.ts';
import { Button } from '../../ui/parts/button.tsx';
import { adviceOf, begunText, cutHint, cutLabel, type CutShown } from './fit-advice.ts';
import styles from './cut-offers.module.css';

interface CutOffersProps<Cut> {
  readonly fit: Pick<Fit, 'over' | 'serves'>;
  /** In the order in which they are counted together. */
  readonly cuts: readonly Cut[];
  /** Whether the session is still written, and no run is open. */
  readonly isWritten?: boolean;
  /** The text that the cuts' lines refer to. */
  readonly text: string;
  /** Whether what a cut of a line saves is an estimate. */
  isEstimate(line: number): boolean;
  /** " in every round" for a line inside rounds, else ''. */
  where(line: number): string;
  /** An end (in ms since the session's start or the run's opening) as a time of day, marked if it is an estimate. */
  endTime(end: number): string;
  /** Why a cut cannot be made, as last drawn; null if it can. */
  whyNot(cut: Cut): string | null;
  /** The same, checked at the press, because what was drawn may be a second old. */
  judge(cut: Cut): string | null;
  onCut(cut: Cut, label: string): void;
  onRefused?(why: string): void;
}

export function CutOffers<Cut extends CutShown & Pick<CutOption, 'endsAt'>>(
  props: CutOffersProps<Cut>,
): ReactElement | null {
  const { fit, cuts, isWritten = false, text, isEstimate, where, endTime, whyNot, judge, onCut, onRefused } = props;
  const advice = adviceOf({ ...fit, cuts, isWritten });
  if (advice === '') return null;
  const together = fit.over > 0 && fit.serves !== 'each' && cuts.length > 1;
  return (
    <>
      <p>{advice}</p>
      <ol className={styles.cuts} role="list">
        {cuts.map((cut, index) => {
          const label = `${cutLabel(text, cut)}${where(cut.line)}`;
          return (
            <li key={cut.line}>
              <Button
                name={`${label}, line ${cut.line}`}
                label={together ? `${index + 1}. ${label}` : label}
                hint={`${begunText(cut)}${cutHint(cut, isEstimate(cut.line), endTime(cut.endsAt), together && index > 0)}`}
                look="deep"
                className={styles.cut}
                why={whyNot(cut)}
                judge={() => judge(cut)}
                onPress={() => onCut(cut, label)}
                onRefused={onRefused}
              />
            </li>
          );
        })}
      </ol>
    </>
  );
}
