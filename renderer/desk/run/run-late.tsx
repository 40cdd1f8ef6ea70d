/*
 * How the booked hour stands: how much is in hand or over, when the swim-down must start at the latest, and the cuts
 * that save enough. Each is one tap, and one Undo.
 */

import { useState, type ReactElement } from 'react';
import type { CutOption } from '../../../app/core/run/hour/fit.ts';
import { endIsEstimate } from '../../../app/core/run/view/estimate.ts';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { lineIsEstimate } from '../../../app/core/plan/estimates.ts';
import { about } from '../../../app/core/words/time/estimate.ts';
import { hourOf } from '../../../app/core/words/time/hour.ts';
import { endTime } from '../../../app/core/words/time/time-of-day.ts';
import { CutOffers } from './cut-offers.tsx';
import type { DeskTools } from '../desk-tools.ts';
import { everyRound, startByText } from './fit-advice.ts';
import { createFitCache } from './fit-cache.ts';
import pageStyles from '../panel/page.module.css';
import styles from './run-late.module.css';

interface RunLateProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  /** Whether it ends too late: then it is above the outline. */
  readonly isOver: boolean;
  /** A line of the outline is open: it needs the room. */
  readonly isSmall?: boolean;
}

export function RunLate({ tools, moment, isOver, isSmall = false }: RunLateProps): ReactElement {
  const { run, view } = moment;
  const over = isOver ? '' : undefined;
  const small = isSmall ? '' : undefined;
  const look = isOver ? `${pageStyles.scrolls} ${styles.late}` : styles.late;
  const { session, source } = view.plan;
  const isEstimate = endIsEstimate(view);
  const hour = hourOf(run.openedAtTimeOfDay, view.projectedEnd, session.finishBy, isEstimate);
  const [fitOf] = useState(createFitCache);
  const fitted = fitOf(moment);
  if (!fitted) {
    return (
      <section className={look} data-over={over} data-small={small} aria-label="If you run late">
        <h2>If you run late</h2>
        <p>{`Ends ${hour.ends}. Write a finish into the session to see here how much time is in hand.`}</p>
      </section>
    );
  }
  const command = ({ line, n }: CutOption) => ({ do: 'cut', line, n }) as const;
  const { swimDownBy } = fitted;
  return (
    <section className={look} data-over={over} data-small={small} aria-label="If you run late">
      <h2>If you run late</h2>
      <p>
        {`Ends ${hour.ends}, ${hour.inHandText}, booked to ${hour.booked}.`}
        {swimDownBy === null ? null : ` ${startByText(view, run.openedAtTimeOfDay + swimDownBy)}`}
      </p>
      <CutOffers
        fit={fitted}
        cuts={fitted.cuts}
        text={source.text}
        where={(line) => everyRound(session, line)}
        isEstimate={(line) => lineIsEstimate(view.stretches, line)}
        endTime={(end) => `${about(isEstimate)}${endTime(run.openedAtTimeOfDay + end)}`}
        whyNot={(cut) => tools.offers.whyNot(command(cut))}
        judge={(cut) => tools.actions.refusal(command(cut))}
        onCut={(cut) => void tools.actions.press(command(cut))}
        onRefused={(why) => tools.actions.say(why, 'refused')}
      />
    </section>
  );
}
