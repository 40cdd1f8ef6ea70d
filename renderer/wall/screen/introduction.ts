/*
 * How this wall screen introduces itself to the host: the name in its address, else the one that the host gave this
 * window; a new window names those that its browser has kept, and gets the first that no other window has. What else its
 * address asks for; and its size, again whenever that changes. The desktop program's own wall screen has a name of its own.
 */

import { OWN_WALL, screenName } from '../../../app/core/screen/screen-name.ts';
import type { Introduce, Link } from '../../link/link.ts';
import type { OwnStorage } from '../../ui/coach/own-storage.ts';

type Introduction = NonNullable<ReturnType<Introduce>>;

/** As much of the page as is asked. */
export type Page = Pick<Window, 'innerWidth' | 'innerHeight' | 'location' | 'addEventListener'>;

const KEY = 'lanecall.screen';

/** As the host takes them. */
const MOST = 16;

/** As the host takes it; whatever is longer asks for nothing that there is. */
const LONGEST_SEARCH = 512;

/** In ms. A window that is being dragged changes with every frame, and the coach is told twice a second at most. */
const SETTLING = 500;

/** What the browser keeps; null where it keeps nothing. */
export interface Memories {
  /** For this window, until it is closed. */
  readonly window: OwnStorage | null;
  /** For all windows, until tomorrow. */
  readonly browser: OwnStorage | null;
}

export function createIntroduction(page: Page, isOwnWindow: boolean, { window: own, browser }: Memories) {
  const { search } = page.location;
  const inAddress = screenName(new URLSearchParams(search).get('name') ?? '');
  let given: string | null = null;

  const room = (): Introduction['room'] => ({
    width: Math.max(1, Math.round(page.innerWidth)),
    height: Math.max(1, Math.round(page.innerHeight)),
  });
  return {
    introduce: (): Introduction => ({
      name: isOwnWindow ? OWN_WALL : (inAddress ?? given ?? namesIn(own)[0] ?? null),
      known: [...namesIn(browser)],
      search: search.length <= LONGEST_SEARCH ? search : '',
      room: room(),
    }),
    /** Keeps the name that the host gives, and tells it of every change of size. */
    follow(link: Link): void {
      link.store.subscribe(({ screen }) => {
        if (screen === null || screen.name === given) return;
        const before = given;
        given = screen.name;
        if (inAddress !== null || isOwnWindow) return;
        keep(own, [given]);
        keep(browser, [given, ...namesIn(browser).filter((name) => name !== given && name !== before)]);
      });
      let timer: ReturnType<typeof setTimeout> | undefined;
      page.addEventListener('resize', () => {
        clearTimeout(timer);
        timer = setTimeout(() => link.room(room()), SETTLING);
      });
    },
  };
}

/** One a line. */
function namesIn(memory: OwnStorage | null): readonly string[] {
  return (memory?.getItem(KEY) ?? '')
    .split('\n')
    .map(screenName)
    .filter((name) => name !== null);
}

function keep(memory: OwnStorage | null, names: readonly string[]): void {
  try {
    memory?.setItem(KEY, names.slice(0, MOST).join('\n'));
  } catch {
    // A full or forbidden storage costs the name after the next reload, nothing now.
  }
}
