/*
 * A lane during the run: its number to choose it by, its next leave, what that is, and what can be
 * done to this lane alone.
 */

import type { ReactElement } from 'react';
import { reading } from '../../app/core/reading.ts';
import { LEAD } from '../../app/core/run/align.ts';
import type { Command } from '../../app/core/run/command.ts';
import type { ClockChoice } from '../../app/core/run/readings.ts';
import type { LaneView, RunView } from '../../app/core/run/view.ts';
import { commandOf, type ActionName } from '../ui/coach/actions.ts';
import { DeckButton } from '../ui/coach/deck-button.tsx';
import type { Moment } from '../ui/coach/frames.ts';
import { refusalOf } from '../ui/coach/offers.ts';
import { useDigits, useDrawn, useHand } from '../ui/coach/use-deck.ts';
import { count, inByText, inText, leaveText, repOf, repText, roundText } from '../ui/coach/words.ts';
import { intervalText } from '../ui/estimates.ts';
import type { DeskTools } from './desk-tools.ts';

interface LaneRowProps {
  readonly tools: DeskTools;
  readonly moment: Moment;
  readonly lane: LaneView;
  readonly chosen: boolean;
  readonly open: boolean;
  /** Whether the key for the lane's panel opens this lane's. */
  readonly keyed: boolean;
  onMore(): void;
}

export function LaneRow({ tools, moment, lane, chosen, open, keyed, onMore }: LaneRowProps): ReactElement {
  const { hand, frames } = tools;
  const { view } = moment;
  const clock = useHand(hand, (state) => state.clock);
  const name = `Lane ${lane.number}`;
  const leave = useDigits(frames, (at) => (at ? leaveOf(at.view, lane.number, clock) : ''));
  const left = useDrawn(frames, (at) => (at ? leftOf(at.view, lane.number) : ''));
  return (
    <section className={`lane is-${standing(view, lane)}`} aria-label={name}>
      <DeckButton
        name={name}
        label={lane.number}
        look="lane-number"
        pressed={chosen}
        keys={lane.number < 10 ? `${lane.number}` : undefined}
        onPress={() => hand.toggle(lane.number)}
        onRefused={() => undefined}
      />
      <span
        className="lane-leave"
        ref={leave}
        aria-label={lane.state === 'stopped' ? undefined : 'Next leave'}
        role="group"
      />
      <div className="lane-words">
        <p className="lane-rep">
          <span className="lane-what">{repWords(view, lane)}</span>
          <span className="lane-left" ref={left} />
        </p>
        <p className="lane-more">{moreWords(view, lane, clock)}</p>
      </div>
      <div className="lane-buttons">
        {lane.state === 'out' ? (
          <LaneButton
            tools={tools}
            moment={moment}
            lane={lane}
            label="Lane in"
            command={{ do: 'lane-in', lanes: [lane.number] }}
            look="is-small"
          />
        ) : (
          <>
            {lane.state === 'stopped' ? (
              <>
                <LaneAction tools={tools} moment={moment} lane={lane} action="resume" label="Resume" look="is-go" />
                <LaneAction tools={tools} moment={moment} lane={lane} action="rejoin" label="Rejoin" />
              </>
            ) : (
              <LaneAction tools={tools} moment={moment} lane={lane} action="stop" label="Stop" />
            )}
            <LaneAction tools={tools} moment={moment} lane={lane} action="sit-out" label="Sit out" />
            {lane.state === 'stopped' || view.pauseEnd !== null ? null : (
              <>
                <LaneAction tools={tools} moment={moment} lane={lane} action="sooner" label="−5 s" />
                <LaneAction tools={tools} moment={moment} lane={lane} action="later" label="+5 s" />
              </>
            )}
          </>
        )}
        <DeckButton
          name={`${name}: On…`}
          label="On…"
          hint={keyed ? 'L' : undefined}
          keys={keyed ? 'L' : undefined}
          pressed={open}
          look="is-small"
          onPress={onMore}
          onRefused={() => undefined}
        />
      </div>
    </section>
  );
}

interface LaneActionProps {
  readonly tools: DeskTools;
  readonly moment: Moment;
  readonly lane: LaneView;
  readonly action: ActionName;
  readonly label: string;
  readonly look?: string;
}

/** An action for one lane, by the action's plain name. */
export function LaneAction({ tools, moment, lane, action, label, look }: LaneActionProps): ReactElement {
  const command = commandOf(action, [lane.number]);
  return (
    <DeckButton
      name={`Lane ${lane.number}: ${label}`}
      label={label}
      look={`is-small ${look ?? ''}`}
      why={refusalOf(moment.view.state, command, moment.view.t)}
      onPress={() => void tools.hand.act(action, [lane.number])}
      onRefused={(why) => tools.hand.say(why, 'refused')}
    />
  );
}

