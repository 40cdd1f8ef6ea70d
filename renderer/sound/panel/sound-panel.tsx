/*
 * The settings of a screen's sound: on or off, how loud, and behind that what sounds and by what way.
 * The same on the coach's window and on a wall screen.
 */

import { useEffect, useRef, useState, type KeyboardEvent, type MouseEvent, type ReactElement } from 'react';
import { useStore } from 'zustand';
import { CueFields } from './cue-fields.tsx';
import { OutputFields } from './output-fields.tsx';
import { CheckField, PanelButton } from './panel-controls.tsx';
import type { Sound } from '../sound.ts';
import { soundSentences } from './sound-words.ts';
import styles from './sound-panel.module.css';

interface SoundPanelProps {
  readonly sound: Sound;
  onClose(): void;
}

/** How often it is looked whether a session has begun, in ms. */
const LOOK = 500;

export function SoundPanel({ sound, onClose }: SoundPanelProps): ReactElement {
  const state = useStore(sound.store);
  const told = useStore(sound.link.store, (deck) => deck.sound);
  const panel = useRef<HTMLDivElement>(null);
  const isGoing = useGoing(sound);
  useEffect(() => {
    panel.current?.focus();
    return () => sound.setPulsing(false);
  }, [sound]);
  const { status, volume } = state;
  const isOn = status !== 'off' && status !== 'missing';
  const why = isGoing ? 'A session is going: this would be taken for a leave.' : null;
  return (
    <div
      className={styles.whole}
      role="group"
      aria-label="Sound"
      ref={panel}
      tabIndex={-1}
      onKeyDown={(event) => closeOnEscape(event, onClose)}
      onClick={letGo}
    >
      <PanelButton pressed={isOn} onPress={isOn ? sound.turnOff : sound.turnOn}>
        Sound on this screen: {isOn ? 'on' : 'off'}
      </PanelButton>
      <p className={styles.said} aria-live="polite">
        {soundSentences(state, told, sound.id)}
      </p>
      <label className={styles.field}>
        Volume
        <input
          type="range"
          min={0}
          max={100}
          step={5}
          value={Math.round(volume * 100)}
          aria-valuetext={`${Math.round(volume * 100)} %`}
          onChange={(event) => sound.setVolume(Number(event.target.value) / 100)}
        />
      </label>
      <PanelButton why={why ?? (status === 'running' ? null : 'The sound is not on here.')} onPress={sound.test}>
        Test tone
      </PanelButton>
      <details>
        <summary onMouseDown={keepFocus}>What sounds</summary>
        <CueFields sound={sound} />
      </details>
      <details>
        <summary onMouseDown={keepFocus}>Where it comes out</summary>
        <OutputFields sound={sound} why={why} />
      </details>
      <CheckField checked={told.more === true} onChange={sound.allowMore}>
        More than one screen may sound
      </CheckField>
      <PanelButton onPress={onClose}>
        Close{' '}
        <span className={styles.key} aria-hidden="true">
          Esc
        </span>
      </PanelButton>
    </div>
  );
}

/** Elsewhere Escape gives up the choice of lanes. */
function closeOnEscape(event: KeyboardEvent, onClose: () => void): void {
  if (event.key !== 'Escape') return;
  event.stopPropagation();
  onClose();
}

/** A tap on a field does not leave the keyboard there: Space stays Stop. */
function letGo({ detail, target }: MouseEvent): void {
  const isField = target instanceof HTMLInputElement;
  if (detail > 0 && isField) target.blur();
}

function keepFocus(event: MouseEvent): void {
  event.preventDefault();
}

function useGoing(sound: Sound): boolean {
  const [going, setGoing] = useState(sound.isGoing);
  useEffect(() => {
    const timer = setInterval(() => setGoing(sound.isGoing()), LOOK);
    return () => clearInterval(timer);
  }, [sound]);
  return going;
}
