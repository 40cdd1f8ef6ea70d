/*
 * After the session: what each lane did against the plan, and what was marked.
 */

import { useMemo, type ReactElement } from 'react';
import { leavesIn } from '../../../app/core/run/view/record.ts';
import { Button } from '../../ui/parts/button.tsx';
import { commandLabel } from '../../../app/core/run/command/command-label.ts';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { undoText } from '../../ui/coach/commands/offers.ts';
import { FeedbackLine } from '../../ui/coach/feedback/feedback-line.tsx';
import { useActions, useOffer } from '../../ui/coach/use-deck.ts';
import { distanceIn, distanceText } from '../../../app/core/words/distance.ts';
import { lanesNamed } from '../../../app/core/words/lanes.ts';
import { count } from '../../../app/core/words/phrase.ts';
import { readingPast } from '../../../app/core/words/time/reading.ts';
import { clockTime, clockTimeToSecond } from '../../../app/core/words/time/time-of-day.ts';
import { ActionButton } from '../actions/action-bar.tsx';
import type { DeskTools } from '../desk-tools.ts';
import { Part } from '../part.tsx';
import { laneRecords } from './lane-record.ts';
import { LightSwitch } from '../actions/light-switch.tsx';
import { ScreensButton, useScreensToggle } from '../screens/screens-button.tsx';
import { ScreensPanel } from '../screens/screens-panel.tsx';
import { NotCalled } from './not-called.tsx';
import { saveText } from '../save-text.ts';
import { recordCsv, recordFileName } from './record-csv.ts';
import pageStyles from '../page.module.css';
import tableStyles from '../table.module.css';
import styles from './afterwards.module.css';

interface AfterwardsProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  onWrite(): void;
}

/**
 * A plain table: React Aria's moves from cell to cell by arrow keys, and here is nothing to do in a cell. Its roles are
 * written out because on a phone it is laid out as blocks, which would take them away.
 */
export function Afterwards({ tools, moment, onWrite }: AfterwardsProps): ReactElement {
  const { run, view } = moment;
  const { plan, marks, projectedEnd: doneAt } = view;
  const leaves = leavesIn(view);
  const records = useMemo(() => laneRecords(plan, leaves), [plan, leaves]);
  useActions(tools.actions, (actions) => actions.feedback);
  const feedback = tools.actions.feedback();
  const whyNoUndo = useOffer(tools.offers, ({ whyNot }) => whyNot({ do: 'undo' }));
  const [screensOpen, toggleScreens] = useScreensToggle();
  const { session } = plan;
  const { unit } = session.pool;
  const timeOf = (at: number | null): string => (at === null ? '–' : clockTime(run.openedAtTimeOfDay + at));
  const leaveTimeOf = (at: number | null): string =>
    at === null ? '–' : clockTimeToSecond(run.openedAtTimeOfDay + at);
  return (
    <div className={`${pageStyles.page} ${styles.after}`}>
      <header className={styles.head}>
        <h1>{session.title ?? 'Session'}: done</h1>
        <p>
          at {timeOf(doneAt)}, {readingPast(doneAt)} after it was opened
        </p>
        <ScreensButton isOpen={screensOpen} onToggle={toggleScreens} />
        <LightSwitch light={tools.light} />
      </header>
      {screensOpen ? (
        <div className={`${pageStyles.card} ${styles.record}`}>
          <Part tools={tools} name="The screens" onClose={toggleScreens}>
            <ScreensPanel tools={tools} onClose={toggleScreens} />
          </Part>
        </div>
      ) : null}
      <main className={`${pageStyles.card} ${styles.record}`} hidden={screensOpen}>
        <table className={tableStyles.table} role="table">
          <caption>What each lane did</caption>
          <thead role="rowgroup">
            <tr role="row">
              <th role="columnheader" scope="col">
                Lane
              </th>
              <th role="columnheader" scope="col">
                Leaves
              </th>
              <th role="columnheader" scope="col">
                Distance
              </th>
              <th role="columnheader" scope="col">
                First leave
              </th>
              <th role="columnheader" scope="col">
                Last leave
              </th>
              <th role="columnheader" scope="col">
                By part
              </th>
            </tr>
          </thead>
          <tbody role="rowgroup">
            {records.map((record) => (
              <tr role="row" key={record.lane}>
                <th role="rowheader" scope="row">
                  Lane {record.lane}
                </th>
                <td role="cell" data-head="Leaves">
                  {record.leaves} of {record.planned.leaves}
                </td>
                <td role="cell" data-head="Distance">
                  {distanceText(record.distance)} of {distanceIn(record.planned.distance, unit)}
                </td>
                <td role="cell" data-head="First leave">
                  {leaveTimeOf(record.first)}
                </td>
                <td role="cell" data-head="Last leave">
                  {leaveTimeOf(record.last)}
                </td>
                <td role="cell" data-head="By part">
                  {record.parts
                    .map(
                      ({ part, leaves, distance }) =>
                        `${part} ${distance > 0 ? distanceIn(distance, unit) : count(leaves, 'leave')}`,
                    )
                    .join(', ') || 'nothing'}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
        <section aria-label="Marks">
          <h2>{marks.length === 0 ? 'Nothing was marked' : 'Marked'}</h2>
          <ul className={styles.marks}>
            {marks.map(({ at, lanes, words }, index) => (
              <li key={index}>
                <b>{timeOf(at)}</b> {words === '' ? 'a mark' : words}
                {lanes.length > 0 ? `, ${lanesNamed(lanes)}` : ''}
              </li>
            ))}
          </ul>
        </section>
        <NotCalled leaves={leaves} run={run} />
      </main>
      <footer className={styles.foot}>
        <Button name="Write the next session" look="primary start" onPress={onWrite} />
        <Button
          name="Save the record"
          hint="every leave and every command, for a spreadsheet"
          onPress={() => saveText(recordFileName(session.title, new Date()), recordCsv(view, run), 'text/csv')}
        />
        {view.undo ? (
          <ActionButton
            tools={tools}
            action="undo"
            hint={whyNoUndo === null ? `takes ${commandLabel(view.undo.command)} back` : undoText(view, whyNoUndo)}
          />
        ) : null}
        <FeedbackLine feedback={feedback} className={styles.text} />
      </footer>
    </div>
  );
}
