/*
 * The next leaves of all lanes in a narrow strip, in sight while the coach edits the text.
 */

import type { ReactElement } from 'react';
import type { RunView } from '../../../app/core/run/view.ts';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { useDigits, useDrawn, useActions, type Tools } from '../../ui/coach/use-deck.ts';
import { inText } from '../../../app/core/words/time/reading.ts';
import { leaveOf, MANY } from './lane-text.ts';
import styles from './lane-leaves.module.css';

interface LaneLeavesProps {
  readonly tools: Tools;
  readonly moment: RunMoment;
}

export function LaneLeaves({ tools, moment }: LaneLeavesProps): ReactElement {
  const { lanes } = moment.view;
  const isMany = lanes.length > MANY;
  return (
    <section className={styles.place} aria-label="Next leaves">
      <ul className={`${styles.whole} ${isMany ? styles.isMany : ''}`} role="list">
        {lanes.map(({ number, state }) => (
          <LaneLeave key={number} tools={tools} number={number} state={state} isShort={isMany} />
        ))}
      </ul>
    </section>
  );
}

interface LaneLeaveProps {
  readonly tools: Tools;
  readonly number: number;
  readonly state: string;
  /** "5 s" for "in 5 s". */
  readonly isShort: boolean;
}

function LaneLeave({ tools, number, state, isShort }: LaneLeaveProps): ReactElement {
  const clock = useActions(tools.actions, (actions) => actions.clock);
  const leave = useDigits(tools.frames, (at) => (at ? leaveOf(at.view, number, clock) : ''));
  const left = useDrawn(tools.frames, (at) => (at ? leftOf(at.view, number).slice(isShort ? 'in '.length : 0) : ''));
  return (
    <li className={styles.lane} data-state={state}>
      <span className="hidden">Lane </span>
      <b>{number}</b>
      <span className={styles.leave} ref={leave} />
      <span className={styles.left} ref={left} />
    </li>
  );
}

function leftOf(view: RunView, number: number): string {
  const lane = view.lanes.find((each) => each.number === number);
  return lane?.state === 'pending' && lane.next && lane.next.at !== null ? inText(lane.next.at - view.t) : '';
}
