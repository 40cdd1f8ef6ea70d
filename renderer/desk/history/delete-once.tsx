/*
 * Something that is deleted for good: asked once, in the place of the button that asks for it.
 */

import { useState, type ReactElement } from 'react';
import { Button } from '../../ui/parts/button.tsx';
import styles from './history-room.module.css';

interface DeleteOnceProps {
  /** "Delete this run". */
  readonly name: string;
  /** What will be gone, as a sentence. */
  readonly what: string;
  readonly why?: string | null;
  onDelete(): void;
  onRefused(why: string): void;
}

export function DeleteOnce({ name, what, why = null, onDelete, onRefused }: DeleteOnceProps): ReactElement {
  const [asks, setAsks] = useState(false);
  if (!asks) return <Button name={name} why={why} onPress={() => setAsks(true)} onRefused={onRefused} />;
  return (
    <div className={styles.asks} role="alertdialog" aria-label={name}>
      <p>{what}</p>
      <Button
        name="Delete for good"
        hint="hold"
        look="small stop"
        // It comes up where the question was asked for: the second of two quick taps must not be the answer.
        held
        onPress={() => {
          setAsks(false);
          onDelete();
        }}
        onRefused={onRefused}
      />
      <Button name="Keep it" look="small" onPress={() => setAsks(false)} />
    </div>
  );
}
