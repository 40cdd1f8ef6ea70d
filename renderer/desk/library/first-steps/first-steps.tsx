/*
 * What a coach who sees the program for the first time is told, beside the sample: three sentences and the next step.
 */

import type { ReactElement } from 'react';
import { Button } from '../../../ui/parts/button.tsx';
import styles from './first-steps.module.css';

interface FirstStepsProps {
  onNew(): void;
  onNotation(): void;
}

export function FirstSteps({ onNew, onNotation }: FirstStepsProps): ReactElement {
  return (
    <section className={styles.steps} aria-label="First steps">
      <p>
        This is a sample. Write a session as on a whiteboard, one set to a line. Below you see when each lane leaves,
        and whether it fits the hour. What you type is saved by itself, under Sessions.
      </p>
      <p>
        <b>Next:</b> change a number and see what it does, or begin your own.
      </p>
      <div className={styles.deeds}>
        <Button name="Begin my own" look="small deep" onPress={onNew} />
        <Button name="How lines are written" hint="F1" look="small" onPress={onNotation} />
      </div>
    </section>
  );
}
