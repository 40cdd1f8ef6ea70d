/*
 * All faults of a text in full, beside it; a line that is pressed puts the cursor there, and where there is a mend it is a
 * press away. The fault of the line that is being written waits.
 */

import type { ReactElement } from 'react';
import type { Fault } from '../../../../app/core/result.ts';
import { Button } from '../../../ui/parts/button.tsx';
import type { OfferedMend } from './fault-mends.ts';
import { FAULTS_SHOWN } from './fault-place.ts';
import styles from './fault-list.module.css';

interface FaultListProps {
  readonly id: string;
  readonly faults: readonly Fault[];
  /** Whether the lines are those of Lanes for every session. */
  readonly inLanes?: boolean;
  /** The line that is being written; null for none. */
  readonly unfinished: number | null;
  readonly mends: readonly Pick<OfferedMend, 'line' | 'name'>[];
  onGoTo(line: number, column: number): void;
  onMend(line: number): void;
}

export function FaultList(props: FaultListProps): ReactElement {
  const { id, faults: all, inLanes = false, unfinished, mends, onGoTo, onMend } = props;
  const text = inLanes ? ' in Lanes for every session' : '';
  const faults = all.filter(({ line }) => line !== unfinished);
  const waiting = faults.length < all.length ? `Line ${unfinished}${text} is not finished yet` : null;
  const more = faults.length - FAULTS_SHOWN;
  const names = new Map(mends.map(({ line, name }) => [line, name]));
  if (waiting !== null && faults.length === 0) {
    return (
      <section className={styles.faults} aria-label="Faults">
        <h2 id={id} data-unfinished="">
          {waiting}
        </h2>
      </section>
    );
  }
  return (
    <section className={styles.faults} aria-label="Faults">
      <h2>{faults.length === 1 ? `One line${text} cannot be read` : `${faults.length} faults${text}`}</h2>
      <ul id={id}>
        {faults.slice(0, FAULTS_SHOWN).map(({ line, column, message }, index) => (
          <li key={index}>
            <Button onPress={() => onGoTo(line, column)}>line {line}</Button>
            <span className={styles.said}>{message}</span>
            {names.has(line) ? (
              <Button
                name={`${names.get(line)!}, line ${line}`}
                label={names.get(line)!}
                look="small"
                onPress={() => onMend(line)}
              />
            ) : null}
          </li>
        ))}
      </ul>
      {waiting === null ? null : <p>{waiting}.</p>}
      {more > 0 ? <p>And {more} more.</p> : null}
    </section>
  );
}
