/*
 * The remote: the clock, the next leaves of all lanes or of one chosen lane, and buttons for one thumb. The big button
 * is always for all lanes; the chosen lane's own buttons are above it.
 */

import { useEffect, useState, type ReactElement } from 'react';
import type { Command } from '../../app/core/run/command/command.ts';
import type { ClockChoice } from '../../app/core/run/readings.ts';
import type { RunView } from '../../app/core/run/view.ts';
import { DO_NOT_LEAVE, offText } from '../ui/clock-words.ts';
import { keepAwake, type AwakePorts } from '../ui/awake.ts';
import { Clock } from '../ui/coach/clock.tsx';
import { Button } from '../ui/parts/button.tsx';
import type { RunMoment } from '../ui/coach/frames.ts';
import { commandNamed } from '../ui/coach/commands/action-list.ts';
import { FeedbackLine } from '../ui/coach/feedback/feedback-line.tsx';
import { ownStorage } from '../ui/coach/own-storage.ts';
import { useDeck, useDigits, useDrawn, useActions, useMoment } from '../ui/coach/use-deck.ts';
import { Region } from '../ui/region.tsx';
import { nextLeaveOf } from './next-leave.ts';
import { RemoteActions, type Opened, type RemoteTools } from './remote-actions.tsx';
import { feltTaps } from './felt-taps.ts';
import styles from './remote.module.css';

const LOST = 'The link is lost';
const NO_STOP = 'this phone stops nobody now. Use the coach’s window, or call out.';

const LANE_KEY = 'lanecall.remote.lane';

/** Each run begins with all lanes and the few actions: a lane chosen in the last run is not kept. */
export function Remote({ tools, awake }: { readonly tools: RemoteTools; readonly awake?: AwakePorts }): ReactElement {
  const [isAwake, setAwake] = useState(true);
  useEffect(() => (awake ? keepAwake(awake, setAwake) : undefined), [awake]);
  const status = useDeck(tools.link, (state) => state.status);
  const fault = useDeck(tools.link, (state) => state.faults[0]);
  const moment = useMoment(tools.frames);
  if (!moment) {
    const waits = fault === undefined && status === 'live';
    return (
      <main className={styles.empty}>
        <p>{waits ? 'Waiting for a session.' : (fault ?? 'Looking for the program…')}</p>
        {waits ? <p>Run one in the coach’s window.</p> : null}
      </main>
    );
  }
  return <RemoteOfRun key={moment.run.id} tools={tools} moment={moment} lost={status === 'lost'} isAwake={isAwake} />;
}

type RunProps = Omit<PartProps, 'lane'> & { readonly lost: boolean; readonly isAwake: boolean };

function RemoteOfRun({ tools, moment, lost, isAwake }: RunProps): ReactElement {
  const run = moment.run.id;
  const [kept, setKept] = useState(() => keptLane(run));
  const [opened, setOpened] = useState<Opened>('few');
  // The end closes the rarer actions, not the times.
  const more = opened === 'times' || (opened === 'more' && moment.view.phase !== 'done');
  // The lane may not be in this session.
  const lane = moment.view.lanes.some(({ number }) => number === kept) ? kept : null;
  const choose = (next: number | null): void => {
    setKept(next);
    ownStorage()?.setItem(LANE_KEY, next === null ? '' : `${next} ${run}`);
  };
  return (
    <main
      className={`${styles.whole} ${more ? styles.isMore : ''} ${lost ? styles.isLost : ''}`}
      onPointerDownCapture={lost ? undefined : feltTaps}
    >
      <h1 className="hidden">Lanecall remote</h1>
      <Region name="The head" advice={ADVICE} link={tools.link}>
        <Head tools={tools} moment={moment} lane={lane} />
      </Region>
      <Region name="The lanes" advice={ADVICE} link={tools.link}>
        <Lanes tools={tools} moment={moment} lane={lane} onLane={choose} />
      </Region>
      <Region name="The sentence after a command" advice={ADVICE} link={tools.link}>
        <RemoteFeedback tools={tools} lost={lost} isAwake={isAwake} />
      </Region>
      <Region name="The row of actions" advice={ADVICE} link={tools.link} instead={<StopAlone tools={tools} />}>
        <RemoteActions tools={tools} moment={moment} lane={lane} onOpened={setOpened} />
      </Region>
    </main>
  );
}

const ADVICE = 'Leaves and tones go on. Draw it again, or load the page again.';

/** Stop for all lanes, in place of the buttons if those could not be drawn. */
function StopAlone({ tools }: { readonly tools: RemoteTools }): ReactElement {
  return <Button name="Stop" hint="all lanes" look="primary stop" onPress={() => void tools.actions.act('stop', [])} />;
}

interface PartProps {
  readonly tools: RemoteTools;
  readonly moment: RunMoment;
  /** The chosen lane; null for all. */
  readonly lane: number | null;
}

