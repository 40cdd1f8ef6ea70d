/*
 * How the booked hour stands while the session is written: when the swim-down must start, and the cuts
 * that bring the hour back, each one tap that writes the line shorter, and one tap to take it back.
 */

import { useMemo, useState, type ReactElement } from 'react';
import { endsByEstimate, lineIsEstimate } from '../../../app/core/plan/estimates.ts';
import type { Plan } from '../../../app/core/plan/plan.ts';
import { MINUTE, type Millis } from '../../../app/core/units.ts';
import { Button } from '../../ui/parts/button.tsx';
import { CutOffers } from '../run/cut-offers.tsx';
import { startByText } from '../run/fit-advice.ts';
import { about } from '../../../app/core/words/time/estimate.ts';
import { endTime } from '../../../app/core/words/time/time-of-day.ts';
import { writtenFit, type WrittenCut } from '../timetable/written-cuts.ts';
import cutStyles from '../run/cut-offers.module.css';
import lateStyles from '../run/run-late.module.css';

interface WriteLateProps {
  readonly plan: Plan;
  onText(text: string): void;
}

interface Made {
  readonly label: string;
  readonly before: string;
  readonly after: string;
}

export function WriteLate({ plan, onText }: WriteLateProps): ReactElement | null {
  const fitted = useMemo(() => writtenFit(plan), [plan]);
  const [made, setMade] = useState<Made | null>(null);
  const { text } = plan.source;
  const undone = made?.after === text ? made : null;
  if (!fitted) return null;
  const { fit, cuts } = fitted;
  const at = (ms: Millis): Millis => plan.session.startsAt! * MINUTE + ms;
  const make = (cut: WrittenCut, label: string): void => {
    setMade({ label, before: text, after: cut.text });
    onText(cut.text);
  };
  return (
    <section className={`${lateStyles.late} write-late`} aria-label="If you run late">
      <CutOffers
        fit={fit}
        cuts={cuts}
        text={text}
        isEstimate={(line) => lineIsEstimate(plan.stretches, line)}
        endTime={(end) => `${about(endsByEstimate(plan))}${endTime(at(end))}`}
        whyNot={() => null}
        judge={() => null}
        onCut={make}
      />
      {undone ? (
        <Button
          name="Undo the cut"
          hint={undone.label}
          className={cutStyles.cut}
          onPress={() => onText(undone.before)}
        />
      ) : null}
      {fit.swimDownBy === null ? null : <p>{startByText({ plan, stretches: plan.stretches }, at(fit.swimDownBy))}</p>}
    </section>
  );
}
