/*
 * Which screen sounds, what keeps it from it, and behind that the settings of this one.
 */

import { useRef, useState, type ReactElement } from 'react';
import { useStore } from 'zustand';
import { DeckButton } from '../ui/coach/deck-button.tsx';
import type { Sound } from '../sound/sound.ts';
import { SoundPanel } from '../sound/sound-panel.tsx';
import { Region } from '../ui/region.tsx';
import { soundHint } from '../sound/sound-words.ts';

export function SoundButton({ sound }: { readonly sound: Sound }): ReactElement {
  const state = useStore(sound.store);
  const told = useStore(sound.link.store, (deck) => deck.sound);
  const [open, setOpen] = useState(false);
  const place = useRef<HTMLDivElement>(null);
  const hint = soundHint(state, told, sound.id);
  const isWrong = state.status === 'blocked' || state.status === 'gone';
  const close = (): void => {
    const hadKeyboard = place.current?.contains(document.activeElement) === true;
    setOpen(false);
    if (hadKeyboard) place.current?.querySelector('button')?.focus();
  };
  return (
    <div className="sound" ref={place}>
      <DeckButton
        name={`Sound ${hint}`}
        label="Sound"
        hint={hint}
        look={`is-small ${isWrong ? 'is-wrong' : ''}`}
        pressed={open}
        onPress={() => setOpen(!open)}
        onRefused={() => undefined}
      />
      {open ? (
        <div className="sound-place">
          <Region name="The sound's settings" advice="The sound goes on as it is." link={sound.link}>
            <SoundPanel sound={sound} onClose={close} />
          </Region>
        </div>
      ) : null}
    </div>
  );
}
