/*
 * A choice of one of a few, in the browser's own list. React Aria's list would hide the rest of the page from assistive
 * technology and stop it from scrolling while it is open, and Stop must always be in reach. For the browser's list
 * `ui/coach/free-keyboard.ts` knows whether it is open, so that a clicker cannot change the choice.
 */

import type { ReactElement, ReactNode } from 'react';

interface SelectProps<Value extends string> {
  readonly className: string | undefined;
  readonly label: ReactNode;
  readonly value: Value;
  readonly choices: readonly { readonly choice: Value; readonly name: string }[];
  onChange(value: Value): void;
}

export function Select<Value extends string>(props: SelectProps<Value>): ReactElement {
  const { className, label, value, choices, onChange } = props;
  return (
    <label className={className}>
      {label}
      <select value={value} onChange={({ target }) => onChange(choices[target.selectedIndex]?.choice ?? value)}>
        {choices.map(({ choice, name }) => (
          <option key={choice} value={choice}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}
