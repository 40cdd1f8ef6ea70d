/*
 * The remote's buttons: few and big, with the rarer ones one tap away in the same place. The lowest button is for all
 * lanes and never moves.
 */

import { useState, type ReactElement, type ReactNode } from 'react';
import type { ClockChoice } from '../../app/core/run/readings.ts';
import type { LaneView, RunView } from '../../app/core/run/view.ts';
import { ACTION_NAMES, ACTIONS, commandNamed, commandOf, type ActionName } from '../ui/coach/commands/action-list.ts';
import { CommandButton } from '../ui/coach/commands/command-button.tsx';
import { Button, type Look } from '../ui/parts/button.tsx';
import type { RunMoment } from '../ui/coach/frames.ts';
import type { Primary, Steering } from '../ui/coach/commands/primary.ts';
import { undoText } from '../ui/coach/commands/offers.ts';
import type { Refusal } from '../ui/coach/commands/refusal.ts';
import { useActions, useOffer, type Tools } from '../ui/coach/use-deck.ts';
import { lanesOrAll } from '../../app/core/words/lanes.ts';
import { secondsLeft } from '../../app/core/words/time/reading.ts';
import { goesText, leaveText, startNowText, startText } from '../ui/coach/feedback/words.ts';
import { RemoteTouches } from './touches.tsx';
import styles from './remote.module.css';

const FEW = ACTION_NAMES.filter((name) => ACTIONS[name].remote === 'few');
const MORE = ACTION_NAMES.filter((name) => ACTIONS[name].remote === 'more');

const NOT_OWN = 'That was done on another screen: undo it there, or in the coach’s window.';

export interface RemoteTools extends Tools {
  /** Whether the host lets this remote undo only what it has done itself: one that was let in from the network. */
  readonly undoesOwnOnly?: boolean;
}

/** Which actions stand in the one place that they share. After the end, 'more' means the last actions too. */
export type Opened = 'few' | 'more' | 'times';

interface RemoteActionsProps {
  readonly tools: RemoteTools;
  readonly moment: RunMoment;
  /** The chosen lane; null for all. */
  readonly lane: number | null;
  /** Called with what is open from now on. */
  onOpened?(opened: Opened): void;
}

export function RemoteActions(props: RemoteActionsProps): ReactElement {
  const [opened, setOpened] = useState<Opened>('few');
  const isDone = props.moment.view.phase === 'done';
  const open = (next: Opened): void => {
    setOpened(next);
    props.onOpened?.(next);
  };
  return (
    <nav className={styles.buttons} aria-label="Actions">
      {opened === 'times' ? (
        <RemoteTouches {...props} onBack={() => open(isDone ? 'few' : 'more')} />
      ) : isDone ? (
        <LastActions {...props} onTimes={() => open('times')} />
      ) : opened === 'more' ? (
        <MoreActions {...props} onTimes={() => open('times')} onBack={() => open('few')} />
      ) : (
        <FewActions {...props} onOpen={() => open('more')} />
      )}
      <SteeringActions {...props} more={opened !== 'few'} />
    </nav>
  );
}

function FewActions({ tools, moment, lane, onOpen }: RemoteActionsProps & { onOpen(): void }): ReactElement {
  const lanes = lane === null ? [] : [lane];
  const whyNoUndo = useOffer(tools.offers, ({ whyNot }) => whyNot({ do: 'undo' }));
  const { undo } = moment.view;
  const mayUndo = !tools.undoesOwnOnly || undo === null || tools.actions.gave(undo.at);
  const shared = { tools };
  return (
    <div className={styles.grid}>
      {FEW.map((action) => (
        <RemoteButton key={action} {...shared} action={action} lanes={lanes} hint={doesText(moment, action, lane)} />
      ))}
      {mayUndo ? (
        <RemoteButton {...shared} action="undo" lanes={[]} hint={undoHint(moment.view, whyNoUndo)} />
      ) : (
        <Button
          name="Undo"
          hint="of this phone’s only"
          why={NOT_OWN}
          onPress={() => undefined}
          onRefused={(why) => tools.actions.say(why, 'refused')}
        />
      )}
      <Button name="More" hint="repeat, move on …" onPress={onOpen} />
    </div>
  );
}

/** After the end nothing is left to skip or move: the last touches, a mark, and Undo for as long as it can take the end back. */
function LastActions({ tools, moment, lane, onTimes }: RemoteActionsProps & { onTimes(): void }): ReactElement {
  const whyNoUndo = useOffer(tools.offers, ({ whyNot }) => whyNot({ do: 'undo' }));
  const { undo } = moment.view;
  const undoes = undo !== null && whyNoUndo === null && (!tools.undoesOwnOnly || tools.actions.gave(undo.at));
  const shared = { tools };
  return (
    <div className={`${styles.grid} ${undoes ? '' : styles.isTwo}`}>
      {undoes ? <RemoteButton {...shared} action="undo" lanes={[]} hint={undoHint(moment.view, whyNoUndo)} /> : null}
      <RemoteButton
        {...shared}
        action="mark"
        lanes={lane === null ? [] : [lane]}
        hint={doesText(moment, 'mark', lane)}
      />
      <Button name="Times" hint="by hand" onPress={onTimes} />
    </div>
  );
}

