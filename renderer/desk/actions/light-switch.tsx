/*
 * Light by day, dark in a dim hall: as the system has it, or as chosen here.
 */

import { useState, type ReactElement } from 'react';
import { choiceIn, type Light, type LightChoice } from '../../ui/coach/light-choice.ts';

const CHOICES: readonly { readonly choice: LightChoice; readonly name: string }[] = [
  { choice: 'system', name: 'as the system' },
  { choice: 'light', name: 'light' },
  { choice: 'dark', name: 'dark' },
];

export function LightSwitch({ light }: { readonly light: Light }): ReactElement {
  const [choice, setChoice] = useState(light.choice());
  const choose = (next: LightChoice): void => {
    light.choose(next);
    setChoice(next);
  };
  return (
    <label className="light-switch">
      Colours
      <select value={choice} onChange={(event) => choose(choiceIn(event.target.value))}>
        {CHOICES.map((each) => (
          <option key={each.choice} value={each.choice}>
            {each.name}
          </option>
        ))}
      </select>
    </label>
  );
}
