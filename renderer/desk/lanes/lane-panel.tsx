/*
 * The panel of one lane, for what is not needed at a glance: its interval, single reps, its leaves to come, and its
 * swimmers and their gap.
 */

import type { ReactElement, ReactNode } from 'react';
import type { Command } from '../../../app/core/run/command/command.ts';
import { Button } from '../../ui/parts/button.tsx';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { onText } from '../../../app/core/words/interval.ts';
import { count, spaced } from '../../../app/core/words/phrase.ts';
import { spanText } from '../../../app/core/words/time/reading.ts';
import { repText } from '../../../app/core/words/rep.ts';
import type { DeskTools } from '../desk-tools.ts';
import { LaneAction, LaneButton, LaneInOut } from './lane-buttons.tsx';
import { SidePanel } from '../panel/panel.tsx';
import styles from '../panel/panel.module.css';

interface LanePanelProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  readonly number: number;
  onMark(): void;
  onClose(): void;
}

export function LanePanel({ tools, moment, number, onMark, onClose }: LanePanelProps): ReactElement | null {
  const lane = moment.view.lanes.find((each) => each.number === number);
  if (!lane) return null;
  const { unit } = moment.view.plan.session.pool;
  const lanes = [number];
  const shared = { tools, number };
  const next = lane.next?.rep ?? null;
  const names = moment.view.plan.session.lanes.find((each) => each.number === number)?.names ?? [];
  const interval = (seconds: number): Command => ({ do: 'interval', lanes, seconds });
  return (
    <SidePanel
      title={`Lane ${number}`}
      beside={
        <>
          <Button name={`Mark lane ${number}`} label="Mark" look="small" onPress={onMark} />
          <LaneInOut {...shared} isOut={lane.state === 'out'} />
        </>
      }
      onClose={onClose}
    >
      {names.length > 0 ? <p className={styles.note}>{names.join(', ')}</p> : null}
      <Group
        title="Interval"
        now={next ? `${spaced(repText(next, unit), onText(next))}: each rep from now on` : 'nothing to come'}
      >
        <LaneButton {...shared} label="−5 s" does="−5 s a rep" command={interval(-5)} />
        <LaneButton {...shared} label="−1 s" does="−1 s a rep" command={interval(-1)} />
        <LaneButton {...shared} label="+1 s" does="+1 s a rep" command={interval(1)} />
        <LaneButton {...shared} label="+5 s" does="+5 s a rep" command={interval(5)} />
      </Group>
      <Group title="Next rep" now={next ? 'skip shortens the set, sit out keeps times' : ''}>
        <LaneAction {...shared} action="skip" label="Skip rep" />
        <LaneAction {...shared} action="sit-out" label="Sit out" />
        <LaneAction {...shared} action="repeat" label="Repeat" />
      </Group>
      <Group title="Leaves to come" now="all of them">
        <LaneAction {...shared} action="sooner" label="−5 s" hint="sooner" />
        <LaneAction {...shared} action="later" label="+5 s" hint="later" />
        <LaneButton {...shared} label="+15 s" hint="later" command={{ do: 'shift', lanes, seconds: 15 }} />
        <LaneButton {...shared} label="+1:00" hint="later" command={{ do: 'shift', lanes, seconds: 60 }} />
      </Group>
      <Group
        title="Swimmers"
        now={`${count(lane.swimmers, 'swimmer')}, ${spanText(lane.gap)} apart, from the next leave on`}
      >
        <LaneButton {...shared} label="One fewer" command={{ do: 'swimmers', lanes, n: lane.swimmers - 1 }} />
        <LaneButton {...shared} label="One more" command={{ do: 'swimmers', lanes, n: lane.swimmers + 1 }} />
        <LaneButton {...shared} label="5 s apart" command={{ do: 'gap', lanes, seconds: 5 }} />
        <LaneButton {...shared} label="10 s apart" command={{ do: 'gap', lanes, seconds: 10 }} />
      </Group>
    </SidePanel>
  );
}

interface GroupProps {
  readonly title: string;
  readonly now: string;
  readonly children: ReactNode;
}

function Group({ title, now, children }: GroupProps): ReactElement {
  return (
    <fieldset className={styles.group}>
      <legend>
        {title} {now === '' ? null : <span className={styles.note}>{now}</span>}
      </legend>
      <div className={styles.buttons}>{children}</div>
    </fieldset>
  );
}
