/*
 * Edit: the whole text of the session while its run goes on. Lines that have begun are locked. Beside the text is what it
 * comes to; the next leaves, the last sentence and the actions stay in sight.
 */

import { useEffect, useId, useMemo, useRef, useState, type ReactElement } from 'react';
import { firstLineOpen } from '../../../app/core/run/view/editing.ts';
import type { Fault } from '../../../app/core/result.ts';
import { createBounceGuard } from '../../ui/coach/commands/bounce.ts';
import { Button } from '../../ui/parts/button.tsx';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { forgottenNames } from '../../../app/core/run/feedback/cut-words.ts';
import { FeedbackLine } from '../../ui/coach/feedback/feedback-line.tsx';
import { useActions } from '../../ui/coach/use-deck.ts';
import { ActionBar } from '../actions/action-bar.tsx';
import type { DeskTools } from '../desk-tools.ts';
import { EditNews } from './edit-news.tsx';
import { createOutcomeCache } from './edit-outcome.ts';
import { brokenLock, isTyped, mergeEdit, withLockedLines } from './edit-text.ts';
import { LaneLeaves } from '../lanes/lane-leaves.tsx';
import { Part, StopButton } from '../panel/part.tsx';
import { RewriteOutcome } from './rewrite-outcome.tsx';
import { RunHead } from '../run/run-head.tsx';
import { mendLine } from '../editor/lines/line-marks.ts';
import { SessionEditor } from '../editor/session-editor.tsx';
import { giveKeyboard, putCursor, type TextView } from '../editor/text-view.ts';
import { useSettled } from '../editor/use-settled.ts';
import { useTextKey } from './use-text-key.ts';
import { useEdit } from './use-edit.ts';
import type { WarningGroup } from '../timetable/warning-groups.ts';
import pageStyles from '../panel/page.module.css';
import styles from './rewrite-screen.module.css';

const NO_FAULTS: readonly Fault[] = [];
const NO_WARNINGS: readonly WarningGroup[] = [];

interface RewriteScreenProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  /** Opened by touch: no on-screen keyboard comes up unasked. */
  readonly byTouch: boolean;
  onClose(): void;
}

export function RewriteScreen({ tools, moment, byTouch, onClose }: RewriteScreenProps): ReactElement {
  const { actions } = tools;
  const { run, view } = moment;
  const inForce = view.plan.source.text;
  const locked = useMemo(() => firstLineOpen(view) - 1, [view]);
  const edit = useEdit(run.id, inForce);
  const text = edit.edited?.text ?? inForce;
  const area = useRef<TextView>(null);
  const opened = useRef({ byTouch, line: locked + 1 });
  useEffect(() => {
    // With the text in sight the coach types: no letter may be a command then.
    if (!opened.current.byTouch) giveKeyboard(area.current, opened.current.line);
  }, []);
  const faultsId = useId();
  const [unfinished, setUnfinished] = useState<number | null>(null);

  const [outcomeOf] = useState(createOutcomeCache);
  const source = useSettled(text);
  const outcome = outcomeOf(moment, source);
  const broken = useMemo(() => (text === inForce ? null : brokenLock(inForce, text, locked)), [inForce, text, locked]);
  const merged = useMemo(
    () => (edit.edited && edit.edited.base !== inForce ? mergeEdit(edit.edited, inForce) : null),
    [edit.edited, inForce],
  );
  const refuse = (why: string): void => actions.say(why, 'refused');
  const accepts = (next: string): boolean => {
    const fits = isTyped(inForce, text, next, locked);
    if (!fits) refuse(lockedText(locked));
    return fits;
  };

  const why =
    merged !== null
      ? `The session has been changed since: ${merged.theirs}. What to do is said above the buttons.`
      : text === inForce
        ? 'Nothing is changed yet.'
        : broken !== null
          ? `Line ${broken} has begun since you changed it: put it back first.`
          : outcome.kind === 'faults'
            ? 'The text has faults: mend them first.'
            : outcome.kind === 'refused'
              ? outcome.why
              : null;
  useTextKey(() => area.current?.focus());
  const [bounces] = useState(createBounceGuard);
  const open = useRef(true);
  useEffect(() => {
    open.current = true;
    return () => void (open.current = false);
  }, []);
  const use = async (): Promise<void> => {
    const command = { do: 'rewrite', text } as const;
    // A refused command did nothing, so pressing again at once is no bounce.
    if (actions.refusal(command) === null && !bounces.accept(text, performance.now())) return;
    const ok = await actions.give(command, edit.edited?.base ?? inForce);
    // If Edit was closed meanwhile, it may be open again with newer text, which must stay.
    if (ok && open.current && edit.used(text)) onClose();
  };
  useActions(actions, (state) => state.feedback);
  const feedback = actions.feedback();
  return (
    <div className={`${pageStyles.page} ${styles.rewrite}`}>
      <Part tools={tools} name="The head" area="head">
        <RunHead tools={tools} moment={moment} />
      </Part>
      <Part tools={tools} name="The next leaves">
        <LaneLeaves tools={tools} moment={moment} />
      </Part>
      <main className={styles.text}>
        <SessionEditor
          label="Session"
          text={text}
          faults={outcome.kind === 'faults' ? outcome.faults : NO_FAULTS}
          warnings={outcome.kind === 'fits' ? outcome.warnings : NO_WARNINGS}
          read={source}
          faultsId={faultsId}
          locked={locked}
          area={area}
          accepts={accepts}
          onUnfinished={setUnfinished}
          onChange={edit.type}
        />
        <EditNews
          locked={locked}
          broken={broken}
          merged={merged}
          forgets={outcome.kind === 'fits' ? forgottenNames(view.plan.source.text, outcome.forgets) : []}
          onPutBack={() => edit.swap(withLockedLines(inForce, text, locked))}
          onMerge={(both) => edit.remake(inForce, both)}
          onGiveUp={edit.close}
        />
      </main>
      <section
        className={`${pageStyles.card} ${pageStyles.scrolls} ${styles.plan}`}
        aria-label="What it comes to"
        tabIndex={0}
      >
        <Part tools={tools} name="The timetable" again={outcome}>
          <RewriteOutcome
            outcome={outcome}
            unfinished={unfinished}
            isChanged={text !== inForce}
            run={run}
            faultsId={faultsId}
            onLine={(line, column) => putCursor(area.current, line, column)}
            onMend={(line) => mendLine(area.current, line)}
          />
        </Part>
      </section>
      <div className={styles.feedback}>
        <FeedbackLine feedback={feedback} className={styles.sentence} />
        <div className={styles.buttons}>
          <Button name="Use from now on" look="deep" why={why} onPress={() => void use()} onRefused={refuse} />
          {edit.edited ? <Button name="Drop my changes" look="small" onPress={edit.close} onRefused={refuse} /> : null}
          {edit.before !== null ? (
            <Button
              name="Bring my text back"
              look="small"
              onPress={() => edit.swap(edit.before ?? inForce)}
              onRefused={refuse}
            />
          ) : null}
          <Button
            name="Back to the lanes"
            hint={edit.edited ? 'what you typed is kept' : undefined}
            look="small"
            onPress={onClose}
            onRefused={refuse}
          />
        </div>
      </div>
      <Part tools={tools} name="The row of actions" area="actions" instead={<StopButton tools={tools} />}>
        <ActionBar tools={tools} moment={moment} few />
      </Part>
    </div>
  );
}

function lockedText(locked: number): string {
  return locked === 1
    ? 'Line 1 has begun: it stays as it is.'
    : `Lines 1 to ${locked} have begun: they stay as they are.`;
}
