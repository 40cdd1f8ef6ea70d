/*
 * The way by which the sound leaves this screen, and what that way needs: a tone that keeps it awake, and
 * how much earlier or later the sound must be sent, set by eye and ear with a flash and a beep.
 */

import { useEffect, useRef, type ReactElement } from 'react';
import { useStore } from 'zustand';
import { isLit } from '../sync-pulse.ts';
import { CheckField, PanelButton, SelectField } from './panel-controls.tsx';
import type { Sound } from '../sound.ts';
import { MOST_OFFSET, outputOf, withOutput, type OutputName } from '../sound-choice.ts';
import styles from './sound-panel.module.css';

const OUTPUTS: readonly (readonly [OutputName, string])[] = [
  ['own', "this machine's loudspeaker"],
  ['hdmi', 'a television, by HDMI'],
  ['bluetooth', 'a Bluetooth loudspeaker'],
  ['hall', "the hall's loudspeakers"],
];

/** In ms. */
const STEP = 10;

/** `why`: why nothing may beep now; null where it may. */
export function OutputFields({ sound, why }: { readonly sound: Sound; readonly why: string | null }): ReactElement {
  const { choice, pulsing, status } = useStore(sound.store);
  const { offset, keepAwake } = outputOf(choice);
  const words = offset === 0 ? 'as it comes' : `${Math.abs(offset)} ms ${offset < 0 ? 'earlier' : 'later'}`;
  return (
    <>
      <SelectField
        name="Through"
        value={choice.output}
        choices={OUTPUTS}
        onChange={(to) => sound.choose({ output: to })}
      />
      <CheckField checked={keepAwake} onChange={(to) => sound.choose(withOutput(choice, { keepAwake: to }))}>
        Keep it awake between tones
      </CheckField>
      <label className={styles.field}>
        Sent {words}
        <input
          type="range"
          aria-label="Sent earlier or later"
          min={-MOST_OFFSET}
          max={MOST_OFFSET}
          step={STEP}
          value={offset}
          aria-valuetext={words}
          onChange={(event) => sound.choose(withOutput(choice, { offset: Number(event.target.value) }))}
        />
      </label>
      <PanelButton
        pressed={pulsing}
        why={pulsing ? null : (why ?? (status === 'running' ? null : 'The sound is not on here.'))}
        onPress={() => sound.setPulsing(!pulsing)}
      >
        Flash and beep
      </PanelButton>
      {pulsing ? (
        <>
          <Flash />
          <p className={styles.said}>Move the slider until you see the flash and hear the beep together.</p>
        </>
      ) : null}
    </>
  );
}

/** Lit once a second: far below what may not be exceeded for those who cannot bear flashes. */
function Flash(): ReactElement {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    let frame = 0;
    const draw = (): void => {
      frame = requestAnimationFrame(draw);
      box.current?.toggleAttribute('data-lit', isLit(performance.now()));
    };
    draw();
    return () => cancelAnimationFrame(frame);
  }, []);
  return <div className={styles.flash} data-part="flash" ref={box} aria-hidden="true" />;
}
