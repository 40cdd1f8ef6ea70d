/*
 * A button that says which screen sounds, or why none does. It opens the sound settings of this screen.
 */

import { useEffect, useState, type ReactElement } from 'react';
import { useStore } from 'zustand';
import { Button } from '../../ui/parts/button.tsx';
import type { Sound } from '../../sound/sound.ts';
import { SoundPanel } from '../../sound/panel/sound-panel.tsx';
import { Region } from '../../ui/region.tsx';
import { soundHint } from '../../sound/panel/sound-words.ts';
import styles from './sound-button.module.css';

export function SoundButton({ sound }: { readonly sound: Sound }): ReactElement {
  const state = useStore(sound.store);
  const told = useStore(sound.link.store, (deck) => deck.sound);
  const [open, setOpen] = useState(false);
  const hint = soundHint(state, told, sound.id);
  const isWrong = state.status === 'blocked' || state.status === 'gone';
  useEffect(() => {
    if (!open) return undefined;
    // Escape works wherever the focus is. The focus does not go back to the button: there Space would open the panel again.
    const onKey = (event: KeyboardEvent): void => {
      if (event.key !== 'Escape') return;
      // Ahead of the page's own keys: it leaves nothing else by the same press.
      event.preventDefault();
      setOpen(false);
    };
    window.addEventListener('keydown', onKey, true);
    return () => window.removeEventListener('keydown', onKey, true);
  }, [open]);
  return (
    <div className={styles.whole}>
      <Button
        name={`Sound ${hint}`}
        label="Sound"
        hint={hint}
        look={isWrong ? 'small wrong' : 'small'}
        pressed={open}
        onPress={() => setOpen(!open)}
      />
      {open ? (
        <div className={styles.panel}>
          <Region name="The sound's settings" advice="The sound goes on as it is." link={sound.link}>
            <SoundPanel sound={sound} onClose={() => setOpen(false)} />
          </Region>
        </div>
      ) : null}
    </div>
  );
}
