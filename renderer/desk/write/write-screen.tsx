/*
 * Writing a session: the text, its faults where it has some, else its timetable, and the one action,
 * to run it.
 */

import { useId, useMemo, useRef, useState, type DragEvent, type ReactElement } from 'react';
import { openPlan } from '../../../app/core/plan/open-plan.ts';
import { warningsOf } from '../../../app/core/plan/warnings/warnings.ts';
import type { Source } from '../../../app/core/plan/plan.ts';
import type { Fault } from '../../../app/core/result.ts';
import type { DeckRun } from '../../link/store.ts';
import { FeedbackLine } from '../../ui/coach/feedback/feedback-line.tsx';
import { Button } from '../../ui/parts/button.tsx';
import type { DeskTools } from '../desk-tools.ts';
import { About } from './about.tsx';
import { LightSwitch } from '../actions/light-switch.tsx';
import { ScreensButton, useScreensToggle } from '../screens/screens-button.tsx';
import { LanesPanel } from '../squads/lanes-panel.tsx';
import { useEscape } from '../squads/use-escape.ts';
import { ScreensPanel } from '../screens/screens-panel.tsx';
import { MatchClock, type MatchedClock } from '../actions/match-clock.tsx';
import { EXAMPLE } from './example.ts';
import { createKnownBefore } from './known-before.ts';
import { openSession, type Opened } from './open-session.ts';
import { FaultList } from '../editor/fault-list.tsx';
import { SessionEditor } from '../editor/session-editor.tsx';
import { chosenLines, putCursor, putIn, redoIn, undoIn, type TextView } from '../editor/text-view.ts';
import { useSettled } from '../editor/use-settled.ts';
import { HourPicture } from '../hour/hour-picture.tsx';
import { ChangedElsewhere } from '../library/changed-elsewhere.tsx';
import { FirstSteps } from '../library/first-steps.tsx';
import { keptLines } from '../library/kept-lines.ts';
import { SessionsPanel } from '../library/sessions-panel.tsx';
import { usePasting } from '../library/use-pasting.ts';
import { useSessions, type Done } from '../library/use-sessions.ts';
import { isNarrow, SESSIONS_KEY, useSessionsToggle } from '../library/use-sessions-toggle.ts';
import { useUndoKeys } from '../library/use-undo-keys.ts';
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
  /** Gives the reason where it is refused. */
  onRehearse(source: Source): string | null;
  onOpened(): void;
  onHistory(): void;
  /** What is to be said of a text that was put here before the page was shown; null for none. */
  readonly brought: string | null;
}

const NO_FAULTS: readonly Fault[] = [];
const NO_WARNINGS: readonly WarningGroup[] = [];

