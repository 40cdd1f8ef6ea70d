/*
 * A session rehearsed: the wall as swimmers would see it, at the coach's speed, with the buttons and keys of a run. It
 * leaves no record, and no other screen knows of it.
 */

import { useState, type ReactElement } from 'react';
import { useStore } from 'zustand';
import type { LaneView } from '../../../app/core/run/view.ts';
import { readingPast } from '../../../app/core/words/time/reading.ts';
import { clockTime } from '../../../app/core/words/time/time-of-day.ts';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { useDrawn, useMoment, useOffer } from '../../ui/coach/use-deck.ts';
import { Button } from '../../ui/parts/button.tsx';
import { Select } from '../../ui/parts/select.tsx';
import { keyOf } from '../actions/keys/keys.ts';
import { ActionBar } from '../actions/action-bar.tsx';
import { FeedbackBar } from '../actions/feedback-bar.tsx';
import { MarkPanel } from '../actions/mark-panel.tsx';
import { laneOfKey, useRunKeys } from '../actions/keys/use-run-keys.ts';
import type { DeskTools } from '../desk-tools.ts';
import { LanePanel } from '../lanes/lane-panel.tsx';
import { LaneButtons } from '../lanes/lane-buttons.tsx';
import { Outline } from '../outline/outline.tsx';
import type { Panel } from '../panel/panel.tsx';
import { Part, StopButton } from '../panel/part.tsx';
import { BEGINNING, placesIn, type Place } from './places.ts';
import { SOUNDING_SPEED, SPEEDS, type Pace, type RehearsalTools } from './rehearsal-tools.ts';
import { RehearsalWall } from './rehearsal-wall.tsx';
import pageStyles from '../panel/page.module.css';
import styles from './rehearsal.module.css';

interface RehearsalProps {
  readonly own: RehearsalTools;
  onLeave(): void;
}

export function Rehearsal({ own, onLeave }: RehearsalProps): ReactElement | null {
  const { tools } = own;
  const moment = useMoment(tools.frames);
  const { speed, paused } = useStore(own.pace);
  const [place, setPlace] = useState<Place>(BEGINNING);
  const [panel, setPanel] = useState<Panel | null>(null);
  const places = usePlaces(moment);
  const beginAt = (next: Place): void => {
    setPlace(next);
    setPanel(null);
    own.begin(next.from);
  };
  const openPanel = (next: Panel | null): void => {
    if (next?.kind === 'edit') return tools.actions.say('Leave the rehearsal to change the text.', 'refused');
    if (next?.kind === 'screens') return tools.actions.say('Leave the rehearsal to change a screen.', 'refused');
    setPanel(next);
  };
  useRunKeys(tools, panel, openPanel, onLeave);
  if (!moment) return null;
  return (
    <main className={`${pageStyles.page} ${styles.rehearsal}`} aria-label="Rehearsal: no screen at the pool shows it">
      <header className={styles.head}>
        <h1 tabIndex={-1} ref={giveKeyboard}>
          Rehearsal
        </h1>
        <SessionTime tools={tools} />
        <div className={styles.speeds} role="group" aria-label="Speed">
          {SPEEDS.map((each) => (
            <Button
              key={each}
              name={`${each} times the speed`}
              label={`${each} ×`}
              look="small"
              pressed={each === speed}
              onPress={() => own.go({ speed: each })}
            />
          ))}
          <Button name={paused ? 'Go on' : 'Pause'} look="small" onPress={() => own.go({ paused: !paused })} />
        </div>
        <Select
          className={styles.from}
          label="From"
          value={place.choice}
          choices={places}
          onChange={(choice) => beginAt(places.find((each) => each.choice === choice) ?? BEGINNING)}
        />
        <Button name="Begin again" look="small" onPress={() => beginAt(place)} />
        <Button name="Leave the rehearsal" hint="Esc" keys="Escape" look="small" onPress={onLeave} />
      </header>
      <RehearsalWall link={tools.link} words={wallWords({ speed, paused })} />
      <RehearsedLanes tools={tools} moment={moment} panel={panel} setPanel={setPanel} />
      <Part tools={tools} name="The line above the actions" area="feedback">
        <FeedbackBar
          tools={tools}
          moment={moment}
          onMark={() => setPanel({ kind: 'mark', lanes: tools.actions.chosen() })}
          onEdit={() => openPanel({ kind: 'edit' })}
        />
      </Part>
      {moment.view.phase === 'done' ? (
        <p className={styles.done}>The session is over. Begin again, from any part, or leave the rehearsal.</p>
      ) : (
        <Part tools={tools} name="The row of actions" area="actions" instead={<StopButton tools={tools} />}>
          <ActionBar tools={tools} moment={moment} />
        </Part>
      )}
    </main>
  );
}

