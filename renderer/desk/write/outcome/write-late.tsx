/*
 * How the booked hour stands while the session is written: when the swim-down must start, and the cuts
 * that bring the hour back, each one tap that writes the line shorter, and one tap to take it back.
 */

import { useState, type ReactElement } from 'react';
import { MINUTE } from '../../../../app/core/units.ts';
import { Button } from '../../../ui/parts/button.tsx';
import { CutOffers } from '../../run/cut-offers.tsx';
import { about } from '../../../../app/core/words/time/estimate.ts';
import { endTime } from '../../../../app/core/words/time/time-of-day.ts';
import { textCut, type WrittenCut, type WrittenFit } from '../../timetable/written-cuts.ts';
import cutStyles from '../../run/cut-offers.module.css';
import lateStyles from '../../run/run-late.module.css';
import styles from '../write-screen.module.css';

interface WriteLateProps {
  readonly found: WrittenFit;
  readonly text: string;
  /** Of an older text nothing is cut. */
  textNow(): string;
  onText(text: string): void;
}

interface Made {
  readonly label: string;
  readonly before: string;
  readonly after: string;
}

export function WriteLate({ found, text, textNow, onText }: WriteLateProps): ReactElement {
  const [made, setMade] = useState<Made | null>(null);
  const { fit, cuts, smaller, startBy, startsAt, isEstimate } = found;
  const undone = made?.after === text ? made : null;
  const offered = new Map([...cuts, ...smaller].map((cut) => [cut.line, cut]));
  const make = (cut: WrittenCut, label: string): void => {
    const now = textNow();
    if (found.text !== now) return;
    const after = textCut(found, cut);
    setMade({ label, before: now, after });
    onText(after);
  };
  const offers = {
    isWritten: true,
    text: found.text,
    isEstimate: (line: number) => offered.get(line)?.isEstimate ?? false,
    where: (line: number) => offered.get(line)?.where ?? '',
    endTime: (end: number) => `${about(isEstimate)}${endTime(startsAt * MINUTE + end)}`,
    whyNot: () => null,
    judge: () => null,
    onCut: make,
  };
  return (
    <section className={`${lateStyles.late} ${styles.late}`} aria-label="If you run late">
      <CutOffers fit={fit} cuts={cuts} {...offers} />
      {smaller.length > 0 ? (
        <>
          <p>Or make all of these smaller cuts, and every set stays:</p>
          <CutOffers fit={{ ...fit, serves: 'all' }} cuts={smaller} {...offers} />
        </>
      ) : null}
      {undone ? (
        <Button
          name="Undo the cut"
          hint={undone.label}
          className={cutStyles.cut}
          onPress={() => (textNow() === undone.after ? onText(undone.before) : undefined)}
        />
      ) : null}
      {startBy ? <p>{startBy.said}</p> : null}
    </section>
  );
}
