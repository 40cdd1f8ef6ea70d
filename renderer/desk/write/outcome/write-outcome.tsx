/*
 * What the text comes to, beside it: the hour, the cuts that keep it, the timetable and the warnings; its faults, and
 * below them what can be read; and what to do where there is no text yet.
 */

import type { ReactElement, ReactNode } from 'react';
import { Caution } from '../frame/caution.tsx';
import { FaultList } from '../../editor/faults/fault-list.tsx';
import { HourPicture } from '../../hour/hour-picture.tsx';
import { TimetableView } from '../../timetable/timetable-view.tsx';
import type { WrittenFit } from '../../timetable/written-cuts.ts';
import type { WrittenOutcome } from '../../timetable/written-outcome.ts';
import { WriteLate } from './write-late.tsx';
import styles from '../write-screen.module.css';

interface OutcomeViewProps {
  /** null until the text has been read for the first time. */
  readonly outcome: WrittenOutcome | null;
  /** The line that is being written, where it has a fault; else null. */
  readonly unfinished: number | null;
  readonly found: WrittenFit | null;
  /** As it is shown; `textNow`: as it is, with what was typed since. */
  readonly text: string;
  readonly faultsId: string;
  /** Stands above it. */
  readonly children?: ReactNode;
  textNow(): string;
  onLine(line: number): void;
  onFault(line: number, column: number): void;
  onMend(line: number): void;
  onText(text: string): void;
}

export function OutcomeView(props: OutcomeViewProps): ReactElement {
  const { outcome, unfinished, found, text, faultsId, children, textNow, onLine, onFault, onMend, onText } = props;
  return (
    <>
      {children}
      {outcome?.kind === 'faults' ? (
        <>
          <FaultList
            id={faultsId}
            {...{ unfinished, onMend }}
            faults={outcome.faults}
            inLanes={outcome.in === 'lanes'}
            mends={outcome.mends}
            onGoTo={onFault}
          />
          {outcome.meanwhile ? (
            <div className={styles.meanwhile}>
              <p>{outcome.meanwhile.said}</p>
              <TimetableView table={outcome.meanwhile.table} warnings={outcome.meanwhile.warnings} onLine={onLine}>
                <HourPicture picture={outcome.meanwhile.hour} swimDown={null} onLine={onLine} />
                <NeededKit kit={outcome.meanwhile.kit} />
              </TimetableView>
            </div>
          ) : null}
        </>
      ) : outcome?.kind === 'fits' ? (
        <TimetableView table={outcome.table} warnings={outcome.warnings} onLine={onLine}>
          <HourPicture picture={outcome.hour} swimDown={found?.startBy?.at ?? null} onLine={onLine}>
            {found ? <WriteLate found={found} text={text} textNow={textNow} onText={onText} /> : null}
          </HourPicture>
          <NeededKit kit={outcome.kit} />
        </TimetableView>
      ) : outcome ? (
        <p className={styles.empty}>
          The timetable of every lane stands here as you write. Begin with a title, then a line such as 4 x 50 easy @
          1:15. Sessions has what you wrote before, and samples to start from; Notation shows how each kind of line is
          written.
        </p>
      ) : null}
      <Caution className={styles.cautionBelow} />
    </>
  );
}

function NeededKit({ kit }: { readonly kit: string | null }): ReactElement | null {
  return kit === null ? null : <p>Kit, in the order it is needed: {kit}.</p>;
}