export function WriteScreen(props: WriteScreenProps): ReactElement {
  const { tools, run, clock, onBack, onRehearse, onOpened, onHistory, brought } = props;
  const { writing } = tools;
  const written = useWriting(writing, run);
  const { sheet, draft, saving, news } = written;
  const { text, lanesText } = draft;
  const runId = run?.id ?? null;
  const setText = (next: string, on?: number): void => writing.write({ text: next }, runId, on);
  const [lanesWanted, setLanesWanted] = useState(false);
  const showLanes = lanesWanted || lanesText !== '';
  const [answer, setAnswer] = useState<Opened | null>(null);
  const [told, setDone] = useState<Done | 'brought' | null>(brought === null ? null : 'brought');
  const say = (why: string): void => {
    setAnswer({ kind: 'failed', why });
    setDone(null);
  };
  const tell = (what: Done): void => {
    setAnswer(null);
    setDone(what);
  };
  const [screensOpen, toggleScreens] = useScreensToggle();
  const [lanesOpen, setLanesOpen] = useState(false);
  const toggleLanes = (): void => {
    if (screensOpen) toggleScreens();
    setLanesOpen(screensOpen || !lanesOpen);
  };
  // One Escape is one step: the screens stand over the lanes.
  useEscape(() => (screensOpen ? undefined : setLanesOpen(false)));
  const faultsId = useId();
  const [busy, setBusy] = useState(false);
  const editor = useRef<TextView>(null);
  const lanesEditor = useRef<TextView>(null);
  const [known] = useState(() => createKnownBefore(tools.askLibrary));

  const source = useSettled(text);
  const settledLanes = useSettled(lanesText);
  const lanes = settledLanes.trim() === '' ? null : settledLanes;
  const opened = useMemo(() => openPlan({ text: source, lanesText: lanes }), [source, lanes]);
  const faults = opened.ok || (source === '' && lanes === null) ? null : opened.faults;
  const warnings = useMemo(() => (opened.ok ? warningGroups(warningsOf(opened.value)) : NO_WARNINGS), [opened]);

  const shelf = useSessionsToggle();
  const isChanged = saving.changed !== null;
  const showsSessions = shelf.isOpen && !isChanged;
  const panelOpen = screensOpen || lanesOpen;
  const toggleSessions = (): void => {
    // Where there is room for one of them, the last asked for has it.
    const isInPlace = shelf.isOpen && !(panelOpen && isNarrow());
    if (panelOpen && isNarrow()) {
      if (screensOpen) toggleScreens();
      setLanesOpen(false);
    }
    if (isInPlace || !shelf.isOpen) shelf.toggle();
  };
  const undo = (): void => {
    undoIn(editor.current);
    setDone(null);
  };
  const sessions = useSessions({
    tools,
    isSeen: showsSessions,
    undo,
    insert: (lines) => putIn(editor.current, lines),
    onShown: shelf.leaveRoom,
    onDone: tell,
    onRefused: say,
  });
  useUndoKeys(undo, () => redoIn(editor.current));
  const bring = (brought: string, from: string | null): void => {
    writing.put({ text: brought, lanesText: '', from, during: runId });
    tell({ text: `${from ?? 'What was pasted'} is a session of its own now.`, undo });
  };
  const take = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    const read = await readSessionFile(file);
    if (read.ok) bring(read.text, file.name);
    else say(read.why);
  };
  usePasting(
    (pasted) => bring(pasted, null),
    (file) => void take(file),
  );
  const keepLines = (): void => {
    const kept = editor.current && keptLines(text, chosenLines(editor.current));
    if (kept) void sessions.keepPiece(kept);
    else say('Put the cursor into a part first, or choose the lines to keep.');
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
    setDone(null);
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
    <div
      className={`${pageStyles.page} write`}
      data-sessions={showsSessions ? '' : undefined}
      data-beside={panelOpen ? '' : undefined}
      onDragOver={(event) => event.preventDefault()}
      onDrop={drop}
    >
      <header className="write-head">
        <div className="write-title">
          <WriteSource run={run} writing={writing} written={written} />
        </div>
        <Button
          name="Sessions"
          hint="Ctrl+O"
          keys={SESSIONS_KEY}
          look="small"
          expanded={shelf.isOpen}
          onPress={toggleSessions}
        />
        <Button name="History" look="small" onPress={onHistory} />
        <Button name="Lanes and squads" look="small" expanded={lanesOpen && !screensOpen} onPress={toggleLanes} />
        <MatchClock phase={clock} />
        <ScreensButton isOpen={screensOpen} onToggle={toggleScreens} />
        <LightSwitch light={tools.light} />
        {onBack ? <Button name="Back to the run" look="small" onPress={onBack} onRefused={say} /> : null}
      </header>
      {showsSessions ? (
        <div className={`write-sessions ${pageStyles.card} ${pageStyles.scrolls}`}>
          <Part tools={tools} name="The sessions" onClose={shelf.toggle}>
            <SessionsPanel
              sessions={sessions}
              current={saving.file?.name ?? null}
              asked={shelf.asked}
              onFile={(file) => void take(file)}
              onKeep={keepLines}
              onRefused={say}
              onClose={shelf.toggle}
            />
          </Part>
        </div>
      ) : null}
      <main className="write-text">
        <SessionEditor
          label="Session"
          text={text}
          sheet={sheet}
          undos={writing.undos}
          begins={(before, after) => writing.begins(before, after)}
          faults={faults?.in === 'session' ? faults.faults : NO_FAULTS}
          warnings={source === text ? warnings : NO_WARNINGS}
          faultsId={faultsId}
          area={editor}
          known={known}
          placeholder={'Write it as on the whiteboard,\nor paste or drop one here.'}
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
      {saving.changed && saving.file ? (
        <div className={`write-plan ${pageStyles.card} ${pageStyles.scrolls}`}>
          <Part tools={tools} name="What was changed elsewhere">
            <ChangedElsewhere writing={writing} name={saving.file.name} mine={text} now={saving.changed.now} />
          </Part>
        </div>
      ) : screensOpen ? (
        <div className={`write-plan ${pageStyles.card} ${pageStyles.scrolls}`}>
          <Part tools={tools} name="The screens" onClose={toggleScreens}>
            <ScreensPanel tools={tools} onClose={toggleScreens} />
          </Part>
        </div>
      ) : null}
      {lanesOpen && !screensOpen && !isChanged ? (
        <div className={`write-plan ${pageStyles.card} ${pageStyles.scrolls}`}>
          <Part tools={tools} name="The lanes" onClose={toggleLanes}>
            <LanesPanel
              sheet={sheet}
              text={text}
              lanesText={lanesText}
              onText={setText}
              onLine={(line) => putCursor(editor.current, line, 1)}
              onClose={toggleLanes}
            >
              <Button
                name="Lanes apart"
                hint="for every session"
                look="small"
                pressed={showLanes}
                why={lanesText === '' ? null : 'There are lanes in it: empty it first.'}
                onPress={() => setLanesWanted(!showLanes)}
                onRefused={say}
              />
            </LanesPanel>
          </Part>
        </div>
      ) : null}
      <section
        className={`write-plan ${pageStyles.card} ${pageStyles.scrolls}`}
        aria-label="What it comes to"
        tabIndex={0}
        hidden={panelOpen || isChanged}
      >
        <Part tools={tools} name="The timetable" again={opened}>
          {text === EXAMPLE && saving.file === null && run === null ? (
            <FirstSteps onNew={() => sessions.begin('', null)} />
          ) : null}
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
            <p className="write-empty">
              The timetable of every lane stands here as you write. Sessions has those that you wrote before, and
              samples to start from.
            </p>
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
        <Button
          name="Rehearse"
          hint="leaves no record"
          why={why}
          onPress={() => {
            const refused = onRehearse({ text, lanesText: lanesText.trim() === '' ? null : lanesText });
            if (refused !== null) say(refused);
          }}
          onRefused={say}
        />
        {answer?.kind === 'going' ? (
          <Button name="End that run and run this" held hint="hold" onPress={() => void open(true)} onRefused={say} />
        ) : null}
        <FeedbackLine
          feedback={feedbackOf(answer, told === 'brought' ? { text: brought ?? '' } : told)}
          otherwise={news ?? ''}
        />
        {told === 'brought' ? (
          <Button name="Undo" hint="Ctrl+Z" look="small" onPress={undo} />
        ) : told?.undo ? (
          <Button name="Undo" hint="Ctrl+Z" look="small" onPress={told.undo} />
        ) : null}
        <p className={pageStyles.caution}>
          Lanecall times swimmers, it does not watch them: the lifeguard and the coach keep watch. No breath-holding
          targets; effort targets only for swimmers fit to train; local pool rules and your qualification come first.
        </p>
      </footer>
    </div>
  );
}

function feedbackOf(answer: Opened | null, done: Done | null): { text: string; kind: 'done' | 'refused' } | null {
  if (answer && 'why' in answer) return { text: answer.why, kind: 'refused' };
  return done ? { text: done.text, kind: 'done' } : null;
}
