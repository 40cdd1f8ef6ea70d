/*
 * The coach's window: writing before there is a run, then the run, then what was swum; and the history of all runs.
 * Notices are above each of them.
 */

import type { Source } from '../../app/core/plan/plan.ts';
import { Activity, useState, type ReactElement } from 'react';
import { useDeck, useMoment } from '../ui/coach/use-deck.ts';
import { Afterwards } from './afterwards/afterwards.tsx';
import { writeNext } from './afterwards/next-session.ts';
import type { CssOffered } from './afterwards/times-table.tsx';
import { ArrivedFileNotice, useArrivedFile } from './write/file/arrived-file.tsx';
import type { DeskTools } from './desk-tools.ts';
import { useMatchedClock } from './actions/match-clock.tsx';
import { PaperRoom } from './paper/paper-room.tsx';
import { Part, StopButton } from './panel/part.tsx';
import { Rehearsal } from './rehearse/rehearsal.tsx';
import { RehearsalEnded } from './rehearse/rehearsal-ended.tsx';
import { useRehearsal } from './rehearse/use-rehearsal.ts';
import { RunScreen } from './run/run-screen.tsx';
import { WriteScreen } from './write/write-screen.tsx';
import { Notices } from './notices.tsx';
import { NewDevices } from './sharing/new-devices.tsx';
import { bringAgain, bringCss } from './history/bring.ts';
import { HistoryRoom } from './history/history-room.tsx';
import styles from './desk.module.css';

export function Desk({ tools }: { readonly tools: DeskTools }): ReactElement {
  const status = useDeck(tools.link, (state) => state.status);
  const run = useDeck(tools.link, (state) => state.run);
  const moment = useMoment(tools.frames);
  // The id of the run that the coach has left to write the next session.
  const [left, setLeft] = useState<string | null>(null);

  const [inHistory, setInHistory] = useState(false);
  // The session that is looked at on paper.
  const [paper, setPaper] = useState<Source | null>(null);
  // What is to be said of a session that was put into the editor from another room.
  const [brought, setBrought] = useState<string | null>(null);

  const clock = useMatchedClock(tools.link, run);
  const rehearsal = useRehearsal(tools);

  const file = useArrivedFile({
    writing: tools.writing,
    runId: () => run?.id ?? null,
    isGoing: () => run !== null && run.commands.length > 0 && moment?.view.phase !== 'done',
    onText: () => setLeft(run?.id ?? null),
  });

  const away = run === null || left === run.id;
  const isDone = moment !== null && moment.run.id === run?.id && moment.view.phase === 'done';
  const goTo = (history: boolean): void => {
    setBrought(null);
    setInHistory(history);
  };
  const css = (offered: CssOffered): string => bringCss(tools.writing, offered, run?.id ?? null);
  return (
    <div className={styles.whole} onDragOver={(event) => event.preventDefault()} onDrop={file.drop}>
      <Part tools={tools} name="The notices">
        <Notices tools={tools} />
        <NewDevices tools={tools} />
        <ArrivedFileNotice file={file} />
        <RehearsalEnded rehearsal={rehearsal} />
      </Part>
      {status === 'connecting' ? (
        <p className={styles.waiting}>Looking for the program…</p>
      ) : inHistory && (away || isDone) ? (
        <Part key="history" tools={tools} name="The history">
          <HistoryRoom
            tools={tools}
            back={away ? 'Back to writing' : 'Back to the session'}
            onBack={() => goTo(false)}
            onAgain={(again) => {
              goTo(false);
              setBrought(bringAgain(tools.writing, again, run?.id ?? null));
              setLeft(run?.id ?? null);
            }}
            onCss={css}
          />
        </Part>
      ) : away && paper ? (
        <Part key="paper" tools={tools} name="The sheets">
          <PaperRoom source={paper} onBack={() => setPaper(null)} />
        </Part>
      ) : away ? (
        <>
          {/* What is written stays as it is, and hears no keys meanwhile. */}
          <Activity mode={rehearsal.rehearsed ? 'hidden' : 'visible'}>
            <Part tools={tools} name="The write page">
              <WriteScreen
                tools={tools}
                run={run}
                isOver={isDone}
                clock={clock}
                onBack={run ? () => setLeft(null) : null}
                onRehearse={(source) => rehearsal.begin({ source, clockPhase: clock.now() })}
                onOpened={() => {
                  // What was said of a file was about the text before it was run.
                  file.read();
                  setBrought(null);
                  setLeft(null);
                }}
                onMended={file.mended}
                onHistory={() => goTo(true)}
                onPrint={setPaper}
                brought={brought}
              />
            </Part>
          </Activity>
          {rehearsal.rehearsed ? (
            <Part tools={tools} name="The rehearsal">
              <Rehearsal own={rehearsal.rehearsed} onLeave={rehearsal.leave} />
            </Part>
          ) : null}
        </>
      ) : moment === null || moment.run.id !== run.id ? (
        <p className={styles.waiting}>Setting the clock…</p>
      ) : moment.view.phase === 'done' ? (
        <Part key="after" tools={tools} name="What was swum">
          <Afterwards
            tools={tools}
            moment={moment}
            onWrite={() => {
              setBrought(writeNext(tools.writing, run));
              setLeft(run.id);
            }}
            onHistory={() => goTo(true)}
            onCss={css}
          />
        </Part>
      ) : (
        <Part key="run" tools={tools} name="The run" instead={<StopButton tools={tools} />}>
          <RunScreen tools={tools} moment={moment} onWrite={() => setLeft(run.id)} />
        </Part>
      )}
    </div>
  );
}
