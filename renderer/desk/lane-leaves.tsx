/*
 * The next leaves of all lanes in a narrow strip: what stays in sight while the coach writes.
 */

import type { ReactElement } from 'react';
import type { ClockChoice } from '../../app/core/run/readings.ts';
import type { RunView } from '../../app/core/run/view.ts';
import type { Moment } from '../ui/coach/frames.ts';
import { useDigits, useDrawn, useHand, type Tools } from '../ui/coach/use-deck.ts';
import { inByText, inText, leaveText } from '../ui/coach/words.ts';

interface LaneLeavesProps {
  readonly tools: Tools;
  readonly moment: Moment;
}

export function LaneLeaves({ tools, moment }: LaneLeavesProps): ReactElement {
  return (
    <section className="leaves-place" aria-label="Next leaves">
      <ul className="leaves" role="list">
        {moment.view.lanes.map(({ number, state }) => (
          <LaneLeave key={number} tools={tools} number={number} state={state} />
        ))}
      </ul>
    </section>
  );
}

interface LaneLeaveProps {
  readonly tools: Tools;
  readonly number: number;
  readonly state: string;
}

function LaneLeave({ tools, number, state }: LaneLeaveProps): ReactElement {
  const clock = useHand(tools.hand, (hand) => hand.clock);
  const leave = useDigits(tools.frames, (at) => (at ? leaveOf(at.view, number, clock) : ''));
  const left = useDrawn(tools.frames, (at) => (at ? leftOf(at.view, number) : ''));
  return (
    <li className={`leaves-lane is-${state}`}>
      <span className="hidden">Lane </span>
      <b>{number}</b>
      <span className="leaves-leave" ref={leave} />
      <span className="leaves-left" ref={left} />
    </li>
  );
}

/** The reading of a lane's next leave, or the word that stands in its place. */
function leaveOf(view: RunView, number: number, clock: ClockChoice): string {
  const lane = view.lanes.find((each) => each.number === number);
  switch (lane?.state) {
    case undefined:
      return '';
    case 'out':
    case 'stopped':
      return lane.state;
    case 'finished':
      return inByText(view, lane, clock);
    case 'absent':
      return view.pauseEnd === null ? '–' : view.stretch.kind;
    case 'pending':
      return lane.next && lane.next.at !== null ? leaveText(clock, view, lane.next.at) : 'waits';
  }
}

function leftOf(view: RunView, number: number): string {
  const lane = view.lanes.find((each) => each.number === number);
  return lane?.state === 'pending' && lane.next && lane.next.at !== null ? inText(lane.next.at - view.t) : '';
}
