/*
 * The foot of the writing page: what was last said, and below it the one action, to run the session, with the rehearsal
 * and what helps with the line.
 */

import type { ReactElement } from 'react';
import { FeedbackLine } from '../../../ui/coach/feedback/feedback-line.tsx';
import { Button } from '../../../ui/parts/button.tsx';
import type { Done } from '../../library/use-sessions.ts';
import { NOTATION_KEY } from '../../reference/use-notation-key.ts';
import { Caution } from './caution.tsx';
import type { Opened } from '../file/open-session.ts';
import styles from '../write-screen.module.css';

interface WriteFootProps {
  /** Why it cannot be run; null where it can. */
  readonly why: string | null;
  readonly answer: Opened | null;
  readonly done: Done | null;
  /** What is to be said where nothing was done. */
  readonly news: string | null;
  readonly isNotationOpen: boolean;
  onRun(replace: boolean): void;
  onRehearse(): void;
  onPrint(): void;
  onExplain(): void;
  onNotation(): void;
  onRefused(why: string): void;
}

export function WriteFoot(props: WriteFootProps): ReactElement {
  const { why, answer, done, news, isNotationOpen, onRun, onRehearse, onPrint, onExplain, onNotation, onRefused } =
    props;
  return (
    <footer className={styles.foot}>
      <FeedbackLine feedback={feedbackOf(answer, done)} otherwise={news ?? ''} />
      <div className={styles.buttons}>
        <Button
          name="Run this session"
          hint="Ctrl+Enter: it waits for Start"
          keys="Control+Enter"
          look="primary start"
          why={why}
          onPress={() => onRun(false)}
          onRefused={onRefused}
        />
        <Button name="Rehearse" hint="leaves no record" why={why} onPress={onRehearse} onRefused={onRefused} />
        <Button name="Print" hint="sheets" why={why} onPress={onPrint} onRefused={onRefused} />
        <Button name="What this line means" label="This line" hint="F2" keys="F2" onPress={onExplain} />
        <Button
          name="Notation"
          hint={NOTATION_KEY}
          keys={NOTATION_KEY}
          expanded={isNotationOpen}
          onPress={onNotation}
        />
        {answer?.kind === 'going' ? (
          <Button name="End that run and run this" held hint="hold" onPress={() => onRun(true)} onRefused={onRefused} />
        ) : null}
        {done?.undo ? <Button name="Undo" hint="Ctrl+Z" look="small" onPress={done.undo} /> : null}
        <Caution className={styles.cautionBeside} />
      </div>
    </footer>
  );
}

function feedbackOf(answer: Opened | null, done: Done | null): { text: string; kind: 'done' | 'refused' } | null {
  if (answer && 'why' in answer) return { text: answer.why, kind: 'refused' };
  return done ? { text: done.text, kind: 'done' } : null;
}
