/*
 * A large button a lane to tap as its first swimmer touches, and one that takes the latest time back. What has come
 * stands on the buttons: none of them moves or changes its size, whatever comes.
 */

import type { ReactElement, ReactNode } from 'react';
import { repTime } from '../../../../app/core/record/times/set-times.ts';
import { overText, tenthText, TOO_SOON } from '../../../../app/core/words/time/hand-time.ts';
import type { Leave } from '../../../../app/core/run/record.ts';
import type { NextRep } from '../../../../app/core/run/view.ts';
import { commaed } from '../../../../app/core/words/phrase.ts';
import { repWords } from '../../../../app/core/words/rep.ts';
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
        {lanes.map(({ number: lane }) => {
          const toCome = touching.toCome(lane);
          const swum = toCome ? null : touching.swum(lane);
          const latest = touching.timed.find(({ leave }) => leave.lane === lane);
          return (
            <TouchButton
              key={lane}
              lane={lane}
              beside={swum ? `${swum.rep.rep} of ${swum.rep.of}` : 'not left'}
              hint={swum ? <Hint swum={swum} latest={latest} /> : toCome ? partWords(moment, toCome) : NONE}
              className={styles.touch}
              now={() => tools.link.exactNow()}
              onTouch={(t) => touching.touch(lane, t)}
            />
          );
        })}
      </div>
      <div className={styles.foot}>
        <Button
          name="Take back"
          hint={latest ? latestText(latest) : 'no time yet'}
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

const HOW = 'Tap as the first swimmer touches. Timed by hand.';

const NOT_SENT = 'not sent yet';

/** Keeps its line. */
const NONE = '\u00a0';

/** Of the set that a touch will belong to: "Main set: 50 fast". */
function partWords({ view }: RunMoment, { rep }: NextRep): string {
  const { part } = view.stretch;
  return `${part === '' ? '' : `${part}: `}${repWords(rep)}`;
}

function latestText(latest: TimedRep): string {
  const { lane, rep } = latest.leave;
  return `lane ${lane}, ${repWords(rep)}, rep ${rep.rep}: ${timeText(latest)}`;
}

/** "0:37.8", "0:37.8, not sent yet". */
function timeText({ time, isUnsent }: TimedRep): string {
  return commaed(tenthText(time), isUnsent ? NOT_SENT : '');
}

interface HintProps {
  readonly swum: Leave;
  readonly latest: TimedRep | undefined;
}

/** The time of the rep that a touch ends, and against its target; until it has one what is swum, and the last time of that set. */
function Hint({ swum, latest }: HintProps): ReactElement {
  if (latest?.leave.at !== swum.at) {
    const before = latest?.leave.rep.set === swum.rep.set ? `, rep ${latest.leave.rep.rep}: ${timeText(latest)}` : '';
    return <>{repWords(swum.rep) + before}</>;
  }
  const { time } = latest;
  return (
    <>
      <b>{tenthText(time)}</b> {latest.isUnsent ? NOT_SENT : besideText(latest)}
    </>
  );
}

/** How it stands against its target, or without one its pace; nothing for a swim by time. */
function besideText({ leave, time, isTooSoon }: TimedRep): string {
  if (isTooSoon) return TOO_SOON;
  const { over, pace } = repTime(leave, time);
  return over !== null ? overText(over) : pace === null ? '' : `${tenthText(pace)} a 100`;
}
