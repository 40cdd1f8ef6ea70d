/*
 * Whether this screen sounds, how loud, and what keeps it from it.
 */

import { useState, type ReactElement } from 'react';
import { useStore } from 'zustand';
import { DeckButton } from '../ui/coach/deck-button.tsx';
import type { Sound, SoundState } from '../sound/sound.ts';

const WORDS: { readonly [status in SoundState['status']]: string } = {
  off: 'off',
  blocked: 'tap to hear it',
  starting: 'starting',
  running: 'on',
  gone: 'no device',
  missing: 'not in this browser',
};

export function SoundButton({ sound }: { readonly sound: Sound }): ReactElement {
  const { status, volume } = useStore(sound.store);
  const [open, setOpen] = useState(false);
  return (
    <div className="sound">
      <DeckButton
        name={`Sound ${WORDS[status]}`}
        label="Sound"
        hint={WORDS[status]}
        look={`is-small ${status === 'blocked' || status === 'gone' ? 'is-wrong' : ''}`}
        pressed={open}
        onPress={() => setOpen(!open)}
        onRefused={() => undefined}
      />
      {open ? (
        <div className="sound-panel" role="group" aria-label="Sound">
          <DeckButton
            name={status === 'off' ? 'Sound on' : 'Sound off'}
            look="is-small"
            onPress={status === 'off' ? sound.turnOn : sound.turnOff}
            onRefused={() => undefined}
          />
          <label className="field">
            Volume
            <input
              type="range"
              min={0}
              max={100}
              step={5}
              value={Math.round(volume * 100)}
              onChange={(event) => sound.setVolume(Number(event.target.value) / 100)}
            />
          </label>
        </div>
      ) : null}
    </div>
  );
}
