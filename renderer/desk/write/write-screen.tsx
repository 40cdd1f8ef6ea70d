/*
 * Writing a session: the text, its faults where it has some, else its timetable, and the one action, to run it.
 */

import { useCallback, useEffect, useId, useRef, useState, type DragEvent, type ReactElement } from 'react';
import { lanesWritten } from '../../../app/core/session/text/text-with-lane.ts';
import type { Source } from '../../../app/core/plan/plan.ts';
import type { Fault } from '../../../app/core/result.ts';
import type { DeckRun } from '../../link/store.ts';
import { Button } from '../../ui/parts/button.tsx';
import type { DeskTools } from '../desk-tools.ts';
import { About } from './frame/about.tsx';
import { AfterKeys } from './outcome/after-keys.tsx';
import { Beside, useBeside, type BesideName } from './frame/beside.tsx';
import { LanesPanel } from '../squads/lanes-panel.tsx';
import { ScreensPanel } from '../screens/screens-panel.tsx';
import type { MatchedClock } from '../actions/match-clock.tsx';
import type { DraftTexts } from './draft.ts';
import { EXAMPLE } from './example.ts';
import { createKnownBefore } from './known-before.ts';
import { openSession, type Opened } from './file/open-session.ts';
import { mendLine } from '../editor/lines/line-marks.ts';
import { SessionEditor } from '../editor/session-editor.tsx';
import { explainHere } from '../editor/meaning/set-meaning.ts';
import { putBelow } from '../editor/put-below.ts';
import { chosenLines, putCursor, redoIn, undoIn, type TextView } from '../editor/text-view.ts';
import { ChangedElsewhere } from '../library/changed-elsewhere.tsx';
import { FirstSteps } from '../library/first-steps/first-steps.tsx';
import { keptLines } from '../library/kept-lines.ts';
import { SessionsPanel } from '../library/sessions-panel.tsx';
import { usePasting } from '../library/keys/use-pasting.ts';
import { useSessions, type Done } from '../library/use-sessions.ts';
import { isNarrow, useSessionsToggle } from '../library/keys/use-sessions-toggle.ts';
import { useUndoKeys } from '../library/keys/use-undo-keys.ts';
import { Part } from '../panel/part.tsx';
import { NotationPanel } from '../reference/notation-panel.tsx';
import { placeFor, placeInParts } from '../reference/put-example.ts';
import { readSessionFile } from './file/session-file.ts';
import type { WarningGroup } from '../timetable/warning-groups.ts';
import type { WrittenOutcome } from '../timetable/written-outcome.ts';
import { useReading } from './reading/use-reading.ts';
import { useRunKey } from './use-run-key.ts';
import { useWriting } from './use-writing.ts';
import { WriteFoot } from './frame/write-foot.tsx';
import { WriteHead } from './frame/write-head.tsx';
import { OutcomeView } from './outcome/write-outcome.tsx';
import pageStyles from '../panel/page.module.css';
import styles from './write-screen.module.css';

interface WriteScreenProps {
  readonly tools: DeskTools;
  /** The run that is open, going or over; null without one. */
  readonly run: DeckRun | null;
  /** Whether it is over: nothing is in use then. */
  readonly isOver: boolean;
  readonly clock: MatchedClock;
  /** Back to the run that is there; null without one. */
  readonly onBack: (() => void) | null;
  /** Gives the reason where it is refused. */
  onRehearse(source: Source): string | null;
  onOpened(): void;
  /** The last fault of the text has gone. */
  onMended?(): void;
  onHistory(): void;
  onPrint(source: Source): void;
  /** What is to be said of a text that was put here before the page was shown; null for none. */
  readonly brought: string | null;
}

const NO_FAULTS: readonly Fault[] = [];
const NO_WARNINGS: readonly WarningGroup[] = [];

