/*
 * Beside a text that is edited during a run: its timetable from now on and when it would end, or its faults.
 */

import type { ReactElement } from 'react';
import { endMoves, hourOf } from '../../../app/core/words/time/hour.ts';
import { commaed } from '../../../app/core/words/phrase.ts';
import type { DeckRun } from '../../link/store.ts';
import type { Outcome } from './edit-outcome.ts';
import { FaultList } from '../editor/faults/fault-list.tsx';
import { TimetableView } from '../timetable/timetable-view.tsx';
import styles from './rewrite-outcome.module.css';

interface RewriteOutcomeProps {
  readonly outcome: Outcome;
  /** The line that is being written, where it has a fault; else null. */
  readonly unfinished: number | null;
  readonly isChanged: boolean;
  readonly run: DeckRun;
  readonly faultsId: string;
  onLine(line: number, column: number): void;
  onMend(line: number): void;
}

export function RewriteOutcome(props: RewriteOutcomeProps): ReactElement {
  const { outcome, unfinished, isChanged, run, faultsId, onLine, onMend } = props;
  return (
    <>
      {outcome.kind === 'faults' ? (
        <FaultList
          id={faultsId}
          {...{ unfinished, onMend }}
          faults={outcome.faults}
          mends={outcome.mends}
          onGoTo={onLine}
        />
      ) : outcome.kind === 'refused' ? (
        <p className={styles.refused}>{outcome.why}</p>
      ) : (
        <TimetableView table={outcome.table} warnings={outcome.warnings} isLive onLine={(line) => onLine(line, 1)}>
          <p className={styles.end}>{isChanged ? endText(outcome, run) : 'From now on, without a change:'}</p>
        </TimetableView>
      )}
    </>
  );
}

/** "With your text: ends 2:20 sooner, ≈20:27, 3 min in hand": against the end that the head shows. */
function endText(outcome: Extract<Outcome, { kind: 'fits' }>, { openedAtTimeOfDay }: DeckRun): string {
  const { end, endNow, isEstimate, plan } = outcome;
  const { ends, inHandText } = hourOf(openedAtTimeOfDay, end, plan.session.finishBy, isEstimate);
  return `With your text: ${commaed(endMoves(end - endNow), ends, inHandText ?? '')}`;
}