/** Once a command has been accepted, the few come back. */
function MoreActions(props: RemoteActionsProps & { onTimes(): void; onBack(): void }): ReactElement {
  const { tools, moment, lane, onTimes, onBack } = props;
  const lanes = lane === null ? [] : [lane];
  const shared = { tools, onDone: onBack };
  return (
    <div className={`${styles.grid} ${styles.isMore}`}>
      {MORE.map((action) => (
        <RemoteButton
          key={action}
          {...shared}
          action={action}
          lanes={ACTIONS[action].byChoice ? lanes : []}
          hint={doesText(moment, action, lane)}
        />
      ))}
      <Button name="Times" hint="by hand" onPress={onTimes} />
      <Button name="Back" onPress={onBack} />
    </div>
  );
}

/** The big button for all lanes at the bottom; above it what is offered beside it, and the chosen lane's Stop. */
function SteeringActions({ tools, moment, lane, more }: RemoteActionsProps & { readonly more: boolean }): ReactElement {
  const clock = useActions(tools.actions, (state) => state.clock);
  const offered = useOffer(tools.offers, (offers) => offers.primary());
  const main = offered.main === 'finish' ? null : offered.main;
  const beside = offered.beside.filter((action) => action !== 'finish');
  const looked = moment.view.lanes.find(({ number }) => number === lane);
  const shared = { tools };
  // Not while the rarer actions are open: with ten lanes there is no room for both.
  const own = looked && !more ? laneSteering(looked) : [];
  const goes = (at: number | null): string =>
    at === null ? 'nothing left' : `goes ${leaveText(clock, moment.view, at)}`;
  return (
    <>
      {beside.length + own.length === 0 ? null : (
        <div className={styles.beside}>
          {beside.map((action) => (
            <RemoteButton
              key={action}
              {...shared}
              action={action}
              lanes={[]}
              name={action === 'start' ? 'Start now' : undefined}
              hint={besideHint(moment.view, action, clock)}
            />
          ))}
          {own.map((action) => (
            <RemoteButton
              key={`own ${action}`}
              {...shared}
              action={action}
              lanes={[lane ?? 0]}
              name={`${ACTIONS[action].label} lane ${lane}`}
              look={action === 'resume' ? 'go' : undefined}
              hint={
                action === 'stop'
                  ? undefined
                  : goes((action === 'resume' ? looked?.resumeAt : looked?.rejoinAt) ?? null)
              }
            />
          ))}
        </div>
      )}
      {main === null ? (
        <p className={styles.none}>{noneText(moment.view, offered)}</p>
      ) : (
        <RemoteButton
          {...shared}
          action={main}
          lanes={[]}
          look={`primary ${main}`}
          hint={mainHint(moment.view, main, clock)}
        />
      )}
    </>
  );
}

/** "all lanes", and of Start and Resume when that would be: "all lanes, in 14 s: 4 x 50 fast". */
function mainHint(view: RunView, main: Steering, clock: ClockChoice): string {
  const when = main === 'start' ? startText(view) : goesText(view, main, clock);
  return ['all lanes', when].filter((text) => text !== '').join(', ');
}

/** In place of the big button. A remote does not end the session. */
function noneText({ phase }: RunView, { main, beside }: Primary): string {
  if (phase === 'done') return 'The session is done.';
  if (main === 'finish') return 'Finish in the coach’s window.';
  return beside.includes('finish') ? 'Nothing more leaves.' : '';
}

/** A lane's own Stop, or Resume and Rejoin; none if it is out or has nothing to come. */
function laneSteering({ state }: LaneView): readonly Steering[] {
  if (state === 'stopped') return ['resume', 'rejoin'];
  return state === 'pending' ? ['stop'] : [];
}

/** What it does and to which lanes, or that it is held. In a talk or break, what it does to its end. */
function doesText({ view }: RunMoment, action: ActionName, lane: number | null): ReactNode {
  const { pressed, does } = ACTIONS[action];
  if (pressed) return heldHint(action);
  if (action !== 'sooner' && action !== 'later') return <WhoDoes lane={lane} does={`: ${does}`} />;
  if (view.pauseEnd === null) return <WhoDoes lane={lane} does={` ${does}`} />;
  return `${view.stretch.kind} ${action === 'sooner' ? 'shorter' : 'longer'}`;
}

/** "lane 5: the set gets shorter"; on the smallest phones "lane 5". */
function WhoDoes({ lane, does }: { readonly lane: number | null; readonly does: string }): ReactElement {
  return (
    <>
      {whoText(lane)}
      <span className={styles.does}>{does}</span>
    </>
  );
}

function heldHint(action: ActionName): string {
  return `hold: ${ACTIONS[action].does}`;
}

/** What Undo would undo, with its lanes: the sentence about it may already be gone. */
function undoHint(view: RunView, whyNot: Refusal): string {
  const { undo, t } = view;
  if (!undo || whyNot !== null) return undoText(view, whyNot);
  return `${commandNamed(undo.command)}, ${secondsLeft(undo.until - t)} s left`;
}

/** For the buttons beside the big one, which are for all lanes too. */
function besideHint(view: RunView, action: Steering, clock: ClockChoice): string {
  return action === 'start' ? startNowText(view) : goesText(view, action, clock);
}

function whoText(lane: number | null): string {
  return lanesOrAll(lane === null ? [] : [lane]);
}

interface RemoteButtonProps {
  readonly tools: Tools;
  readonly action: ActionName;
  readonly lanes: readonly number[];
  readonly name?: string | undefined;
  readonly hint?: ReactNode;
  readonly look?: Look | undefined;
  onDone?(): void;
}

function RemoteButton({ action, lanes, name, hint, ...more }: RemoteButtonProps): ReactElement {
  return (
    <CommandButton
      {...more}
      command={commandOf(action, lanes)}
      name={name ?? ACTIONS[action].label}
      hint={hint === '' ? undefined : hint}
      held={ACTIONS[action].pressed}
    />
  );
}