export function WriteScreen(props: WriteScreenProps): ReactElement {
  const { tools, run, isOver, clock, onBack, onRehearse, onOpened, onMended, onHistory, onPrint, brought } = props;
  const { writing } = tools;
  const written = useWriting(writing, run);
  const { sheet, puts, draft, saving, news } = written;
  const { text, lanesText } = draft;
  const runId = run?.id ?? null;
  const textsNow = (): DraftTexts => {
    const now = writing.state().draft;
    return { text: now.text, lanesText: now.lanesText };
  };
  // What the text was last changed as a part of, from beside it.
  const [part, setPart] = useState<string | null>(null);
  const typed = (texts: Partial<DraftTexts>, on?: number): void => {
    // What was said of the text before is over, and Ctrl+Z goes back as far.
    setDone(null);
    writing.type(texts, runId, on);
  };
  const sheetNow = (of: keyof DraftTexts): { readonly text: string; readonly sheet: number } => {
    const now = writing.state();
    return { text: now.draft[of], sheet: of === 'text' ? now.sheet : 0 };
  };
  const setTextBeside = (next: string, asPart: string | null = null): void => {
    setPart(asPart);
    writing.write({ text: next }, runId);
  };
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
  const beside = useBeside();
  const faultsId = useId();
  const [unfinished, setUnfinished] = useState<number | null>(null);
  const [busy, setBusy] = useState(false);
  const editor = useRef<TextView>(null);
  const [begun, setBegun] = useState(0);
  // Whoever begins a text wants to write, and not to look for the field first.
  useEffect(() => {
    if (begun > 0) editor.current?.focus();
  }, [begun]);
  const lanesEditor = useRef<TextView>(null);
  const [known] = useState(() => createKnownBefore(tools.askLibrary));

  const { read, fit, explain } = useReading(text, lanesText.trim() === '' ? null : lanesText);
  const outcome = read?.outcome ?? null;
  const faults = outcome?.kind === 'faults' ? outcome : null;
  const wasFaulty = useRef(false);
  useEffect(() => {
    if (outcome === null) return;
    if (wasFaulty.current && !faults) onMended?.();
    wasFaulty.current = faults !== null;
  }, [outcome, faults, onMended]);
  const isRead = (): boolean => read?.source.text === textsNow().text;
  const explainNow = (line: number): ReturnType<typeof explain> => (isRead() ? explain(line) : Promise.resolve(null));

  const sayNothing = (): void =>
    say(
      faults
        ? 'Mend the faults first: then each line can be explained.'
        : isRead()
          ? 'Nobody swims on this line: put the cursor on a set.'
          : 'The text is being read: ask again in a moment.',
    );

  const shelf = useSessionsToggle();
  const isChanged = saving.changed !== null;
  const showsSessions = shelf.isOpen && !isChanged;
  /** Opens what may stand beside the text, unless a choice is waited for there. */
  const besideChoice = (open: () => void): void =>
    isChanged ? say(`Choose first what becomes of ${saving.file?.name}: it was changed elsewhere.`) : open();
  const toggleBeside = (name: BesideName): void => besideChoice(() => beside.toggle(name));
  const toggleSessions = (): void => {
    // Where there is room for one of them, the last asked for has it.
    const isInPlace = shelf.isOpen && !(beside.open !== null && isNarrow());
    if (isNarrow()) beside.close();
    if (isInPlace || !shelf.isOpen) shelf.toggle();
  };
  const undo = (): void => {
    undoIn(editor.current);
    setDone(null);
  };
  const done = told === 'brought' ? { text: brought ?? '', undo } : told;
  const sessions = useSessions({
    tools,
    isSeen: showsSessions,
    undo,
    insert: (lines) => {
      const view = editor.current;
      if (view) putBelow(view, placeInParts(textsNow().text, chosenLines(view).to), lines);
    },
    onShown: shelf.leaveRoom,
    onBegun: () => setBegun((n) => n + 1),
    onDone: tell,
    onRefused: say,
  });
  useUndoKeys(undo, () => redoIn(editor.current));
  const bring = (whole: string, from: string | null): void => {
    writing.put({ text: whole, lanesText: '', from, during: runId });
    tell({ text: `${from ?? 'What was pasted'} is a session of its own now.`, undo });
  };
  const take = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    const given = await readSessionFile(file);
    if (given.ok) bring(given.text, file.name);
    else say(given.why);
  };
  usePasting(
    (pasted) => bring(pasted, null),
    (file) => void take(file),
  );
  const keepLines = (): void => {
    const kept = editor.current && keptLines(textsNow().text, chosenLines(editor.current));
    if (kept) void sessions.keepPiece(kept);
    else say('Put the cursor into a part first, or choose the lines to keep.');
  };
  const putExample = (example: string): void => {
    if (!editor.current) return;
    const place = placeFor(example, textsNow().text, chosenLines(editor.current).to);
    if (place.kind === 'there') {
      putCursor(editor.current, place.line);
      return say(`The session has it already, on line ${place.line}: change it there.`);
    }
    const on = putBelow(editor.current, place.line, place.lines);
    tell({ text: `Put in on line ${on}.`, undo });
  };
  const drop = (event: DragEvent): void => {
    event.preventDefault();
    void take(event.dataTransfer.files[0]);
  };
  const open = async (replace: boolean): Promise<void> => {
    // What was typed last, drawn or not.
    const texts = textsNow();
    setBusy(true);
    const reply = await openSession({ ...sourceOf(texts), clockPhase: clock.now() }, replace);
    setBusy(false);
    setDone(null);
    setAnswer(reply);
    if (reply.kind !== 'opened') return;
    writing.openedAs(reply.run, texts);
    onOpened();
  };
  const why = busy
    ? 'It is being opened.'
    : faults
      ? 'The text has faults: mend them first.'
      : outcome?.kind === 'nothing'
        ? 'Write a set first, as in 4 x 50 easy @ 1:15, or open a session.'
        : null;
  useRunKey(() => (why === null ? void open(false) : say(why)));
  const goTo = useCallback((line: number): void => putCursor(editor.current, line), []);

  return (
    <div
      className={`${pageStyles.page} ${styles.write}`}
      data-sessions={showsSessions ? '' : undefined}
      data-beside={beside.open === null ? undefined : ''}
      onDragOver={(event) => event.preventDefault()}
      onDrop={drop}
    >
      <WriteHead
        {...{ tools, written, clock, onBack }}
        run={isOver ? null : run}
        isSessionsOpen={showsSessions}
        beside={{ ...beside, open: isChanged ? null : beside.open, toggle: toggleBeside }}
        onSessions={() => besideChoice(toggleSessions)}
        onHistory={onHistory}
        onRefused={say}
      />
      {showsSessions ? (
        <div className={`${styles.sessions} ${pageStyles.card} ${pageStyles.scrolls}`}>
          <AfterKeys>
            <Part tools={tools} name="The sessions" onClose={shelf.toggle}>
              <SessionsPanel
                sessions={sessions}
                current={saving.file?.name ?? null}
                field={shelf.field}
                onFile={(file) => void take(file)}
                onKeep={keepLines}
                onClose={shelf.toggle}
              />
            </Part>
          </AfterKeys>
        </div>
      ) : null}
      <main className={styles.text}>
        <SessionEditor
          label="Session"
          text={text}
          puts={puts}
          sheet={sheet}
          now={() => sheetNow('text')}
          part={part}
          undos={writing.undos}
          begins={(before, after) => writing.begins(before, after)}
          faults={faults?.in === 'session' ? faults.faults : NO_FAULTS}
          warnings={warningsOf(outcome)}
          read={read?.source.text ?? null}
          faultsId={faultsId}
          area={editor}
          known={known}
          explain={explainNow}
          onNothing={sayNothing}
          placeholder={'Write it as on the whiteboard,\nor paste or drop one here.'}
          onUnfinished={setUnfinished}
          onChange={(next, on) => typed({ text: next }, on)}
        />
        {showLanes ? (
          <SessionEditor
            label="Lanes"
            text={lanesText}
            puts={puts}
            faults={faults?.in === 'lanes' ? faults.faults : NO_FAULTS}
            read={read?.source.lanesText ?? null}
            faultsId={faultsId}
            area={lanesEditor}
            placeholder="lane 1 css 1:20, 5 swimmers"
            onUnfinished={setUnfinished}
            onChange={(next) => typed({ lanesText: next })}
          />
        ) : null}
      </main>
      {saving.changed && saving.file ? (
        <Beside tools={tools} name="What was changed elsewhere">
          <ChangedElsewhere writing={writing} name={saving.file.name} mine={text} now={saving.changed.now} />
        </Beside>
      ) : beside.open === 'screens' ? (
        <AfterKeys>
          <Beside tools={tools} name="The screens" onClose={beside.close}>
            <ScreensPanel tools={tools} onClose={beside.close} />
          </Beside>
        </AfterKeys>
      ) : beside.open === 'lanes' ? (
        <Beside tools={tools} name="The lanes" onClose={beside.close}>
          <LanesPanel
            {...{ sheet, text, lanesText }}
            textNow={() => textsNow().text}
            onText={setTextBeside}
            onLine={goTo}
            onClose={beside.close}
          >
            <Button
              name="Lanes for every session"
              hint="in a text of their own"
              look="small"
              pressed={showLanes}
              why={lanesText === '' ? null : 'It has lanes in it: empty it first.'}
              onPress={() => setLanesWanted(!showLanes)}
              onRefused={say}
            />
          </LanesPanel>
        </Beside>
      ) : beside.open === 'notation' ? (
        <AfterKeys>
          <Beside tools={tools} name="The notation" onClose={beside.close}>
            <NotationPanel lanes={lanesOf(text)} onPut={putExample} onClose={beside.close} />
          </Beside>
        </AfterKeys>
      ) : null}
      <section
        className={`${styles.plan} ${pageStyles.card} ${pageStyles.scrolls}`}
        aria-label="What it comes to"
        tabIndex={0}
        hidden={beside.open !== null || isChanged}
      >
        <AfterKeys>
          <Part tools={tools} name="The timetable" again={read}>
            <OutcomeView
              {...{ outcome, unfinished, text, faultsId }}
              textNow={() => textsNow().text}
              found={fit}
              onLine={goTo}
              onFault={(line, column) =>
                putCursor((faults?.in === 'lanes' ? lanesEditor : editor).current, line, column)
              }
              onMend={(line) => mendLine((faults?.in === 'lanes' ? lanesEditor : editor).current, line)}
              onText={setTextBeside}
            >
              {text === EXAMPLE && saving.file === null && run === null ? (
                <FirstSteps onNew={() => sessions.begin('', null)} onNotation={() => beside.toggle('notation')} />
              ) : null}
            </OutcomeView>
          </Part>
        </AfterKeys>
        <About />
      </section>
      <AfterKeys>
        <WriteFoot
          {...{ why, answer, done, news }}
          isNotationOpen={beside.open === 'notation' && !isChanged}
          onRun={(replace) => void open(replace)}
          onRehearse={() => {
            const refused = onRehearse(sourceOf(textsNow()));
            if (refused !== null) say(refused);
          }}
          onPrint={() => onPrint(sourceOf(textsNow()))}
          onExplain={() =>
            void explainHere(editor.current, explainNow).then((isThere) => (isThere ? undefined : sayNothing()))
          }
          onNotation={() => toggleBeside('notation')}
          onRefused={say}
        />
      </AfterKeys>
    </div>
  );
}

function warningsOf(outcome: WrittenOutcome | null): readonly WarningGroup[] {
  if (outcome?.kind === 'fits') return outcome.warnings;
  return (outcome?.kind === 'faults' && outcome.meanwhile?.warnings) || NO_WARNINGS;
}

function sourceOf({ text, lanesText }: DraftTexts): Source {
  return { text, lanesText: lanesText.trim() === '' ? null : lanesText };
}

function lanesOf(text: string): readonly number[] {
  const numbers = lanesWritten(text).lanes.map(({ number }) => number);
  return numbers.length > 0 ? numbers : [1];
}
