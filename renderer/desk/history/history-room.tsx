/*
 * The history: all runs that are kept, one of them opened, and what is done with it.
 */

import { useEffect, useState, type ReactElement } from 'react';
import { historyCsv } from '../../../app/core/record/tables/history-csv.ts';
import type { HistoryRun } from '../../../app/core/record/history/history-run.ts';
import { FeedbackLine } from '../../ui/coach/feedback/feedback-line.tsx';
import { Button } from '../../ui/parts/button.tsx';
import { LightSwitch } from '../actions/light-switch.tsx';
import type { CssOffered } from '../afterwards/times-table.tsx';
import { useKeptRun } from '../afterwards/use-kept-run.ts';
import type { DeskTools } from '../desk-tools.ts';
import { Part } from '../panel/part.tsx';
import { fileName, saveText, todayIso } from '../save-text.ts';
import { DeleteOnce } from './delete-once.tsx';
import { Deleting } from './deleting.tsx';
import type { SessionAgain } from './bring.ts';
import { Lanes } from './lanes.tsx';
import { loadDrawings } from './later-drawing.tsx';
import { RunList } from './run-list.tsx';
import { RunReview } from './run-review.tsx';
import { useHistory, type History } from './use-history.ts';
import { Weeks } from './weeks.tsx';
import pageStyles from '../panel/page.module.css';
import styles from './history-room.module.css';

interface HistoryRoomProps {
  readonly tools: DeskTools;
  /** Where the coach came from: "Back to the run", "Write a session". */
  readonly back: string;
  onBack(): void;
  /** A session is to be done again. */
  onAgain(session: SessionAgain): void;
  /** What is to be said of it. */
  onCss(offered: CssOffered): string;
}

const NO_RUNS: readonly HistoryRun[] = [];

const PLACES = [
  { kind: 'weeks', name: 'Weeks', about: 'distance, load' },
  { kind: 'lanes', name: 'Lanes', about: 'distance, css' },
  { kind: 'deleting', name: 'Delete', about: 'a name everywhere, or everything' },
] as const;

type Shown = { readonly kind: 'run'; readonly run: string } | { readonly kind: 'weeks' | 'lanes' | 'deleting' };

interface Said {
  readonly text: string;
  readonly kind: 'done' | 'refused';
}

export function HistoryRoom({ tools, back, onBack, onAgain, onCss }: HistoryRoomProps): ReactElement {
  const { askRecords: ask } = tools;
  const history = useHistory(ask);
  const [chosen, setChosen] = useState<Shown | null>(null);
  const [said, setSaid] = useState<Said | null>(null);
  const refuse = (text: string): void => setSaid({ text, kind: 'refused' });
  const isFound = history.found !== null;
  useEffect(() => {
    if (isFound) loadDrawings();
  }, [isFound]);
  const runs = history.found?.runs ?? NO_RUNS;
  const newest = runs[0];
  const shown = chosen ?? (newest ? { kind: 'run' as const, run: newest.run } : null);
  const show = (next: Shown): void => {
    setChosen(next);
    setSaid(null);
  };
  return (
    <div className={`${pageStyles.page} ${styles.room}`}>
      <header className={pageStyles.head}>
        <h1>History</h1>
        <Button
          name="Save the history as a table"
          hint="the runs found"
          look="small"
          why={runs.length === 0 ? 'There is no run to save.' : null}
          onPress={() => saveText(fileName('History', todayIso(), 'csv'), historyCsv(runs), 'text/csv')}
          onRefused={refuse}
        />
        <Button
          name="Save the history as JSON"
          hint="the runs found"
          look="small"
          why={runs.length === 0 ? 'There is no run to save.' : null}
          onPress={() => saveText(fileName('History', todayIso(), 'json'), jsonText(runs), 'application/json')}
          onRefused={refuse}
        />
        <LightSwitch light={tools.light} />
        <Button name={back} look="small" onPress={onBack} />
      </header>
      <nav className={`${pageStyles.card} ${styles.side}`} aria-label="History">
        <div className={styles.runs}>
          <Part tools={tools} name="The list of runs">
            <RunList
              history={history}
              shown={shown?.kind === 'run' ? shown.run : null}
              onShow={(run) => show({ kind: 'run', run })}
            />
          </Part>
        </div>
        <div className={styles.places}>
          <h2 className={styles.listHead}>Over time</h2>
          {PLACES.map(({ kind, name, about }) => (
            <Button key={kind} className={styles.run} pressed={shown?.kind === kind} onPress={() => show({ kind })}>
              <b>{name}</b>
              <span>{about}</span>
            </Button>
          ))}
        </div>
      </nav>
      {shown?.kind === 'run' ? (
        <OneRun
          key={shown.run}
          {...{ tools, onAgain, onCss, said, setSaid }}
          run={shown.run}
          progress={progressOf(runs.find(({ run }) => run === shown.run))}
          onSaved={history.again}
          onDeleted={() => {
            setChosen(null);
            setSaid({ text: 'The run is deleted.', kind: 'done' });
            history.again();
          }}
        />
      ) : (
        <>
          <main className={`${pageStyles.card} ${pageStyles.scrolls} ${styles.whole}`} tabIndex={0}>
            {shown?.kind === 'weeks' ? (
              <Weeks runs={runs} />
            ) : shown?.kind === 'lanes' ? (
              <Lanes runs={runs} />
            ) : shown?.kind === 'deleting' ? (
              <Deleting tools={tools} onDeleted={history.again} onRefused={refuse} />
            ) : (
              <NothingShown history={history} />
            )}
          </main>
          <footer className={`${pageStyles.foot} ${styles.foot}`}>
            {shown?.kind === 'weeks' || shown?.kind === 'lanes' ? (
              <Button name="Print" look="small" onPress={() => window.print()} />
            ) : null}
            <FeedbackLine feedback={said} />
          </footer>
        </>
      )}
    </div>
  );
}

