/*
 * The sentence after a command. A screen reader reads it out when it changes.
 */

import type { ReactElement } from 'react';
import styles from './feedback-line.module.css';

interface FeedbackLineProps {
  /** Another `n` makes the same sentence a new one. */
  readonly feedback: { readonly text: string; readonly kind: 'done' | 'refused'; readonly n?: number } | null;
  /** Shown if there is no sentence. */
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
