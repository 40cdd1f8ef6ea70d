/*
 * What a connected screen reaches besides the run: the coach's questions, and sharing with other screens.
 */

import type { Guest } from '../../sharing/doors/guest.ts';
import type { FromHost } from '../../../wire/messages.ts';
import type { SharingTold, SharingWish } from '../../../wire/sharing/sharing.ts';
import type { Put, ReplyText } from '../answers/questions.ts';

export interface Company {
  /** Null where questions do not come as messages. */
  readonly ask: ((put: Put, guest: Guest) => Promise<ReplyText>) | null;
  /** Null where nothing can be shared. */
  readonly sharing: SharingDesk | null;
}

export const ALONE: Company = { ask: null, sharing: null };

/** A coach's window as sharing knows it. */
export interface SharingWindow {
  readonly guest: () => Guest;
  say(message: FromHost): void;
  /** It has been given a key: from now on it is this guest. */
  become(guest: Guest): void;
}

export interface SharingDesk {
  /** How sharing stands, as this window is told; the same object until there is something new. */
  toldTo(window: SharingWindow): SharingTold;
  /** Resolves with a sentence where the wish could not be carried out. */
  wish(window: SharingWindow, id: string, wish: SharingWish): Promise<string | null>;
  /** The window has closed. */
  gone(window: SharingWindow): void;
  /** Calls back when there is something new to tell; the returned function stops that. */
  onNews(listener: () => void): () => void;
}