/** So that it is said, and no control of the page that is hidden now hears a key. */
function giveKeyboard(heading: HTMLElement | null): void {
  heading?.focus();
}

function SessionTime({ tools }: { readonly tools: DeskTools }): ReactElement {
  const time = useDrawn(tools.frames, timeText);
  return <span className={styles.time} ref={time} />;
}

interface RehearsedLanesProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  readonly panel: Panel | null;
  setPanel(panel: Panel | null): void;
}

/** Below each other: the lanes, or the panel that is open, and the outline. */
function RehearsedLanes({ tools, moment, panel, setPanel }: RehearsedLanesProps): ReactElement {
  const chosen = useOffer(tools.offers, (offers) => offers.chosen());
  const keyed = laneOfKey(moment.view, chosen);
  const close = (): void => setPanel(null);
  const open = panel?.kind === 'lane' ? panel.lane : null;
  return (
    <aside className={`${pageStyles.card} ${pageStyles.scrolls} ${styles.side}`} aria-label="Lanes and session">
      {open !== null ? (
        <LanePanel
          tools={tools}
          moment={moment}
          number={open}
          onMark={() => setPanel({ kind: 'mark', lanes: [open] })}
          onClose={close}
        />
      ) : panel?.kind === 'mark' ? (
        <MarkPanel tools={tools} moment={moment} lanes={panel.lanes} onClose={close} />
      ) : (
        <>
          {moment.view.lanes.map((lane) => (
            <RehearsedLane
              key={lane.number}
              tools={tools}
              moment={moment}
              lane={lane}
              chosen={chosen.includes(lane.number)}
              keyed={lane.number === keyed}
              onMore={() => setPanel({ kind: 'lane', lane: lane.number })}
            />
          ))}
          <Part tools={tools} name="The session">
            <Outline tools={tools} moment={moment} />
          </Part>
        </>
      )}
    </aside>
  );
}

interface RehearsedLaneProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  readonly lane: LaneView;
  readonly chosen: boolean;
  readonly keyed: boolean;
  onMore(): void;
}

/** What it swims stands on the wall beside it. */
function RehearsedLane({ tools, moment, lane, chosen, keyed, onMore }: RehearsedLaneProps): ReactElement {
  const name = `Lane ${lane.number}`;
  return (
    <div className={styles.lane} role="group" aria-label={name}>
      <Button
        name={name}
        label={lane.number}
        pressed={chosen}
        keys={keyOf(lane.number)}
        onPress={() => tools.actions.toggle(lane.number)}
      />
      <LaneButtons tools={tools} moment={moment} lane={lane} open={false} keyed={keyed} onMore={onMore} />
    </div>
  );
}

/** Of the session as written, before anything has been done to it. */
function usePlaces(moment: RunMoment | null): readonly Place[] {
  const [known, setKnown] = useState<readonly Place[] | null>(null);
  if (known === null && moment?.run.commands.length === 0) setKnown(placesIn(moment.view));
  return known ?? ONLY_BEGINNING;
}

const ONLY_BEGINNING = [BEGINNING];

function timeText(moment: RunMoment | null): string {
  if (!moment) return '';
  const { run, view } = moment;
  return `${readingPast(view.t)} since it began, ${clockTime(run.openedAtTimeOfDay + view.t)} by the clock`;
}

function wallWords({ speed, paused }: Pace): string {
  const pace = paused ? 'paused' : speed === SOUNDING_SPEED ? 'at its own speed' : `${speed} times the speed, silent`;
  return `Rehearsal, ${pace}: no screen at the pool shows this`;
}
