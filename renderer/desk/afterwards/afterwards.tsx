/*
 * After the session: its record, what the coach adds to it, and what comes next.
 */

import { useMemo, useState, type ReactElement } from 'react';
import { NOTHING_ADDED } from '../../../app/core/record/afterwards.ts';
import { recordCsv } from '../../../app/core/record/tables/record-csv.ts';
import { recordJson } from '../../../app/core/record/tables/record-json.ts';
import { recordOf } from '../../../app/core/record/record.ts';
import { reviewJson } from '../../../app/core/record/tables/review-json.ts';
import { commandLabel } from '../../../app/core/run/command/command-label.ts';
import { readingPast } from '../../../app/core/words/time/reading.ts';
import { clockTime } from '../../../app/core/words/time/time-of-day.ts';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { undoText } from '../../ui/coach/commands/offers.ts';
import { FeedbackLine } from '../../ui/coach/feedback/feedback-line.tsx';
import { useActions, useOffer } from '../../ui/coach/use-deck.ts';
import { Button } from '../../ui/parts/button.tsx';
import { ActionButton } from '../actions/action-bar.tsx';
import { LightSwitch } from '../actions/light-switch.tsx';
import type { DeskTools } from '../desk-tools.ts';
import { Part } from '../panel/part.tsx';
import { fileName, saveText } from '../save-text.ts';
import { ScreensButton, useScreensToggle } from '../screens/screens-button.tsx';
import { ScreensPanel } from '../screens/screens-panel.tsx';
import { AddedPanel } from './added/added-panel.tsx';
import { keptFrom } from './own-record.ts';
import { RecordView } from './record-view.tsx';
import type { CssOffered } from './times-table.tsx';
import { useKeptRun } from './use-kept-run.ts';
import { whenText } from './when-text.ts';
import pageStyles from '../panel/page.module.css';
import styles from './afterwards.module.css';

interface Said {
  readonly text: string;
  readonly kind: 'done' | 'refused';
}

interface AfterwardsProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  onWrite(): void;
  onHistory(): void;
  /** What is to be said of it. */
  onCss(offered: CssOffered): string;
}

export function Afterwards({ tools, moment, onWrite, onHistory, onCss }: AfterwardsProps): ReactElement {
  const { run, view } = moment;
  const { plan, projectedEnd: doneAt } = view;
  const { adding, added, given, refused } = useKeptRun(tools.askRecords, run.id);
  const kept = useMemo(() => keptFrom(run, doneAt, new Date()), [run, doneAt]);
  const { times } = added.added;
  const review = useMemo(() => reviewJson(recordOf(kept, { ...NOTHING_ADDED, times }), kept.away), [kept, times]);
  useActions(tools.actions, (actions) => actions.feedback);
  const feedback = tools.actions.feedback();
  const whyNoUndo = useOffer(tools.offers, ({ whyNot }) => whyNot({ do: 'undo' }));
  const [screensOpen, toggleScreens] = useScreensToggle();
  const [said, setSaid] = useState<Said | null>(null);
  const title = plan.session.title ?? 'Session';
  const day = kept.openedAt.slice(0, 10);
  const whole = () => recordOf(kept, added.added);
  return (
    <div className={`${pageStyles.page} ${styles.after}`}>
      <header className={`${pageStyles.top} ${styles.head}`}>
        <h1>{title}: done</h1>
        <p>
          at {clockTime(run.openedAtTimeOfDay + doneAt)}, {readingPast(doneAt)} after it was opened
        </p>
        <p className={styles.day}>{whenText(kept, clockTime(run.openedAtTimeOfDay + doneAt))}</p>
        <Button name="History" look="small" onPress={onHistory} />
        <ScreensButton isOpen={screensOpen} onToggle={toggleScreens} />
        <LightSwitch light={tools.light} />
      </header>
      {screensOpen ? (
        <div className={`${pageStyles.card} ${styles.screens}`}>
          <Part tools={tools} name="The screens" onClose={toggleScreens}>
            <ScreensPanel tools={tools} onClose={toggleScreens} />
          </Part>
        </div>
      ) : null}
      <main className={`${pageStyles.card} ${pageStyles.scrolls} ${styles.record}`} hidden={screensOpen}>
        <RecordView
          review={review}
          added={added.added}
          onCss={(offered) => setSaid({ text: onCss(offered), kind: 'done' })}
        />
      </main>
      <aside
        className={`${pageStyles.card} ${pageStyles.scrolls} ${styles.added}`}
        aria-label="Added afterwards"
        hidden={screensOpen}
      >
        <AddedPanel
          review={review}
          adding={adding}
          added={added.added}
          trouble={added.refused ?? refused ?? given?.said[0] ?? null}
          onRefused={(text) => setSaid({ text, kind: 'refused' })}
        />
      </aside>
      <footer className={`${pageStyles.foot} ${styles.foot}`}>
        <Button name="Write the next session" look="primary start" onPress={onWrite} />
        <Button name="Print" hint="the record" onPress={() => window.print()} />
        <Button
          name="Save as a table"
          hint="every leave and command"
          onPress={() => saveText(fileName(title, day, 'csv'), recordCsv(whole()), 'text/csv')}
        />
        <Button
          name="Save as JSON"
          hint="for programs"
          onPress={() => saveText(fileName(title, day, 'json'), jsonText(recordJson(whole())), 'application/json')}
        />
        {view.undo ? (
          <ActionButton
            tools={tools}
            action="undo"
            hint={whyNoUndo === null ? `takes ${commandLabel(view.undo.command)} back` : undoText(view, whyNoUndo)}
          />
        ) : null}
        <FeedbackLine feedback={said ?? feedback} className={styles.text} />
      </footer>
    </div>
  );
}

function jsonText(value: object): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}
