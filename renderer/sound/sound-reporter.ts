/*
 * One screen sounds, unless more are wanted: this screen tells the host how its sound stands, and falls
 * silent where the host says that another was switched on. Said again on every connection.
 */

import type { Link } from '../link/link.ts';
import type { DeckState } from '../link/store.ts';

type Report = Parameters<Link['sound']>[0];

export interface SoundReporter {
  /** How the sound stands here now; `asked`: somebody has just switched it on. */
  tell(status: Report['status'], asked?: boolean): void;
  /** Somebody has chosen whether more than one screen may sound. */
  allowMore(more: boolean): void;
}

/**
 * `memory` keeps whether more may sound, for a host that is new. `onSilence` is called where this screen
 * has to give way, and tells then that it is off.
 */
export function createSoundReporter(
  link: Pick<Link, 'store' | 'sound'>,
  memory: Pick<Storage, 'getItem' | 'setItem'> | null,
  id: string,
  onSilence: () => void,
): SoundReporter {
  let n = 0;
  let status: Report['status'] = 'off';
  let more = readMore(memory?.getItem(MORE_KEY) ?? null);
  let wasLive = false;

  function say(asked: boolean, isMoreAsked = false): void {
    n++;
    link.sound({ id, n, status, asked, more: isMoreAsked || !asked ? more : null });
  }

  function follow({ status: connection, sound }: DeckState): void {
    const isLive = connection === 'live';
    if (isLive && sound.more !== null && sound.more !== more) keepMore(sound.more);
    if (isLive && !wasLive) {
      wasLive = true;
      return say(false);
    }
    wasLive = isLive;
    const told = sound.screens.find((screen) => screen.id === id);
    // What does not answer the last word from here says nothing about it.
    if (isLive && status !== 'off' && told && told.n === n && !told.on && status !== 'missing') onSilence();
  }

  function keepMore(next: boolean): void {
    more = next;
    memory?.setItem(MORE_KEY, next ? 'yes' : 'no');
  }

  link.store.subscribe(follow);
  follow(link.store.getState());

  return {
    tell(next, asked = false) {
      if (next === status && !asked) return;
      status = next;
      say(asked);
    },
    allowMore(next) {
      keepMore(next);
      say(true, true);
    },
  };
}

const MORE_KEY = 'lanecall.sound-more';

function readMore(kept: string | null): boolean | null {
  return kept === 'yes' ? true : kept === 'no' ? false : null;
}
