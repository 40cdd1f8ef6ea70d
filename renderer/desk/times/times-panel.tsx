/*
 * Touches, beside the lanes: a tap as the first swimmer of a lane comes in gives the rep its time. It is no command and
 * changes nothing of the run; Stop and all else stay in reach. Nothing in it moves, whatever comes.
 */

import type { ReactElement } from 'react';
import { tenthText } from '../../../app/core/words/time/hand-time.ts';
import { Button } from '../../ui/parts/button.tsx';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { TouchButton } from '../../ui/coach/times/touch-button.tsx';
import { figuresText, useTouching, type TimedRep } from '../../ui/coach/times/use-touching.ts';
import type { DeskTools } from '../desk-tools.ts';
import { SidePanel } from '../panel.tsx';
import panelStyles from '../panel.module.css';
import styles from './times-panel.module.css';

interface TimesPanelProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  onClose(): void;
}

export function TimesPanel({ tools, moment, onClose }: TimesPanelProps): ReactElement {
  const touching = useTouching(tools, moment);
  return (
    <SidePanel title="Times" onClose={onClose}>
      <p className={`${panelStyles.note} ${styles.said}`} role="status">
        {touching.said === '' ? HOW : touching.said}
      </p>
      <ul className={styles.lanes}>
        {moment.view.lanes.map(({ number, last }) => {
          const [latest] = touching.timed(number);
          return (
            <li key={number}>
              <TouchButton
                lane={number}
                hint={last ? `${last.rep.rep} of ${last.rep.of}` : 'not left'}
                className={styles.touch}
                now={() => tools.link.exactNow()}
                onTouch={(t) => touching.touch(number, t)}
              />
              <Latest lane={number} timed={touching.timed(number)} />
              <Button
                name={`Take back lane ${number}’s time`}
                label="Take back"
                look="small"
                why={latest ? null : `Lane ${number} has no time.`}
                onPress={() => latest && touching.takeBack(latest)}
              />
            </li>
          );
        })}
      </ul>
    </SidePanel>
  );
}

const HOW = 'Tap as a lane’s first swimmer touches. Times are by hand; they change nothing of the run.';

/** Its last times, the latest large and with what it means. */
function Latest({ lane, timed }: { readonly lane: number; readonly timed: readonly TimedRep[] }): ReactElement {
  return (
    <ol aria-label={`Times of lane ${lane}`}>
      {timed.slice(0, SHOWN).map((rep, index) => (
        <li key={rep.leave.at}>
          <b>{tenthText(rep.time)}</b> {index === 0 ? <span>{figuresText(rep)}</span> : null}
        </li>
      ))}
    </ol>
  );
}

/** So many of a lane's last times are shown. */
const SHOWN = 3;
