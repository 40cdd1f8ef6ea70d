/*
 * A large button a lane to tap as its first swimmer touches, and one that takes the latest time back. What has come
 * stands on the buttons: none of them moves or changes its size, whatever comes.
 */

import type { ReactElement, ReactNode } from 'react';
import { repTime } from '../../../../app/core/record/times/set-times.ts';
import { overText, tenthText } from '../../../../app/core/words/time/hand-time.ts';
import type { LaneView } from '../../../../app/core/run/view.ts';
import { Button } from '../../parts/button.tsx';
import type { RunMoment } from '../frames.ts';
import type { Tools } from '../use-deck.ts';
import { TouchButton } from './touch-button.tsx';
import { useTouching, type TimedRep } from './use-touching.ts';
import styles from './touch-lanes.module.css';

interface TouchLanesProps {
  readonly tools: Pick<Tools, 'touches' | 'link'>;
  readonly moment: RunMoment;
  /** Stands beside "Take back". */
  readonly children?: ReactNode;
}

export function TouchLanes({ tools, moment, children }: TouchLanesProps): ReactElement {
  const touching = useTouching(tools, moment);
  const { lanes } = moment.view;
  const latest = touching.timed[0];
  return (
    <div className={styles.touches} data-columns={lanes.length > MANY ? 'many' : lanes.length > FEW ? 'two' : 'one'}>
      <p className={styles.said} role="status">
        {touching.said === '' ? HOW : touching.said}
      </p>
      <div className={styles.lanes} role="group" aria-label="Touches">
        {lanes.map((lane) => (
          <TouchButton
            key={lane.number}
            lane={lane.number}
            beside={lane.last ? `${lane.last.rep.rep} of ${lane.last.rep.of}` : 'not left'}
            hint={<Hint lane={lane} latest={touching.timed.find(({ leave }) => leave.lane === lane.number)} />}
            className={styles.touch}
            now={() => tools.link.exactNow()}
            onTouch={(t) => touching.touch(lane.number, t)}
          />
        ))}
      </div>
      <div className={styles.foot}>
        <Button
          name="Take back"
          hint={latest ? `lane ${latest.leave.lane}: ${tenthText(latest.time)}` : 'no time yet'}
          why={latest ? null : 'There is no time to take back.'}
          onPress={() => latest && touching.takeBack(latest)}
        />
        {children}
      </div>
    </div>
  );
}

/** With more lanes than so many there are two columns, and on a phone three. */
const FEW = 4;
const MANY = 6;

const HOW = 'Tap as a lane’s first swimmer touches. Times are by hand.';

/** The last time, and against its target; of a rep before the one that swims, which that was. */
function Hint({ lane: { last }, latest }: { readonly lane: LaneView; readonly latest: TimedRep | undefined }) {
  if (!latest) return <>&nbsp;</>;
  const { leave, time } = latest;
  if (leave.at !== last?.at) return `rep ${leave.rep.rep}: ${tenthText(time)}`;
  const { over, pace } = repTime(leave, time);
  return (
    <>
      <b>{tenthText(time)}</b> {over !== null ? overText(over) : pace === null ? '' : `${tenthText(pace)} a 100`}
    </>
  );
}
