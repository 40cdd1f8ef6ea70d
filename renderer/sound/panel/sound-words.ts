/*
 * What a screen says of its sound, and of the other screens'.
 */

import { capital, listed } from '../../../app/core/words/phrase.ts';
import type { DeckState } from '../../link/store.ts';
import type { SoundState } from '../sound.ts';

type Told = DeckState['sound'];
type Own = Pick<SoundState, 'status' | 'yielded'>;

const KINDS = { desk: "the coach's window", wall: 'the wall screen', remote: 'the remote' } as const;

/** Two or three words for a button: whether this screen sounds, or else which does. */
export function soundHint({ status }: Own, told: Told, id: string): string {
  const others = soundingElsewhere(told, id);
  switch (status) {
    case 'off':
      return others.length === 0 ? 'off' : `on ${others.length === 1 ? others[0]! : `${others.length} screens`}`;
    case 'blocked':
      return 'tap to hear it';
    case 'starting':
      return 'starting';
    case 'running':
      return others.length === 0 ? 'on' : `on ${others.length + 1} screens`;
    case 'gone':
      return 'no device';
    case 'missing':
      return 'not in this browser';
  }
}

/** A sentence on how the sound stands here, and one on where else there is some. */
export function soundSentences(own: Own, told: Told, id: string): string {
  const others = soundingElsewhere(told, id);
  const also = others.length > 0 ? `${capital(listed(others))} ${others.length > 1 ? 'sound' : 'sounds'}` : '';
  switch (own.status) {
    case 'off':
      if (also === '') return 'No screen sounds.';
      return own.yielded ? `${also}: this screen has fallen silent for it.` : `${also}.`;
    case 'blocked':
      return 'The browser waits for a tap on this page.';
    case 'starting':
      return 'Starting.';
    case 'running':
      return also === '' ? 'Only this screen sounds.' : `${also} too.`;
    case 'gone':
      return 'No device plays it. It is tried again every few seconds.';
    case 'missing':
      return 'This browser cannot play sound.';
  }
}

/** What the other screens that sound are called, with what keeps them from it. */
function soundingElsewhere({ screens }: Told, id: string): readonly string[] {
  return screens
    .filter((screen) => screen.on && screen.id !== id)
    .map(({ screen, status }) => {
      if (status === 'blocked') return `${KINDS[screen]} (wants a tap)`;
      return status === 'gone' ? `${KINDS[screen]} (no device)` : KINDS[screen];
    });
}
