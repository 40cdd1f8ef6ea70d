/*
 * Writing a session: the text, its faults where it has some, else its timetable, and the one action,
 * to run it.
 */

import { useId, useMemo, useRef, useState, type DragEvent, type ReactElement } from 'react';
import { openPlan } from '../../../app/core/plan/open-plan.ts';
import { warningsOf } from '../../../app/core/plan/warnings/warnings.ts';
import type { Fault } from '../../../app/core/result.ts';
import type { DeckRun } from '../../link/store.ts';
import { FeedbackLine } from '../../ui/coach/feedback/feedback-line.tsx';
import { Button } from '../../ui/parts/button.tsx';
import { FileButton } from '../../ui/parts/file-button.tsx';
import type { DeskTools } from '../desk-tools.ts';
import { About } from './about.tsx';
import { LightSwitch } from '../actions/light-switch.tsx';
import { ScreensButton, useScreensToggle } from '../screens/screens-button.tsx';
import { LanesPanel } from '../squads/lanes-panel.tsx';
import { useEscape } from '../squads/use-escape.ts';
import { ScreensPanel } from '../screens/screens-panel.tsx';
import { MatchClock, type MatchedClock } from '../actions/match-clock.tsx';
import { openSession, type Opened } from './open-session.ts';
import { FaultList } from '../editor/fault-list.tsx';
import { SessionEditor } from '../editor/session-editor.tsx';
import { putCursor, type TextView } from '../editor/text-view.ts';
import { useSettled } from '../editor/use-settled.ts';
import { HourPicture } from '../hour/hour-picture.tsx';
import { Part } from '../part.tsx';
import { readSessionFile } from './session-file.ts';
import { TimetableView } from '../timetable/timetable-view.tsx';
import { warningGroups, type WarningGroup } from '../timetable/warning-groups.ts';
import { useRunKey } from './use-run-key.ts';
import { useWriting } from './use-writing.ts';
import { WriteLate } from './write-late.tsx';
import { WriteSource } from './write-source.tsx';
import pageStyles from '../page.module.css';

interface WriteScreenProps {
  readonly tools: DeskTools;
  /** The run that is open, going or over; null without one. */
  readonly run: DeckRun | null;
  readonly clock: MatchedClock;
  /** Back to the run that is there; null without one. */
  readonly onBack: (() => void) | null;
  onOpened(): void;
}

const NO_FAULTS: readonly Fault[] = [];
const NO_WARNINGS: readonly WarningGroup[] = [];

