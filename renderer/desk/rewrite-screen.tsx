/*
 * Editing what is to come while the run goes on: the text that has begun stands fixed above, the rest is
 * written anew and put in force in one step.
 */

import { useId, useMemo, useRef, useState, type ReactElement } from 'react';
import { openPlan } from '../../app/core/plan/open-plan.ts';
import type { Fault } from '../../app/core/result.ts';
import { textLines } from '../../app/core/session/lines.ts';
import { firstLineToCome } from '../../app/core/run/rewrite.ts';
import { DeckButton } from '../ui/coach/deck-button.tsx';
import type { Moment } from '../ui/coach/frames.ts';
import { refusalOf } from '../ui/coach/offers.ts';
import { ActionBar } from './action-bar.tsx';
import type { DeskTools } from './desk-tools.ts';
import { RunHead } from './run-head.tsx';
import { FaultList, SessionEditor, putCursor } from './session-editor.tsx';
import { TimetableView } from './timetable-view.tsx';

const NONE: readonly Fault[] = [];

interface RewriteScreenProps {
  readonly tools: DeskTools;
  readonly moment: Moment;
  onClose(): void;
}

export function RewriteScreen({ tools, moment, onClose }: RewriteScreenProps): ReactElement {
  const { state, t } = moment.view;
  const { plan } = state;
  const first = firstLineToCome(state);
  const lines = useMemo(() => textLines(plan.source.text), [plan.source.text]);
  const fixed = lines.slice(0, first - 1);
  const [toCome, setToCome] = useState(() => lines.slice(first - 1).join('\n'));
  const [said, setSaid] = useState('');
  const faultsId = useId();
  const editor = useRef<HTMLTextAreaElement>(null);

  const text = [...fixed, ...(toCome === '' ? [] : [toCome])].join('\n');
  const opened = useMemo(() => openPlan({ text, lanesText: plan.source.lanesText }), [text, plan.source.lanesText]);
  const faults = opened.ok ? NONE : opened.faults.faults;
  const why = opened.ok ? refusalOf(state, { do: 'rewrite', text }, t) : 'The text has faults: see beside it.';
  const put = (): void => {
    void tools.hand.give({ do: 'rewrite', text }).then((ok) => {
      if (ok) onClose();
      else setSaid(tools.hand.store.getState().said?.text ?? '');
    });
  };
  return (
    <div className="rewrite">
      <RunHead tools={tools} moment={moment} />
      <main className="write-text">
        <h2>Begun: stays as it is</h2>
        <pre className="fixed-text" aria-label="Begun, stays as it is" tabIndex={0}>
          {fixed.join('\n')}
        </pre>
        <h2>To come, from line {first}</h2>
        <SessionEditor
          label="What is to come"
          text={toCome}
          faults={faults}
          faultsId={faultsId}
          firstLine={first}
          area={editor}
          onChange={setToCome}
        />
        <div className="rewrite-buttons">
          <DeckButton name="Put it in force" look="is-deep" why={why} onPress={put} onRefused={setSaid} />
          <DeckButton name="Leave it as it is" onPress={onClose} onRefused={setSaid} />
          <p className="said-text is-refused" role="status">
            {said}
          </p>
        </div>
      </main>
      <section className="write-plan" aria-label="The whole session" tabIndex={0}>
        {opened.ok ? (
          <TimetableView
            plan={opened.value}
            onLine={(line) => putCursor(editor.current, Math.max(1, line - first + 1), 1)}
          />
        ) : (
          <FaultList
            id={faultsId}
            faults={faults}
            onGoTo={(line, column) => putCursor(editor.current, Math.max(1, line - first + 1), column)}
          />
        )}
      </section>
      <ActionBar tools={tools} moment={moment} />
    </div>
  );
}
