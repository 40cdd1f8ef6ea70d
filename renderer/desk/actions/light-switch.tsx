/*
 * Light by day, dark in a dim hall: as the system has it, or as chosen here.
 */

import { useState, type ReactElement } from 'react';
import type { Light, LightChoice } from '../../ui/coach/light-choice.ts';
import { Select } from '../../ui/parts/select.tsx';

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
  return <Select look="light-switch" label="Colours" value={choice} choices={CHOICES} onChange={choose} />;
}