export function WriteScreen({ tools, run, clock, onBack, onOpened }: WriteScreenProps): ReactElement {
  const { writing } = tools;
  const written = useWriting(writing, run);
  const { sheet, draft } = written;
  const { text, lanesText } = draft;
  const runId = run?.id ?? null;
  const setText = (next: string, on?: number): void => writing.write({ text: next }, runId, on);
  const [lanesWanted, setLanesWanted] = useState(false);
  const showLanes = lanesWanted || lanesText !== '';
  const [answer, setAnswer] = useState<Opened | null>(null);
  const say = (why: string): void => setAnswer({ kind: 'failed', why });
  const [screensOpen, toggleScreens] = useScreensToggle();
  const [lanesOpen, setLanesOpen] = useState(false);
  const toggleLanes = (): void => {
    if (screensOpen) toggleScreens();
    setLanesOpen(screensOpen || !lanesOpen);
  };
  useEscape(() => setLanesOpen(false));
  const faultsId = useId();
  const [busy, setBusy] = useState(false);
  const editor = useRef<TextView>(null);
  const lanesEditor = useRef<TextView>(null);

  const source = useSettled(text);
  const settledLanes = useSettled(lanesText);
  const lanes = settledLanes.trim() === '' ? null : settledLanes;
  const opened = useMemo(() => openPlan({ text: source, lanesText: lanes }), [source, lanes]);
  const faults = opened.ok || (source === '' && lanes === null) ? null : opened.faults;
  const warnings = useMemo(() => (opened.ok ? warningGroups(warningsOf(opened.value)) : NO_WARNINGS), [opened]);

  const take = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    const read = await readSessionFile(file);
    if (read.ok) writing.put({ text: read.text, lanesText: '', from: file.name, during: runId });
    else say(read.why);
  };
  const drop = (event: DragEvent): void => {
    event.preventDefault();
    void take(event.dataTransfer.files[0]);
  };
  const open = async (replace: boolean): Promise<void> => {
    setBusy(true);
    const reply = await openSession(
      { text, lanesText: lanesText.trim() === '' ? null : lanesText, clockPhase: clock.now() },
      replace,
    );
    setBusy(false);
    setAnswer(reply);
    if (reply.kind !== 'opened') return;
    writing.openedAs(reply.run, { text, lanesText });
    onOpened();
  };
  const why = busy
    ? 'It is being opened.'
    : opened.ok
      ? null
      : source === ''
        ? 'Write or open a session first.'
        : 'The text has faults: see beside it.';
  useRunKey(() => (why === null ? void open(false) : say(why)));

  return (
    <div className={`${pageStyles.page} write`} onDragOver={(event) => event.preventDefault()} onDrop={drop}>
      <header className="write-head">
        <div className="write-title">
          <WriteSource run={run} writing={writing} written={written} />
        </div>
        <FileButton
          name="Open a session"
          label="Open a file…"
          accept=".txt,.lanecall,text/plain"
          onFile={(file) => void take(file)}
        />
        <Button
          name="Lanes apart"
          hint="for every session"
          look="small"
          pressed={showLanes}
          why={lanesText === '' ? null : 'There are lanes in it: empty it first.'}
          onPress={() => setLanesWanted(!showLanes)}
          onRefused={say}
        />
        <Button name="Lanes and squads" look="small" expanded={lanesOpen && !screensOpen} onPress={toggleLanes} />
        <MatchClock phase={clock} />
        <ScreensButton isOpen={screensOpen} onToggle={toggleScreens} />
        <LightSwitch light={tools.light} />
        {onBack ? <Button name="Back to the run" look="small" onPress={onBack} onRefused={say} /> : null}
      </header>
      <main className="write-text">
        <SessionEditor
          label="Session"
          text={text}
          sheet={sheet}
          undos={writing.undos}
          faults={faults?.in === 'session' ? faults.faults : NO_FAULTS}
          warnings={source === text ? warnings : NO_WARNINGS}
          faultsId={faultsId}
          area={editor}
          placeholder={'Write it as on the whiteboard,\nopen a file, or drop one here.'}
          onChange={setText}
        />
        {showLanes ? (
          <SessionEditor
            label="Lanes"
            text={lanesText}
            faults={faults?.in === 'lanes' ? faults.faults : NO_FAULTS}
            faultsId={faultsId}
            area={lanesEditor}
            placeholder="lane 1 css 1:20, 5 swimmers"
            onChange={(next) => writing.write({ lanesText: next }, runId)}
          />
        ) : null}
      </main>
      {screensOpen ? (
        <div className={`write-plan ${pageStyles.card} ${pageStyles.scrolls}`}>
          <Part tools={tools} name="The screens" onClose={toggleScreens}>
            <ScreensPanel tools={tools} onClose={toggleScreens} />
          </Part>
        </div>
      ) : null}
      {lanesOpen && !screensOpen ? (
        <div className={`write-plan ${pageStyles.card} ${pageStyles.scrolls}`}>
          <Part tools={tools} name="The lanes" onClose={toggleLanes}>
            <LanesPanel
              text={text}
              lanesText={lanesText}
              onText={setText}
              onLine={(line) => putCursor(editor.current, line, 1)}
              onClose={toggleLanes}
            />
          </Part>
        </div>
      ) : null}
      <section
        className={`write-plan ${pageStyles.card} ${pageStyles.scrolls}`}
        aria-label="What it comes to"
        tabIndex={0}
        hidden={screensOpen || lanesOpen}
      >
        <Part tools={tools} name="The timetable" again={opened}>
          {faults ? (
            <FaultList
              id={faultsId}
              faults={faults.faults}
              onGoTo={(line, column) => putCursor((faults.in === 'lanes' ? lanesEditor : editor).current, line, column)}
            />
          ) : opened.ok ? (
            <TimetableView
              plan={opened.value}
              warnings={warnings}
              onLine={(line) => putCursor(editor.current, line, 1)}
            >
              <HourPicture plan={opened.value} onLine={(line) => putCursor(editor.current, line, 1)} />
              <WriteLate plan={opened.value} onText={(cut) => (source === text ? setText(cut) : undefined)} />
            </TimetableView>
          ) : (
            <p className="write-empty">The timetable of every lane stands here as you write.</p>
          )}
        </Part>
        <About />
      </section>
      <footer className="write-foot">
        <Button
          name="Run this session"
          hint="Ctrl+Enter: it waits for Start"
          keys="Control+Enter"
          look="primary start"
          why={why}
          onPress={() => void open(false)}
          onRefused={say}
        />
        {answer?.kind === 'going' ? (
          <Button name="End that run and run this" held hint="hold" onPress={() => void open(true)} onRefused={say} />
        ) : null}
        <FeedbackLine feedback={answer && 'why' in answer ? { text: answer.why, kind: 'refused' } : null} />
        <p className={pageStyles.caution}>
          Lanecall times swimmers, it does not watch them: the lifeguard and the coach keep watch. No breath-holding
          targets; effort targets only for swimmers fit to train; local pool rules and your qualification come first.
        </p>
      </footer>
    </div>
  );
}
