/*
 * What is to be heard on this screen: counts, further swimmers, signs, pitches, and of which lanes.
 */

import type { ReactElement } from 'react';
import { useStore } from 'zustand';
import { CheckField, PanelButton, SelectField } from './panel-controls.tsx';
import type { Sound } from '../sound.ts';
import type { SoundChoice } from '../sound-choice.ts';
import styles from './sound-panel.module.css';

const PIPS: readonly (readonly [SoundChoice['pips'], string])[] = [
  ['starts', 'when all start or go on together'],
  ['always', 'before every leave'],
  ['never', 'never'],
];

export function CueFields({ sound }: { readonly sound: Sound }): ReactElement {
  const choice = useStore(sound.store, (state) => state.choice);
  const run = useStore(sound.link.store, (state) => state.run);
  const lanes = run?.given.lanes.map(({ number }) => number) ?? [];
  const { pips, followers, signs, pitches, muted } = choice;
  const mute = (lane: number): void =>
    sound.choose({ muted: muted.includes(lane) ? muted.filter((other) => other !== lane) : [...muted, lane] });
  return (
    <>
      <SelectField name="Three pips" value={pips} choices={PIPS} onChange={(to) => sound.choose({ pips: to })} />
      <CheckField checked={followers} onChange={(to) => sound.choose({ followers: to })}>
        A softer tone for each further swimmer
      </CheckField>
      <CheckField checked={signs} onChange={(to) => sound.choose({ signs: to })}>
        Two notes on Stop and Resume
      </CheckField>
      <CheckField checked={pitches} onChange={(to) => sound.choose({ pitches: to })}>
        A pitch for each lane
      </CheckField>
      {lanes.length > 1 ? (
        <div className={styles.lanes} role="group" aria-label="Lanes that sound">
          {lanes.map((lane) => (
            <PanelButton key={lane} pressed={!muted.includes(lane)} onPress={() => mute(lane)}>
              Lane {lane} {muted.includes(lane) ? 'silent' : 'sounds'}
            </PanelButton>
          ))}
        </div>
      ) : null}
    </>
  );
}
