/*
 * The only control on a wall screen: a small switch for its sound in the margin at its foot, there while
 * somebody moves the pointer or presses a key, and for as long as a sound that is wanted cannot be heard.
 */

import { useEffect, useRef, useState, type ReactElement } from 'react';
import { useStore } from 'zustand';
import type { OwnSound, OwnSoundState } from './own-sound.ts';

const WORDS: { readonly [status in OwnSoundState['status']]: string } = {
  off: 'Sound on this screen: off',
  loading: 'Sound on this screen: loading',
  failed: 'Sound could not be loaded: tap to try again',
  blocked: 'Sound is blocked by the browser: tap this screen once',
  starting: 'Sound on this screen: starting',
  running: 'Sound on this screen: on',
  gone: 'Sound on this screen: no device plays it',
  missing: 'This browser cannot play sound',
};

/** What nobody may miss: the sound is wanted here and cannot be heard. */
const WRONG: readonly OwnSoundState['status'][] = ['failed', 'blocked', 'gone'];

/** For so long it stays after the last sign of somebody, in ms. */
const STAYS = 5000;

export function SoundControl({ sound }: { readonly sound: OwnSound }): ReactElement | null {
  const status = useStore(sound.store, (state) => state.status);
  const button = useRef<HTMLButtonElement>(null);
  const sign = useSomebody();
  const isWrong = WRONG.includes(status);
  useEffect(() => {
    if (sign === 'key') button.current?.focus();
  }, [sign]);
  if (sign === null && !isWrong) return null;
  return (
    <button
      ref={button}
      type="button"
      className={isWrong ? 'sound-control is-wrong' : 'sound-control'}
      aria-pressed={status !== 'off' && status !== 'missing'}
      disabled={status === 'missing'}
      // A blocked sound is freed by the tap itself, wherever on the page it falls.
      onClick={status === 'blocked' ? undefined : () => void sound.toggle()}
    >
      {WORDS[status]}
    </button>
  );
}

/** Whether somebody is at the screen, and by what it is known; the page shows a pointer meanwhile. */
function useSomebody(): 'pointer' | 'key' | null {
  const [sign, setSign] = useState<'pointer' | 'key' | null>(null);
  useEffect(() => {
    let timer = 0;
    let place = '';
    const seen = (by: 'pointer' | 'key'): void => {
      window.clearTimeout(timer);
      timer = window.setTimeout(() => setSign(null), STAYS);
      setSign(by);
    };
    const moved = ({ screenX, screenY }: MouseEvent): void => {
      // Browsers tell of a pointer that lies still when the page under it changes; the first word of it says nothing.
      const before = place;
      place = `${screenX} ${screenY}`;
      if (before !== '' && before !== place) seen('pointer');
    };
    const tapped = (): void => seen('pointer');
    // On release: the press that calls the switch up must not press it as well.
    const released = (): void => seen('key');
    window.addEventListener('mousemove', moved);
    window.addEventListener('pointerdown', tapped);
    window.addEventListener('keyup', released);
    return () => {
      window.clearTimeout(timer);
      window.removeEventListener('mousemove', moved);
      window.removeEventListener('pointerdown', tapped);
      window.removeEventListener('keyup', released);
    };
  }, []);
  useEffect(() => {
    document.body.classList.toggle('with-pointer', sign === 'pointer');
  }, [sign]);
  return sign;
}
