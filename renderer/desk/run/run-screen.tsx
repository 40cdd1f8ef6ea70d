/*
 * The coach's window during a run: the head, a row a lane, the outline beside them, and the actions at the bottom. Every
 * key does what a button does.
 */

import { useCallback, useEffect, useRef, useState, type ReactElement } from 'react';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { useOffer } from '../../ui/coach/use-deck.ts';
import { ActionBar } from '../actions/action-bar.tsx';
import type { DeskTools } from '../desk-tools.ts';
import { LanePanel } from '../lanes/lane-panel.tsx';
import { LaneRow } from '../lanes/lane-row.tsx';
import { MANY } from '../lanes/lane-text.ts';
import { MarkPanel } from '../actions/mark-panel.tsx';
import { RunMatch } from '../actions/match-clock.tsx';
import { Outline } from '../outline/outline.tsx';
import type { Panel } from '../panel/panel.tsx';
import { Button } from '../../ui/parts/button.tsx';
import { Part, StopButton } from '../panel/part.tsx';
import { RewriteScreen } from '../edit/rewrite-screen.tsx';
import { useTouched } from '../edit/use-touched.ts';
import { RunHead } from './run-head.tsx';
import { FeedbackBar } from '../actions/feedback-bar.tsx';
import { ScreensButton } from '../screens/screens-button.tsx';
import { ScreensPanel } from '../screens/screens-panel.tsx';
import { laneOfKey, useRunKeys } from '../actions/keys/use-run-keys.ts';
import { TimesPanel } from '../times/times-panel.tsx';
import pageStyles from '../panel/page.module.css';
import styles from './run-screen.module.css';

interface RunScreenProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  /** Back to the write page, before anything has begun. */
  onWrite(): void;
}

export function RunScreen({ tools, moment, onWrite }: RunScreenProps): ReactElement {
  const [panel, setPanel] = useState<Panel | null>(null);
  const close = (): void => setPanel(null);
  const chosen = useOffer(tools.offers, (offers) => offers.chosen());
  const { view } = moment;
  // Once a command was given, even before the first start, opening the session again would lose it.
  const untouched = moment.run.commands.length === 0;
  const touched = useTouched();
  const edit = untouched ? onWrite : () => setPanel({ kind: 'edit', byTouch: touched.current });
  const latestEdit = useRef(edit);
  useEffect(() => {
    latestEdit.current = edit;
  });
  const openPanel = useCallback(
    (next: Panel | null) => (next?.kind === 'edit' ? latestEdit.current() : setPanel(next)),
    [],
  );
  useRunKeys(tools, panel, openPanel);
  const keyed = laneOfKey(view, chosen);
  const mark = (lanes: readonly number[]): void => setPanel({ kind: 'mark', lanes });

  if (panel?.kind === 'edit') {
    return (
      <Part tools={tools} name="Edit" onClose={close} instead={<StopButton tools={tools} />}>
        <RewriteScreen
          key={moment.run.id}
          tools={tools}
          moment={moment}
          byTouch={panel.byTouch ?? false}
          onClose={close}
        />
      </Part>
    );
  }
  return (
    <div className={`${pageStyles.page} ${styles.run}`} data-many={view.lanes.length > MANY ? '' : undefined}>
      <Part tools={tools} name="The head" area="head">
        <RunHead tools={tools} moment={moment}>
          <Button
            name="Times"
            look="small"
            expanded={panel?.kind === 'times'}
            onPress={() => setPanel(panel?.kind === 'times' ? null : { kind: 'times' })}
          />
          <ScreensButton
            isOpen={panel?.kind === 'screens'}
            onToggle={() => setPanel(panel?.kind === 'screens' ? null : { kind: 'screens' })}
          />
        </RunHead>
      </Part>
      <main className={`${pageStyles.card} ${pageStyles.scrolls} ${styles.lanes}`} aria-label="Lanes">
        {view.lanes.map((lane) => (
          <Part key={lane.number} tools={tools} name={`Lane ${lane.number}`}>
            <LaneRow
              tools={tools}
              moment={moment}
              lane={lane}
              chosen={chosen.includes(lane.number)}
              keyed={lane.number === keyed}
              open={panel?.kind === 'lane' && panel.lane === lane.number}
              onMore={() => setPanel(isLane(panel, lane.number) ? null : { kind: 'lane', lane: lane.number })}
            />
          </Part>
        ))}
      </main>
      <aside className={`${pageStyles.card} ${pageStyles.scrolls} ${styles.side}`} aria-label="Session">
        {panel?.kind === 'lane' ? (
          <Part key={panel.lane} tools={tools} name={`Lane ${panel.lane}'s panel`} onClose={close}>
            <LanePanel
              tools={tools}
              moment={moment}
              number={panel.lane}
              onMark={() => mark([panel.lane])}
              onClose={close}
            />
          </Part>
        ) : panel?.kind === 'mark' ? (
          <Part key={panel.lanes.join()} tools={tools} name="Mark" onClose={close}>
            <MarkPanel tools={tools} moment={moment} lanes={panel.lanes} onClose={close} />
          </Part>
        ) : panel?.kind === 'screens' ? (
          <Part key="screens" tools={tools} name="The screens" onClose={close}>
            <ScreensPanel tools={tools} folds onClose={close}>
              <RunMatch tools={tools} moment={moment} />
            </ScreensPanel>
          </Part>
        ) : panel?.kind === 'times' ? (
          <Part key="times" tools={tools} name="The times" onClose={close}>
            <TimesPanel tools={tools} moment={moment} onClose={close} />
          </Part>
        ) : (
          <Part key="outline" tools={tools} name="The session">
            <Outline tools={tools} moment={moment} />
          </Part>
        )}
      </aside>
      <Part tools={tools} name="The line above the actions" area="feedback">
        <FeedbackBar tools={tools} moment={moment} onMark={() => mark(tools.actions.chosen())} onEdit={edit} />
      </Part>
      <Part tools={tools} name="The row of actions" area="actions" instead={<StopButton tools={tools} />}>
        <ActionBar tools={tools} moment={moment} />
      </Part>
    </div>
  );
}

function isLane(panel: Panel | null, lane: number): boolean {
  return panel?.kind === 'lane' && panel.lane === lane;
}
