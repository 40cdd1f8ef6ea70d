/*
 * All faults of a text in full, beside it; a line that is pressed puts the cursor there.
 */

import type { ReactElement } from 'react';
import type { Fault } from '../../../app/core/result.ts';
import { Button } from '../../ui/parts/button.tsx';
import { FAULTS_SHOWN } from './fault-place.ts';

interface FaultListProps {
  readonly id: string;
  readonly faults: readonly Fault[];
  onGoTo(line: number, column: number): void;
}

export function FaultList({ id, faults, onGoTo }: FaultListProps): ReactElement {
  const more = faults.length - FAULTS_SHOWN;
  return (
    <section className="faults" aria-label="Faults">
      <h2>{faults.length === 1 ? 'One line cannot be read' : `${faults.length} faults`}</h2>
      <ul id={id}>
        {faults.slice(0, FAULTS_SHOWN).map(({ line, column, message }, index) => (
          <li key={index}>
            <Button onPress={() => onGoTo(line, column)}>line {line}</Button>
            {message}
          </li>
        ))}
      </ul>
      {more > 0 ? <p>And {more} more.</p> : null}
    </section>
  );
}
