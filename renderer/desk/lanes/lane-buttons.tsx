/*
 * The buttons in a lane's row. On Resume and Rejoin of a stopped lane stands when it would go.
 */

import { memo, type ReactElement } from 'react';
import type { Command } from '../../../app/core/run/command/command.ts';
import type { LaneView } from '../../../app/core/run/view.ts';
import { ACTIONS, commandOf, type ActionName } from '../../ui/coach/commands/action-list.ts';
import { CommandButton } from '../../ui/coach/commands/command-button.tsx';
import { Button, type Look } from '../../ui/parts/button.tsx';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { useActions } from '../../ui/coach/use-deck.ts';
import { leaveText } from '../../ui/coach/feedback/words.ts';
import type { DeskTools } from '../desk-tools.ts';
import styles from './lane-row.module.css';

interface LaneButtonsProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  readonly lane: LaneView;
  readonly open: boolean;
  /** Whether the key L opens this lane's panel. */
  readonly keyed: boolean;
  onMore(): void;
}

export function LaneButtons({ tools, moment, lane, open, keyed, onMore }: LaneButtonsProps): ReactElement {
  const { view } = moment;
  const shared = { tools, number: lane.number };
  return (
    <div className={styles.buttons}>
      {lane.state === 'out' ? (
        <LaneInOut {...shared} isOut />
      ) : (
        <>
          {lane.state === 'stopped' ? (
            <StoppedLaneButtons tools={tools} moment={moment} lane={lane} />
          ) : (
            <LaneAction {...shared} action="stop" label="Stop" />
          )}
          <LaneAction {...shared} action="sit-out" label="Sit out" />
          {lane.state === 'stopped' || view.pauseEnd !== null ? null : (
            <>
              <LaneAction {...shared} action="sooner" label="−5 s" hint={ACTIONS.sooner.does} />
              <LaneAction {...shared} action="later" label="+5 s" hint={ACTIONS.later.does} />
            </>
          )}
        </>
      )}
      <Button
        name={`Lane ${lane.number}…`}
        hint={keyed ? 'L' : undefined}
        keys={keyed ? 'L' : undefined}
        pressed={open}
        look="small"
        onPress={onMore}
      />
    </div>
  );
}

/** Each says at which reading the lane would go. */
function StoppedLaneButtons({
  tools,
  moment,
  lane,
}: Pick<LaneButtonsProps, 'tools' | 'moment' | 'lane'>): ReactElement {
  const clock = useActions(tools.actions, (state) => state.clock);
  const { view } = moment;
  const { number, resumeAt, rejoinAt } = lane;
  const shared = { tools, number };
  const goes = (at: number | null): string => (at === null ? 'nothing left' : `goes ${leaveText(clock, view, at)}`);
  return (
    <>
      <LaneAction {...shared} action="resume" label="Resume" look="small go" hint={goes(resumeAt)} />
      <LaneAction {...shared} action="rejoin" label="Rejoin" hint={goes(rejoinAt)} />
    </>
  );
}

interface LaneActionProps {
  readonly tools: DeskTools;
  readonly number: number;
  readonly action: ActionName;
  readonly label: string;
  readonly look?: Look;
  readonly hint?: string;
}

/** An action for one lane: "Stop lane 2". */
export const LaneAction = memo(DrawnLaneAction);

function DrawnLaneAction({ number, action, ...more }: LaneActionProps): ReactElement {
  return <LaneButton {...more} number={number} command={commandOf(action, [number])} />;
}

interface LaneButtonProps {
  readonly tools: DeskTools;
  readonly number: number;
  readonly command: Command;
  readonly label: string;
  readonly look?: Look;
  readonly hint?: string;
  /** What it does, if the label does not say it all: "−5 s a rep". */
  readonly does?: string;
}

/** A command for one lane. Its name includes the lane: "+5 s a rep lane 2". */
export function LaneButton({
  tools,
  number,
  command,
  label,
  look = 'small',
  hint,
  does,
}: LaneButtonProps): ReactElement {
  return (
    <CommandButton
      tools={tools}
      command={command}
      name={`${does ?? label} lane ${number}`}
      label={label}
      hint={hint}
      look={look}
    />
  );
}

/** Takes a lane out of the session, or in again. */
export function LaneInOut({
  tools,
  number,
  isOut,
}: Pick<LaneActionProps, 'tools' | 'number'> & { readonly isOut: boolean }): ReactElement {
  return (
    <CommandButton
      tools={tools}
      command={{ do: isOut ? 'lane-in' : 'lane-out', lanes: [number] }}
      name={`Lane ${number} ${isOut ? 'in' : 'out'}`}
      look="small"
    />
  );
}
