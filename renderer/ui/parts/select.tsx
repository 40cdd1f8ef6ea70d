/*
 * One of a few, in the browser's own list. Not React Aria's: its list takes the rest of the page from assistive
 * technology and holds it still while it is open, and Stop must be in reach at any time. Of this one
 * `ui/coach/free-keyboard.ts` knows when it is open, so that no clicker changes what was chosen before.
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
