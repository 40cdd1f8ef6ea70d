/*
 * The controls of a wall screen, in the margin at its foot: a small switch for its sound, there while somebody moves
 * the pointer or presses a key, and for as long as a sound that is wanted cannot be heard. Beside it what else may be
 * opened here, and while the sound is on its settings; they close when nobody is there any more.
 */

import {
  lazy,
  Suspense,
  useCallback,
  useEffect,
  useRef,
  useState,
  type ComponentType,
  type ReactElement,
  type RefObject,
} from 'react';
import { useStore } from 'zustand';
import type { Sound } from '../../sound/sound.ts';
import { Region } from '../../ui/region.tsx';
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

/** Where there are settings to make. */
const SETTABLE: readonly OwnSoundState['status'][] = ['blocked', 'starting', 'running', 'gone'];

/** For so long it stays after the last sign of somebody, in ms; with its settings open longer. */
const STAYS = 5000;
const STAYS_OPEN = 60_000;

/** A file that did not come is asked for again the next time, which one lazy component would not do. */
function loadPanel() {
  return lazy(() => import('../../sound/panel/sound-panel.tsx').then((module) => ({ default: module.SoundPanel })));
}

interface ControlProps {
  readonly sound: OwnSound;
  /** Stands beside the switch while somebody is there; tells whether it is open, for then they stay longer. */
  readonly beside: ComponentType<{ onOpen(open: boolean): void }>;
}

export function SoundControl({ sound, beside: Beside }: ControlProps): ReactElement | null {
  const { status, yielded } = useStore(sound.store);
  const button = useRef<HTMLButtonElement>(null);
  const stays = useRef(STAYS);
  const sign = useSomebody(stays);
  const player = sound.player();
  const isWrong = WRONG.includes(status);
  useEffect(() => {
    if (sign === 'key' && stays.current === STAYS) button.current?.focus();
  }, [sign]);
  const onOpen = useCallback((open: boolean): void => void (stays.current = open ? STAYS_OPEN : STAYS), []);
  if (sign === null && !isWrong) return null;
  return (
    <div className="sound-control-place">
      {sign !== null ? <Beside onOpen={onOpen} /> : null}
      {sign !== null && player !== null && SETTABLE.includes(status) ? (
        <Settings player={player} onOpen={onOpen} />
      ) : null}
      <button
        ref={button}
        type="button"
        className={isWrong ? 'sound-control is-wrong' : 'sound-control'}
        aria-pressed={status !== 'off' && status !== 'missing'}
        disabled={status === 'missing'}
        // A blocked sound is freed by the tap itself, wherever on the page it falls.
        onClick={status === 'blocked' ? undefined : () => void sound.toggle()}
      >
        {status === 'off' && yielded ? `${WORDS.off}, another screen sounds` : WORDS[status]}
      </button>
    </div>
  );
}

interface SettingsProps {
  readonly player: Sound;
  /** Told also when it goes while open. */
  onOpen(open: boolean): void;
}

function Settings({ player, onOpen }: SettingsProps): ReactElement {
  const [open, setOpen] = useState(false);
  const told = useRef(onOpen);
  useEffect(() => {
    const tell = told.current;
    tell(open);
    return () => tell(false);
  }, [open]);
  return (
    <>
      {open ? (
        <Region name="The sound's settings" advice="The sound goes on as it is." link={player.link}>
          <Panel player={player} onClose={() => setOpen(false)} />
        </Region>
      ) : null}
      <button type="button" className="sound-control" aria-expanded={open} onClick={() => setOpen(!open)}>
        Settings
      </button>
    </>
  );
}

function Panel({ player, onClose }: { readonly player: Sound; onClose(): void }): ReactElement {
  const [Loaded] = useState(loadPanel);
  return (
    <Suspense fallback={null}>
      <Loaded sound={player} onClose={onClose} />
    </Suspense>
  );
}

/** Whether somebody is at the screen, and by what it is known; the page shows a pointer meanwhile. */
function useSomebody(stays: RefObject<number>): 'pointer' | 'key' | null {
  const [sign, setSign] = useState<'pointer' | 'key' | null>(null);
  useEffect(() => {
    let timer = 0;
    let place = '';
    const seen = (by: 'pointer' | 'key'): void => {
      window.clearTimeout(timer);
      timer = window.setTimeout(() => setSign(null), stays.current);
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
  }, [stays]);
  useEffect(() => {
    document.body.classList.toggle('with-pointer', sign === 'pointer');
  }, [sign]);
  return sign;
}