function Head({ tools, moment, lane }: PartProps): ReactElement {
  const { frames, actions } = tools;
  const clock = useActions(actions, (state) => state.clock);
  const leave = useDigits(frames, (at) => (at ? nextLeaveOf(at.view, lane, clock).leave : ''));
  const left = useDrawn(frames, (at) => (at ? nextLeaveOf(at.view, lane, clock).left : ''));
  const { view } = moment;
  const next = nextLeaveOf(view, lane, clock);
  return (
    <header className={styles.head}>
      <div className={styles.row}>
        <Clock frames={frames} choice={clock} />
        <p className={styles.for}>{lane === null ? 'All lanes' : `Lane ${lane}`}</p>
      </div>
      <p className={styles.what}>{next.what === '' ? view.stretch.part : next.what}</p>
      <div className={styles.row}>
        <span className={styles.leave} role="group" aria-label="Next leave" ref={leave} />
        <span className={styles.left} ref={left} />
      </div>
    </header>
  );
}

/** A tap on a lane chooses it; a second tap goes back to all lanes. */
function Lanes(props: PartProps & { onLane(lane: number | null): void }): ReactElement | null {
  const { tools, moment, lane, onLane } = props;
  const { lanes } = moment.view;
  if (lanes.length < 2) return null;
  return (
    <div
      className={`${styles.lanes} ${lanes.length > 6 ? styles.isMany : ''}`}
      role="group"
      aria-label="Lane to look after"
    >
      {lanes.map((each) => (
        <Button
          key={each.number}
          name={`Lane ${each.number}`}
          label={each.number}
          hint={<LaneHint tools={tools} lane={each.number} />}
          look="small"
          className={each.state === 'stopped' ? styles.isStopped : undefined}
          pressed={each.number === lane}
          onPress={() => onLane(each.number === lane ? null : each.number)}
        />
      ))}
    </div>
  );
}

/** Drawn on each frame, as the head is: the seconds of the two change together. */
function LaneHint({ tools, lane }: Omit<PartProps, 'moment' | 'lane'> & { readonly lane: number }): ReactElement {
  const clock = useActions(tools.actions, (state) => state.clock);
  return (
    <>
      <span ref={useDrawn(tools.frames, (at) => (at ? nextLeaveOf(at.view, lane, clock).leave : ''))} />
      <span
        className={styles.lanesLeft}
        ref={useDrawn(tools.frames, (at) => (at ? leftText(at.view, lane, clock) : ''))}
      />
    </>
  );
}

/** ", in 22 s" or, of a talk or break, " left", behind the reading. */
function leftText(view: RunView, lane: number, clock: ClockChoice): string {
  const { left } = nextLeaveOf(view, lane, clock);
  // What is waited for stands in the head, and there is no room for it here on the smallest phones.
  if (left === '' || view.phase === 'waiting') return '';
  return view.pauseEnd === null ? `, ${left}` : ` ${left}`;
}

interface FeedbackProps {
  readonly tools: RemoteTools;
  readonly lost: boolean;
  readonly isAwake: boolean;
}

const SLEEPS = 'This phone may fall asleep: switch its sleep off in its own settings.';

function RemoteFeedback({ tools, lost, isAwake }: FeedbackProps): ReactElement {
  const underWay = useActions(tools.actions, (state) => state.underWay);
  useActions(tools.actions, (state) => state.feedback);
  const feedback = tools.actions.feedback();
  const lostSince = useDeck(tools.link, (state) => state.lostSince);
  const clock = useDeck(tools.link, (state) => state.clockQuality);
  const isPoor = clock?.quality === 'poor';
  // A sentence since the link was lost is about a command that the host may not have got.
  const since = feedback && lostSince !== null && feedback.at >= lostSince ? feedback.text : null;
  const isLate = useLate(underWay);
  const sent = underWay && !lost ? `${commandNamed(underWay)}: being sent${isLate ? ', no answer yet' : ''}` : null;
  const said = lost ? lostText(since) : (sent ?? feedback?.text ?? (isPoor ? offText(clock) : null));
  const line = isPoor ? `${DO_NOT_LEAVE}. ${said}` : said;
  const kind =
    lost || isPoor || (isLate && sent !== null) ? 'refused' : sent === null ? (feedback?.kind ?? 'done') : 'done';
  const otherwise = clock?.quality === 'fair' ? 'Clock: fair' : isAwake ? '' : SLEEPS;
  return (
    <FeedbackLine
      feedback={line === null ? null : { text: line, kind, ...(feedback && sent === null ? { n: feedback.n } : {}) }}
      otherwise={otherwise}
      className={styles.feedback}
    />
  );
}

/** In ms: a host in reach has answered by then. */
const ANSWERS_IN = 1000;

/** Whether this command has waited for its answer for longer than that. */
function useLate(underWay: Command | null): boolean {
  const [late, setLate] = useState<Command | null>(null);
  useEffect(() => {
    if (!underWay) return undefined;
    const timer = setTimeout(() => setLate(underWay), ANSWERS_IN);
    return () => clearTimeout(timer);
  }, [underWay]);
  return underWay !== null && late === underWay;
}

/** `since`: what was said of a command that was given meanwhile. */
function lostText(since: string | null): string {
  return since === null ? `${LOST}: ${NO_STOP}` : `${LOST}. ${since}`;
}

/** The lane that was chosen in this run before the page was loaded again. */
function keptLane(run: string): number | null {
  const [lane, of] = (ownStorage()?.getItem(LANE_KEY) ?? '').split(' ');
  return of === run ? Number(lane) : null;
}
