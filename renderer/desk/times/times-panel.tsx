/*
 * Touches, beside the lanes: a tap as the first swimmer of a lane comes in gives the rep its time. It is no command and
 * changes nothing of the run; Stop and all else stay in reach.
 */

import { useEffect, useRef, useState, useSyncExternalStore, type ReactElement } from 'react';
import { handTime } from '../../../app/core/record/hand-time.ts';
import { repTime } from '../../../app/core/record/set-times.ts';
import { touched } from '../../../app/core/record/touch.ts';
import type { Leave } from '../../../app/core/run/record.ts';
import { view } from '../../../app/core/run/view.ts';
import { leavesIn } from '../../../app/core/run/view/record.ts';
import type { Millis } from '../../../app/core/units.ts';
import { commaed } from '../../../app/core/words/phrase.ts';
import { repText } from '../../../app/core/words/rep.ts';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { Button } from '../../ui/parts/button.tsx';
import { overText, tenthText } from '../afterwards/times-table.tsx';
import type { DeskTools } from '../desk-tools.ts';
import { SidePanel } from '../panel.tsx';
import type { Touches } from './touches.ts';
import panelStyles from '../panel.module.css';
import styles from './times-panel.module.css';

interface TimesPanelProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  readonly touches: Touches;
  onClose(): void;
}

/** So many of a lane's last times are shown. */
const SHOWN = 3;

export function TimesPanel({ tools, moment, touches, onClose }: TimesPanelProps): ReactElement {
  const { times, refused } = useSyncExternalStore(touches.subscribe, touches.state);
  const [said, setSaid] = useState('');
  const { unit } = moment.view.plan.session.pool;
  useEffect(() => touches.look(), [touches]);
  const touch = (lane: number, t: Millis): void => {
    const { state, commands } = moment.run;
    // A finger may have come down just before the last command.
    const known = Math.max(Math.floor(t), commands[commands.length - 1]?.at ?? 0);
    const own = leavesIn(view(state, known)).filter((leave) => leave.lane === lane);
    const leave = touched(own, t);
    if (!leave) return setSaid(`Lane ${lane}: nobody can be back yet.`);
    if (timeOf(leave)) return setSaid(`Lane ${lane} has its time: take it back first.`);
    const watch = Math.round(t - leave.at);
    touches.add({ lane, at: leave.at, watch });
    setSaid(`Lane ${lane}: ${tenthText(watch)}, ${repText(leave.rep, unit)}, ${leave.rep.rep} of ${leave.rep.of}.`);
  };
  const timeOf = ({ lane, at }: Leave): Millis | null => {
    const watches = times.find((each) => each.lane === lane && each.at === at)?.watches;
    return watches ? handTime(watches) : null;
  };
  const leaves = leavesIn(moment.view);
  return (
    <SidePanel title="Times" onClose={onClose}>
      <p className={panelStyles.note}>
        Tap as a lane’s first swimmer touches. Times are by hand, to the tenth; they change nothing of the run.
      </p>
      <p className={styles.said} role="status">
        {refused ?? said}
      </p>
      <ul className={styles.lanes}>
        {moment.view.lanes.map(({ number, last }) => {
          const timed = leaves.filter((leave) => leave.lane === number && timeOf(leave) !== null).reverse();
          return (
            <li key={number}>
              <TouchButton
                lane={number}
                about={last ? `${repText(last.rep, unit)}, ${last.rep.rep} of ${last.rep.of}` : 'has not left'}
                now={() => tools.link.exactNow()}
                onTouch={(t) => touch(number, t)}
              />
              <div>
                <ol aria-label={`Times of lane ${number}`}>
                  {timed.slice(0, SHOWN).map((leave) => (
                    <li key={leave.at}>
                      <b>{tenthText(timeOf(leave)!)}</b> {figures(leave, timeOf(leave)!)}
                    </li>
                  ))}
                </ol>
                {timed[0] ? (
                  <Button
                    name={`Take back lane ${number}’s time`}
                    label="Take back"
                    look="small"
                    onPress={() => touches.add({ lane: number, at: timed[0]!.at, watch: null })}
                  />
                ) : null}
              </div>
            </li>
          );
        })}
      </ul>
    </SidePanel>
  );
}

/** "rep 3, 1:15.6 a 100, 0.4 s under". */
function figures(leave: Leave, taken: Millis): string {
  const { rep, pace, over } = repTime(leave, taken);
  return commaed(`rep ${rep}`, pace === null ? '' : `${tenthText(pace)} a 100`, over === null ? '' : overText(over));
}

interface TouchButtonProps {
  readonly lane: number;
  readonly about: string;
  now(): Millis | null;
  onTouch(t: Millis): void;
}

/** A tap counts from when the finger comes down; by a key or assistive technology from when it acts. */
function TouchButton({ lane, about, now, onTouch }: TouchButtonProps): ReactElement {
  const down = useRef<Millis | null>(null);
  const press = (): void => {
    const t = down.current ?? now();
    down.current = null;
    if (t !== null) onTouch(t);
  };
  return (
    <div
      className={styles.touch}
      onPointerDownCapture={() => (down.current = now())}
      onKeyDownCapture={() => (down.current = null)}
      onPointerCancelCapture={() => (down.current = null)}
    >
      <Button name={`Touch lane ${lane}`} label={`Lane ${lane}`} hint={about} onPress={press} />
    </div>
  );
}
