/*
 * The coach's link, lent to the small picture of a wall screen in a frame of the coach's window. The page in the frame
 * is the wall's own and shows what that screen shows, but has no connection: it counts as no screen, can say nothing,
 * and works in the desktop program's window, where frames have no bridge.
 */

import { createStore } from 'zustand/vanilla';
import type { Link } from './link.ts';
import type { DeckState } from './store.ts';

/** What would make a screen's leaves larger (with digits in place of a dial, its clock), and to how many metres they could be read then. */
export interface SightHelp {
  readonly kind: 'fewer words' | 'two columns' | 'shared' | 'leaves only' | 'digits';
  /** Lanes that it keeps, for those shared with another screen. */
  readonly lanes: readonly number[];
  readonly least: number;
}

/** To how many metres a screen's leaves can be read at all, and well, as the page in the picture works it out. */
export interface ScreenSight {
  readonly least: number;
  readonly preferred: number;
  /** What must be read from there too and is read least far: lane numbers, seconds, the clock, or the leaves themselves. */
  readonly worst: { readonly name: string; readonly least: number };
  readonly helps: readonly SightHelp[];
}

export interface Lent {
  readonly link: Link;
  /** Tells the page around of the sight; null while no leaves are shown. */
  onSight(sight: ScreenSight | null): void;
}

/** The element of a frame, with what is lent to the page in it. */
interface LendingFrame extends Element {
  lanecallLent?: Lent;
}

/** Lends a link to the page in a frame, as that of the wall screen with this name; what it returns ends that. */
export function lendLink(link: Link, name: string, frame: Element, onSight: Lent['onSight']): () => void {
  const asScreen = (state: DeckState): DeckState => {
    const told = state.wallScreens.find((each) => each.name === name);
    return { ...state, screen: told ? { name, settings: told.settings } : null };
  };
  const store = createStore<DeckState>(() => asScreen(link.store.getState()));
  const stop = link.store.subscribe((state) => store.setState(withSameScreen(store.getState(), asScreen(state)), true));
  const lent: Link = {
    ...link,
    store,
    command: refuse,
    wish: refuse,
    touch: refuse,
    sound: () => undefined,
    room: () => undefined,
    which: () => undefined,
    share: refuse,
    // It is the coach's.
    close: () => undefined,
  };
  (frame as LendingFrame).lanecallLent = { link: lent, onSight };
  return () => {
    stop();
    delete (frame as LendingFrame).lanecallLent;
  };
}

/** What the page around this one lends it; null for a page that stands by itself. */
export function lentTo(page: Pick<Window, 'frameElement'>): Lent | null {
  return (page.frameElement as LendingFrame | null)?.lanecallLent ?? null;
}

/** The same screen stays the same object, so that a wall draws anew only what has changed. */
function withSameScreen(before: DeckState, after: DeckState): DeckState {
  const isSame = before.screen?.name === after.screen?.name && before.screen?.settings === after.screen?.settings;
  return isSame ? { ...after, screen: before.screen } : after;
}

function refuse(): Promise<{ readonly ok: false; readonly at: null; readonly why: string }> {
  return Promise.resolve({ ok: false, at: null, why: 'This is only a picture.' });
}
