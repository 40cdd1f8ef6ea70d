/*
 * The remote: clock, next leave of the lane it looks after or of all, and seven actions for one thumb.
 */

import { useState, type ReactElement } from 'react';
import { currentStretch } from '../../app/core/run/state.ts';
import { ACTIONS, commandLabel, commandOf, type ActionName } from '../ui/coach/actions.ts';
import { Clock } from '../ui/coach/clock.tsx';
import { DeckButton } from '../ui/coach/deck-button.tsx';
import type { Moment } from '../ui/coach/frames.ts';
import { primaryOf, refusalOf } from '../ui/coach/offers.ts';
import { ownStorage } from '../ui/coach/own-storage.ts';
import { useDeck, useDigits, useDrawn, useHand, useMoment, type Tools } from '../ui/coach/use-deck.ts';
import { nextLeaveOf } from './next-leave.ts';

const LANE_KEY = 'lanecall.remote.lane';

export function Remote({ tools }: { readonly tools: Tools }): ReactElement {
  const status = useDeck(tools.link, (state) => state.status);
  const fault = useDeck(tools.link, (state) => state.faults[0]);
  const moment = useMoment(tools.frames);
  const [kept, setKept] = useState(keptLane);
  if (!moment) {
    const none = status === 'live' ? 'Waiting for a session.' : 'Looking for the host…';
    return <p className="remote-empty">{fault ?? none}</p>;
  }
  // A lane that this session does not have is not looked after.
  const lane = moment.view.lanes.some(({ number }) => number === kept) ? kept : null;
  const choose = (next: number | null): void => {
    setKept(next);
    ownStorage()?.setItem(LANE_KEY, next === null ? '' : `${next}`);
  };
  return (
    <main className="remote">
      <h1 className="hidden">Lanecall remote</h1>
      <Head tools={tools} moment={moment} lane={lane} onLane={choose} />
      <Said tools={tools} lost={status === 'lost'} />
      <Buttons tools={tools} moment={moment} lane={lane} />
    </main>
  );
}

interface PartProps {
  readonly tools: Tools;
  readonly moment: Moment;
  /** Looked after; null for all. */
  readonly lane: number | null;
}

function Head({ tools, moment, lane, onLane }: PartProps & { onLane(lane: number | null): void }): ReactElement {
  const { frames, hand } = tools;
  const clock = useHand(hand, (state) => state.clock);
  const leave = useDigits(frames, (at) => (at ? nextLeaveOf(at.view, lane, clock).leave : ''));
  const left = useDrawn(frames, (at) => (at ? nextLeaveOf(at.view, lane, clock).left : ''));
  const { view } = moment;
  const next = nextLeaveOf(view, lane, clock);
  return (
    <header className="remote-head">
      <div className="remote-row">
        <Clock frames={frames} choice={clock} />
        <label className="remote-lane">
          <span className="hidden">Lane to look after</span>
          <select
            value={lane === null ? '' : `${lane}`}
            onChange={(event) => onLane(event.target.value === '' ? null : Number(event.target.value))}
          >
            <option value="">All lanes</option>
            {view.lanes.map(({ number }) => (
              <option key={number} value={number}>
                Lane {number}
              </option>
            ))}
          </select>
        </label>
      </div>
      <p className="remote-what">{next.what === '' ? currentStretch(view.state).part : next.what}</p>
      <div className="remote-row">
        <span className="remote-leave" role="group" aria-label="Next leave" ref={leave} />
        <span className="remote-left" ref={left} />
      </div>
    </header>
  );
}

function Said({ tools, lost }: { readonly tools: Tools; readonly lost: boolean }): ReactElement {
  useHand(tools.hand, (state) => state.said);
  const said = tools.hand.said();
  if (lost)
    return (
      <p className="said-text is-refused" role="status">
        The link to the host is lost: it is being sought.
      </p>
    );
  return (
    <p className={`said-text is-${said?.kind ?? 'none'}`} role="status">
      {said?.text ?? ''}
    </p>
  );
}

function Buttons({ tools, moment, lane }: PartProps): ReactElement {
  const lanes = lane === null ? [] : [lane];
  const primary = primaryOf(moment.view, lanes);
  const { undo, t } = moment.view;
  const whole = primary === 'stop' && lane === null;
  return (
    <nav className="remote-buttons" aria-label="Actions">
      <RemoteButton tools={tools} moment={moment} action="skip" lanes={lanes} hint={ACTIONS.skip.does} />
      <RemoteButton tools={tools} moment={moment} action="sit-out" lanes={lanes} hint={ACTIONS['sit-out'].does} />
      <RemoteButton tools={tools} moment={moment} action="later" lanes={lanes} />
      <RemoteButton
        tools={tools}
        moment={moment}
        action="undo"
        lanes={[]}
        hint={undo ? `${commandLabel(undo.command)}, ${Math.ceil((undo.until - t) / 1000)} s` : undefined}
      />
      <RemoteButton
        tools={tools}
        moment={moment}
        action={primary}
        lanes={primary === 'start' || primary === 'finish' ? [] : lanes}
        look={`is-primary is-${primary}`}
        hint={whole ? 'all lanes' : primary === 'finish' ? 'hold' : undefined}
      />
    </nav>
  );
}

interface RemoteButtonProps {
  readonly tools: Tools;
  readonly moment: Moment;
  readonly action: ActionName;
  readonly lanes: readonly number[];
  readonly hint?: string | undefined;
  readonly look?: string;
}

function RemoteButton({ tools, moment, action, lanes, hint, look }: RemoteButtonProps): ReactElement {
  return (
    <DeckButton
      name={ACTIONS[action].label}
      hint={hint}
      look={look}
      held={ACTIONS[action].pressed}
      why={refusalOf(moment.view.state, commandOf(action, lanes), moment.view.t)}
      onPress={() => void tools.hand.act(action, lanes)}
      onRefused={(why) => tools.hand.say(why, 'refused')}
    />
  );
}

function keptLane(): number | null {
  const kept = ownStorage()?.getItem(LANE_KEY) ?? '';
  return /^\d{1,2}$/.test(kept) ? Number(kept) : null;
}