interface LaneButtonProps {
  readonly tools: DeskTools;
  readonly moment: Moment;
  readonly lane: LaneView;
  readonly label: string;
  /** The rest of its name, where the label is not the whole of it: "a rep". */
  readonly more?: string;
  readonly command: Command;
  readonly hint?: string | undefined;
  readonly look?: string;
  onGiven?(): void;
}

/** Any command for one lane. */
export function LaneButton({
  tools,
  moment,
  lane,
  label,
  more,
  command,
  hint,
  look,
  onGiven,
}: LaneButtonProps): ReactElement {
  return (
    <DeckButton
      name={`Lane ${lane.number}: ${label}${more ? ` ${more}` : ''}`}
      label={label}
      hint={hint}
      look={look ?? 'is-small'}
      why={refusalOf(moment.view.state, command, moment.view.t)}
      onPress={() => void tools.hand.give(command).then((ok) => (ok ? onGiven?.() : undefined))}
      onRefused={(why) => tools.hand.say(why, 'refused')}
    />
  );
}

/** How a lane looks: as it stands, with the last seconds before a leave told apart. */
function standing(view: RunView, lane: LaneView): string {
  const at = lane.next?.at ?? null;
  if (lane.state === 'pending')
    return at !== null && at - view.t <= LEAD ? 'ready' : at === null ? 'waiting' : 'pending';
  return lane.state;
}

/** The large text of a lane: the reading of its next leave, or the word that stands in its place. */
function leaveOf(view: RunView, number: number, clock: ClockChoice): string {
  const lane = view.lanes.find((each) => each.number === number);
  if (!lane) return '';
  switch (lane.state) {
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
  if (!lane || !lane.next || (lane.state !== 'pending' && lane.state !== 'stopped')) return '';
  const of = repOf(lane.next.rep);
  const rep = of === null ? '' : `, ${of}`;
  if (lane.state === 'stopped') return `${rep} next`;
  return lane.next.at === null ? rep : `${rep}, ${inText(lane.next.at - view.t)}`;
}

/** What the lane swims next; which rep of it is it and how soon stands behind, where long words cannot push it out. */
function repWords(view: RunView, lane: LaneView): string {
  const { unit } = view.state.plan.session.pool;
  if (lane.state === 'out') return 'not in the session now';
  if (view.pauseEnd !== null) return view.stretch.kind === 'talk' ? 'listens' : 'rests';
  if (lane.state === 'absent') return 'nothing in this set';
  if (!lane.next) return lane.last ? `${repText(lane.last.rep, unit)}, the last of it` : 'nothing to come';
  return repText(lane.next.rep, unit);
}

function moreWords(view: RunView, lane: LaneView, clock: ClockChoice): string {
  if (lane.state === 'out') return '';
  if (lane.state === 'stopped') {
    const resume =
      lane.resumeAt === null ? 'nothing to resume' : `resume goes ${leaveText(clock, view, lane.resumeAt)}`;
    return lane.rejoinAt === null
      ? `${resume}, rejoin leaves nothing`
      : `${resume}, rejoin goes ${leaveText(clock, view, lane.rejoinAt)}`;
  }
  const { last, next, after } = lane;
  const leaving = last !== null && last.away < last.swimmers && view.t < last.tailAt;
  if (leaving) return [leavingText(last.away, last.swimmers), ...thenText(view, after, clock)].join(', ');
  const words = [count(lane.swimmers, 'swimmer'), ...ownRound(view, lane)];
  if (next && !next.rep.set.untimed) words.push(`on ${intervalText(next.rep)}`);
  if (next && next.rep.target !== null) words.push(`hold ${reading(next.rep.target)}`);
  return [...words, ...thenText(view, after, clock)].join(', ');
}

function thenText(view: RunView, after: LaneView['after'], clock: ClockChoice): readonly string[] {
  return after && after.at !== null ? [`then ${leaveText(clock, view, after.at)}`] : [];
}

/** The lane's round where lanes are in different ones; where all are in the same it stands in the head. */
function ownRound(view: RunView, { next }: LaneView): readonly string[] {
  const own = next ? roundText(next.rounds) : null;
  const same = view.lanes.every((lane) => !lane.next || roundText(lane.next.rounds) === own);
  return own === null || same ? [] : [own];
}

function leavingText(away: number, of: number): string {
  return `leaving now: ${away} of ${of} away`;
}
