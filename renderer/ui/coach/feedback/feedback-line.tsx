/*
 * The sentence after a command, where a screen says it: a screen reader reads it out when it changes.
 */

import type { ReactElement } from 'react';
import styles from './feedback-line.module.css';

interface FeedbackLineProps {
  /** `n` tells the same sentence, said once more, from the one before. */
  readonly feedback: { readonly text: string; readonly kind: 'done' | 'refused'; readonly n?: number } | null;
  /** What stands there where nothing is said. */
  readonly otherwise?: string;
  readonly className?: string | undefined;
}

export function FeedbackLine({ feedback, otherwise = '', className = '' }: FeedbackLineProps): ReactElement {
  return (
    <p className={`${styles.line} ${className}`} data-kind={feedback?.kind} role="status">
      {feedback ? <span key={feedback.n}>{feedback.text}</span> : otherwise}
    </p>
  );
}
