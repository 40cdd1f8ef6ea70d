/*
 * Writing a session: the text, its faults where it has some, else its timetable, and the one action,
 * to run it.
 */

import { useDeferredValue, useId, useMemo, useRef, useState, type DragEvent, type ReactElement } from 'react';
import { openPlan } from '../../app/core/plan/open-plan.ts';
import type { Fault } from '../../app/core/result.ts';
import { DeckButton } from '../ui/coach/deck-button.tsx';
import type { DeskTools } from './desk-tools.ts';
import { DRAFT, LANES_DRAFT, useDraft } from './draft.ts';
import { EXAMPLE } from './example.ts';
import { LightSwitch } from './light-switch.tsx';
import { useMatchedClock, MatchClock } from './match-clock.tsx';
import { openSession, type Opened } from './open-session.ts';
import { FaultList, SessionEditor, putCursor } from './session-editor.tsx';
import { Part } from './part.tsx';
import { readSessionFile } from './session-file.ts';
import { TimetableView } from './timetable-view.tsx';
import { WriteLate } from './write-late.tsx';

interface WriteScreenProps {
  readonly tools: DeskTools;
  /** Back to the run that is there; null without one. */
  readonly onBack: (() => void) | null;
  onOpened(): void;
}

const NONE: readonly Fault[] = [];

export function WriteScreen({ tools, onBack, onOpened }: WriteScreenProps): ReactElement {
  const [text, setText] = useDraft(DRAFT, tools.link.store.getState().run?.state.plan.source.text ?? '');
  const [lanesText, setLanesText] = useDraft(LANES_DRAFT, '');
  const [showLanes, setShowLanes] = useState(lanesText !== '');
  const [answer, setAnswer] = useState<Opened | null>(null);
  const faultsId = useId();
  const [busy, setBusy] = useState(false);
  const phase = useMatchedClock();
  const editor = useRef<HTMLTextAreaElement>(null);
  const lanesEditor = useRef<HTMLTextAreaElement>(null);

  const source = useDeferredValue(text);
  const lanes = useDeferredValue(lanesText.trim() === '' ? null : lanesText);
  const opened = useMemo(() => openPlan({ text: source, lanesText: lanes }), [source, lanes]);
  const faults = opened.ok || (source === '' && lanes === null) ? null : opened.faults;

  const take = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    const read = await readSessionFile(file);
    if (read.ok) setText(read.text);
    else setAnswer({ kind: 'failed', why: read.why });
  };
  const drop = (event: DragEvent): void => {
    event.preventDefault();
    void take(event.dataTransfer.files[0]);
  };
  const run = async (replace: boolean): Promise<void> => {
    setBusy(true);
    const texts = { text, lanesText: lanesText.trim() === '' ? null : lanesText, clockPhase: phase.now() };
    const reply = await openSession(texts, replace);
    setBusy(false);
    setAnswer(reply);
    if (reply.kind === 'opened') onOpened();
  };
  const why = busy
    ? 'It is being opened.'
    : opened.ok
      ? null
      : source === ''
        ? 'Write or open a session first.'
        : 'The text has faults: see beside it.';

  return (
    <div className="write" onDragOver={(event) => event.preventDefault()} onDrop={drop}>
      <header className="write-head">
        <h1>Write the session</h1>
        <label className="deck-button is-small file">
          Open…
          <input
            type="file"
            accept=".txt,.lanecall,text/plain"
            aria-label="Open a session"
            onChange={(event) => void take(event.target.files?.[0])}
          />
        </label>
        <DeckButton
          name="Example"
          look="is-small"
          why={text === '' ? null : 'Empty the text first.'}
          onPress={() => setText(EXAMPLE)}
          onRefused={failed(setAnswer)}
        />
        <DeckButton
          name="Lanes apart"
          look="is-small"
          pressed={showLanes}
          onPress={() => setShowLanes(!showLanes)}
          onRefused={failed(setAnswer)}
        />
        <MatchClock phase={phase} />
        <LightSwitch light={tools.light} />
        {onBack ? (
          <DeckButton name="Back to the run" look="is-small" onPress={onBack} onRefused={failed(setAnswer)} />
        ) : null}
      </header>
      <main className="write-text">
        <SessionEditor
          label="Session"
          text={text}
          faults={faults?.in === 'session' ? faults.faults : NONE}
          faultsId={faultsId}
          firstLine={1}
          area={editor}
          placeholder={'Write it as on the whiteboard,\nopen a file, or drop one here.'}
          onChange={setText}
        />
        {showLanes ? (
          <SessionEditor
            label="Lanes"
            text={lanesText}
            faults={faults?.in === 'lanes' ? faults.faults : NONE}
            faultsId={faultsId}
            firstLine={1}
            area={lanesEditor}
            placeholder="lane 1 css 1:20, 5 swimmers"
            onChange={setLanesText}
          />
        ) : null}
      </main>
      <section className="write-plan" aria-label="What it comes to" tabIndex={0}>
        <Part tools={tools} name="The timetable" again={opened}>
          {faults ? (
            <FaultList
              id={faultsId}
              faults={faults.faults}
              onGoTo={(line, column) => putCursor((faults.in === 'lanes' ? lanesEditor : editor).current, line, column)}
            />
          ) : opened.ok ? (
            <TimetableView plan={opened.value} onLine={(line) => putCursor(editor.current, line, 1)}>
              <WriteLate plan={opened.value} onText={(cut) => (source === text ? setText(cut) : undefined)} />
            </TimetableView>
          ) : (
            <p className="write-empty">The timetable of every lane stands here as you write.</p>
          )}
        </Part>
      </section>
      <footer className="write-foot">
        <DeckButton
          name="Run this session"
          look="is-primary is-start"
          why={why}
          onPress={() => void run(false)}
          onRefused={failed(setAnswer)}
        />
        {answer?.kind === 'going' ? (
          <DeckButton
            name="End that run and run this"
            held
            hint="hold"
            onPress={() => void run(true)}
            onRefused={failed(setAnswer)}
          />
        ) : null}
        <p className="said-text is-refused" role="status">
          {answer && 'why' in answer ? answer.why : ''}
        </p>
        <p className="caution">
          Lanecall times swimmers, it does not watch them: the lifeguard and the coach keep watch. No breath-holding
          targets; effort targets only for swimmers fit to train; local pool rules and your qualification come first.
        </p>
      </footer>
    </div>
  );
}

function failed(setAnswer: (answer: Opened) => void): (why: string) => void {
  return (why) => setAnswer({ kind: 'failed', why });
}
