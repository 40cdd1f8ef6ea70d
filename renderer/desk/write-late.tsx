/*
 * How the booked hour stands while the session is written: when the swim-down must start, and the cuts
 * that bring the hour back, each one tap that writes the line shorter, and one tap to take it back.
 */

import { useMemo, useState, type ReactElement } from 'react';
import type { Plan } from '../../app/core/plan/plan.ts';
import { reading } from '../../app/core/reading.ts';
import { openRun } from '../../app/core/run/state.ts';
import { textLines } from '../../app/core/session/lines.ts';
import { MINUTE, type Millis } from '../../app/core/units.ts';
import { DeckButton } from '../ui/coach/deck-button.tsx';
import { count } from '../ui/coach/words.ts';
import { about, lineIsEstimate } from '../ui/estimates.ts';
import { adviceOf, nameOfLast } from './fit-advice.ts';
import { clockTime, endTime } from './hour.ts';
import { writtenFit, type WrittenCut } from './written-cuts.ts';

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
    <section className="late write-late" aria-label="If you run late">
      {adviceOf(fit) === '' ? null : <p>{adviceOf(fit)}</p>}
      {cuts.map((cut) => {
        const label = labelOf(plan, cut);
        return (
          <DeckButton
            key={cut.line}
            name={`${label}, line ${cut.line}`}
            label={label}
            hint={`ends ${about(lineIsEstimate(plan.stretches, cut.line))}${reading(cut.saves)} sooner, ≈ ${endTime(at(cut.endsAt))}`}
            look="is-deep late-cut"
            onPress={() => make(cut, label)}
            onRefused={() => {}}
          />
        );
      })}
      {undone ? (
        <DeckButton
          name="Undo the cut"
          hint={undone.label}
          look="late-cut"
          onPress={() => onText(undone.before)}
          onRefused={() => {}}
        />
      ) : null}
      {fit.swimDownBy === null ? null : (
        <p>{`${nameOfLast(openRun(plan, 0))} must start by ≈ ${clockTime(at(fit.swimDownBy))}.`}</p>
      )}
    </section>
  );
}

function labelOf(plan: Plan, { line, n, of, kind }: WrittenCut): string {
  const written = (textLines(plan.source.text)[line - 1] ?? '').trim();
  return `Cut ${n} of ${kind === 'reps' ? written : count(of, 'round')}`;
}
