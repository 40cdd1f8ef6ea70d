/*
 * The head of the run: the clock, what is swum and what comes next, and how the hour stands.
 */

import type { ReactElement, ReactNode } from 'react';
import type { ClockChoice } from '../../../app/core/run/readings.ts';
import { endIsEstimate } from '../../../app/core/run/view/estimate.ts';
import type { RunView } from '../../../app/core/run/view.ts';
import { Clock } from '../../ui/coach/clock.tsx';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { isWrongHour } from '../../../app/core/words/time/booking.ts';
import { hourOf } from '../../../app/core/words/time/hour.ts';
import { count } from '../../../app/core/words/phrase.ts';
import { readingLeft } from '../../../app/core/words/time/reading.ts';
import { roundText } from '../../../app/core/words/round.ts';
import { followingText } from '../../../app/core/words/stretch.ts';
import { clockTime } from '../../../app/core/words/time/time-of-day.ts';
import type { SharingTold } from '../../link/store.ts';
import { leaveText } from '../../ui/coach/feedback/words.ts';
import { Select } from '../../ui/parts/select.tsx';
import { useDeck, useDrawn, useActions } from '../../ui/coach/use-deck.ts';
import type { DeskTools } from '../desk-tools.ts';
import { headText } from './head-text.ts';
import styles from './run-head.module.css';

const CLOCKS: readonly { readonly choice: ClockChoice; readonly name: string }[] = [
  { choice: 'stretch', name: 'since last start' },
  { choice: 'run', name: 'since opening' },
  { choice: 'pool', name: "pool's clock" },
];

interface RunHeadProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  /** Stands at its end. */
  readonly children?: ReactNode;
}

export function RunHead({ tools, moment, children }: RunHeadProps): ReactElement {
  const { frames, actions, link } = tools;
  const { view, run } = moment;
  const choice = useActions(actions, (state) => state.clock);
  const screens = useDeck(link, (state) => state.screens);
  const tablets = useDeck(link, ({ sharing }) => otherTablets(sharing));
  const now = useDrawn(frames, (at) => (at ? clockTime(at.run.openedAtTimeOfDay + at.view.t) : ''));
  const left = useDrawn(frames, (at) => pauseLeft(at) || goesOnText(at, choice));
  const text = headText(view);
  const { session } = view.plan;
  const hour = hourOf(run.openedAtTimeOfDay, view.projectedEnd, session.finishBy, endIsEstimate(view));
  const isWrong = isWrongHour(hour.inHand);
  const others = [
    ...(screens.remote > 0 ? [count(screens.remote, 'remote')] : []),
    ...(tablets > 0 ? [count(tablets, 'tablet')] : []),
  ];
  return (
    <header className={styles.head}>
      <div className={styles.clock}>
        <Clock frames={frames} choice={choice} />
        <Select
          className={styles.choice}
          label={<span className="hidden">Which clock</span>}
          value={choice}
          choices={CLOCKS}
          onChange={actions.setClock}
        />
      </div>
      <div>
        <h1>
          <span className={styles.part}>
            {text.part}
            {text.rounds && !goesOn(view) ? `, ${roundText(text.rounds)}` : null}
          </span>
          <span className={styles.left} ref={left} />
        </h1>
        <p>{text.set}</p>
        <p className={styles.then}>{text.then}</p>
      </div>
      <div className={styles.session}>
        <h2>{session.title ?? 'Session'}</h2>
        <p>
          <span ref={now} /> now, {screens.wall > 0 ? `on ${count(screens.wall, 'wall screen')}` : 'on no wall screen'}
        </p>
        {others.length === 0 ? null : <p>{others.join(', ')}</p>}
      </div>
      <div className={styles.hour} data-over={isWrong || (hour.inHand !== null && hour.inHand < 0) ? '' : undefined}>
        <h2>
          {isWrong ? <span aria-hidden="true">⚠ </span> : null}
          {hour.inHandText ?? `ends ${hour.ends}`}
        </h2>
        <p>
          {hour.booked ? `ends ${hour.ends}` : 'no finish in the session'}
          {hour.booked ? <span className={styles.booked}>, booked to {hour.booked}</span> : null}
        </p>
      </div>
      <div className={styles.tools}>{children}</div>
    </header>
  );
}

/** Tablets that are connected, but for this page where it is one. */
function otherTablets(sharing: SharingTold | null): number {
  const devices = sharing?.devices ?? [];
  return devices.filter(({ role, connected, isYours }) => role === 'tablet' && connected && !isYours).length;
}

/** Whether what follows begins by itself and nobody leaves before it does. */
function goesOn({ followsAt, lanes }: RunView): boolean {
  return followsAt !== null && !lanes.some((lane) => lane.pending);
}

/** ", break at 5:40"; while lanes still leave, the line below says what comes next. */
function goesOnText(moment: RunMoment | null, choice: ClockChoice): string {
  if (!moment || !goesOn(moment.view)) return '';
  const { following, followsAt } = moment.view;
  if (!following || followsAt === null) return '';
  return `, ${followingText(following)} at ${leaveText(choice, moment.view, followsAt)}`;
}

/** What is left of a talk or break. If Stop was pressed in it, nothing follows by itself, and that is said too. */
function pauseLeft(moment: RunMoment | null): string {
  const end = moment?.view.pauseEnd ?? null;
  if (!moment || end === null) return '';
  const left = `, ${readingLeft(end - moment.view.t)} left`;
  return moment.view.held ? `${left}, then waits for Resume` : left;
}
