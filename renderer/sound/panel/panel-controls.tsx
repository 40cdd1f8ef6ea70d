/*
 * The controls of the sound's settings, large enough for a wet thumb.
 */

import { useState, type MouseEvent, type ReactElement, type ReactNode } from 'react';
import styles from './sound-panel.module.css';

interface PanelButtonProps {
  readonly children: ReactNode;
  readonly pressed?: boolean;
  /** Why it cannot be pressed now; null or nothing where it can. Said when it is pressed all the same. */
  readonly why?: string | null;
  onPress(): void;
}

export function PanelButton({ children, pressed, why = null, onPress }: PanelButtonProps): ReactElement {
  const [refused, setRefused] = useState(false);
  return (
    <>
      <button
        type="button"
        className={styles.button}
        aria-pressed={pressed}
        aria-disabled={why === null ? undefined : true}
        title={why ?? undefined}
        onMouseDown={keepFocus}
        onClick={() => (why === null ? onPress() : setRefused(true))}
      >
        {children}
      </button>
      {why !== null && refused ? <p className={styles.said}>{why}</p> : null}
    </>
  );
}

interface CheckFieldProps {
  readonly children: ReactNode;
  readonly checked: boolean;
  onChange(checked: boolean): void;
}

export function CheckField({ children, checked, onChange }: CheckFieldProps): ReactElement {
  return (
    <label className={styles.check}>
      <input type="checkbox" checked={checked} onChange={(event) => onChange(event.target.checked)} />
      <span>{children}</span>
    </label>
  );
}

interface SelectFieldProps<Value extends string> {
  readonly name: string;
  readonly value: Value;
  readonly choices: readonly (readonly [Value, string])[];
  onChange(value: Value): void;
}

export function SelectField<Value extends string>(props: SelectFieldProps<Value>): ReactElement {
  const { name, value, choices, onChange } = props;
  const choose = (chosen: string): void => {
    const found = choices.find(([each]) => each === chosen);
    if (found) onChange(found[0]);
  };
  return (
    <label className={styles.field}>
      {name}
      <select value={value} onChange={(event) => choose(event.target.value)}>
        {choices.map(([each, words]) => (
          <option key={each} value={each}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}

/** A tap takes no keyboard focus, so that Space stays Stop. */
function keepFocus(event: MouseEvent): void {
  event.preventDefault();
}
