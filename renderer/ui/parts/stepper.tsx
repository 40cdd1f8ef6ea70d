/*
 * A whole number with two buttons, one less and one more. React Aria's number field is typed into: while it has the
 * keyboard, Space would not be Stop.
 */

import type { ReactElement } from 'react';
import { Button } from './button.tsx';
import styles from './stepper.module.css';

interface StepperProps {
  readonly name: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  onChange(value: number): void;
  /** Called with the least and most, if it goes no further. */
  onRefused(why: string): void;
}

export function Stepper({ name, value, least, most, onChange, onRefused }: StepperProps): ReactElement {
  const step = (by: number, label: string, sign: string): ReactElement => {
    const next = value + by;
    const isThere = next >= least && next <= most;
    return (
      <Button
        name={`${name}: ${label}`}
        label={sign}
        why={isThere ? null : `${name}: from ${least} to ${most}.`}
        onPress={() => onChange(next)}
        onRefused={onRefused}
      />
    );
  };
  return (
    <div className={styles.stepper} role="group" aria-label={name}>
      <span className={styles.name}>{name}</span>
      {step(-1, 'one less', '−')}
      <output className={styles.value}>{value}</output>
      {step(1, 'one more', '+')}
    </div>
  );
}
