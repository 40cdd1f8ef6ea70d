/*
 * A whole number set by two buttons, one less and one more.
 */

import type { ReactElement } from 'react';

interface StepperProps {
  readonly name: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  onChange(value: number): void;
}

export function Stepper({ name, value, least, most, onChange }: StepperProps): ReactElement {
  const step = (by: number, label: string, sign: string): ReactElement => {
    const next = value + by;
    const there = next >= least && next <= most;
    return (
      <button
        type="button"
        className="deck-button is-step"
        aria-label={`${name}: ${label}`}
        aria-disabled={there ? undefined : true}
        title={there ? undefined : `From ${least} to ${most}`}
        onMouseDown={(event) => event.preventDefault()}
        onClick={() => (there ? onChange(next) : undefined)}
      >
        {sign}
      </button>
    );
  };
  return (
    <div className="stepper" role="group" aria-label={name}>
      <span className="stepper-name">{name}</span>
      {step(-1, 'one less', '−')}
      <output className="stepper-value">{value}</output>
      {step(1, 'one more', '+')}
    </div>
  );
}
