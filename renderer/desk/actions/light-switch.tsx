/*
 * Light by day, dark in a dim hall: as the system is set, or as chosen here.
 */

import { useState, type ReactElement } from 'react';
import type { Light, LightChoice } from '../../ui/coach/light-choice.ts';
import { Select } from '../../ui/parts/select.tsx';
import styles from './light-switch.module.css';

const CHOICES: readonly { readonly choice: LightChoice; readonly name: string }[] = [
  { choice: 'system', name: 'as the system' },
  { choice: 'light', name: 'light' },
  { choice: 'dark', name: 'dark' },
];

interface LightSwitchProps {
  readonly light: Light;
  readonly className?: string | undefined;
}

export function LightSwitch({ light, className = '' }: LightSwitchProps): ReactElement {
  const [choice, setChoice] = useState(light.choice());
  const choose = (next: LightChoice): void => {
    light.choose(next);
    setChoice(next);
  };
  return (
    <Select
      className={`${styles.whole} ${className}`}
      label="Colours"
      value={choice}
      choices={CHOICES}
      onChange={choose}
    />
  );
}