/** Before anything is found, or where nothing can be. */
function NothingShown({ history: { found, refused, again } }: { readonly history: History }): ReactElement {
  if (refused !== null)
    return (
      <>
        <p role="alert">{refused}</p>
        <Button name="Look again" look="small" onPress={again} />
      </>
    );
  return <p>{found ? 'When a session is over, its record appears here.' : 'Looking…'}</p>;
}

interface OneRunProps {
  readonly tools: DeskTools;
  readonly run: string;
  readonly progress: string;
  readonly said: Said | null;
  setSaid(said: Said | null): void;
  onAgain: HistoryRoomProps['onAgain'];
  onCss: HistoryRoomProps['onCss'];
  onSaved(): void;
  onDeleted(): void;
}

function OneRun(props: OneRunProps): ReactElement {
  const { tools, run, progress, said, setSaid, onAgain, onCss, onSaved, onDeleted } = props;
  const { askRecords: ask } = tools;
  const kept = useKeptRun(ask, run, onSaved, progress);
  const refuse = (text: string): void => setSaid({ text, kind: 'refused' });
  const why = kept.given ? null : (kept.refused ?? 'It is being read.');
  const day = kept.given?.record.openedAt.slice(0, 10) ?? '';
  const title = kept.given?.record.title ?? '';
  const again = async (): Promise<void> => {
    const answer = await ask<'session'>({ do: 'session', run });
    if (answer.ok) onAgain({ ...answer, openedAt: day });
    else refuse(answer.why);
  };
  const saveTable = async (): Promise<void> => {
    await kept.adding?.flush();
    const answer = await ask<'table'>({ do: 'table', run });
    if (answer.ok) saveText(fileName(title, day, 'csv'), answer.csv, 'text/csv');
    else refuse(answer.why);
  };
  const saveJson = async (): Promise<void> => {
    await kept.adding?.flush();
    const answer = await ask<'review'>({ do: 'review', run });
    if (answer.ok) saveText(fileName(title, day, 'json'), jsonText(answer.record), 'application/json');
    else refuse(answer.why);
  };
  const deleteIt = async (): Promise<void> => {
    await kept.adding?.flush();
    const answer = await ask<'delete-run'>({ do: 'delete-run', run });
    if (answer.ok) onDeleted();
    else refuse(answer.why);
  };
  const action = { why, look: 'small', onRefused: refuse } as const;
  return (
    <>
      <Part tools={tools} name="The record" again={kept.given}>
        <RunReview
          kept={kept}
          onCss={(offered) => setSaid({ text: onCss(offered), kind: 'done' })}
          onRefused={refuse}
        />
      </Part>
      <footer className={`${pageStyles.foot} ${styles.foot}`}>
        <Button
          name="Do this again"
          hint="opens its session in the editor"
          {...action}
          look="primary start"
          onPress={() => void again()}
        />
        <Button name="Print" {...action} onPress={() => window.print()} />
        <Button name="Save as a table" {...action} onPress={() => void saveTable()} />
        <Button name="Save as JSON" {...action} onPress={() => void saveJson()} />
        <FeedbackLine feedback={said} />
        <DeleteOnce
          name="Delete this run"
          what="Its journal, notes and times go for good."
          onDelete={() => void deleteIt()}
          onRefused={refuse}
        />
      </footer>
    </>
  );
}

/** As far as the list knows. */
function progressOf(run: HistoryRun | undefined): string {
  return run ? `${run.ended} ${run.durationMs}` : '';
}

function jsonText(value: object): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}
