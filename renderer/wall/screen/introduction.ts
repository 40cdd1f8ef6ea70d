/*
 * How this wall screen introduces itself to the host: the name in its address, else the one that its browser has kept
 * since the host gave it; what else its address asks for; and its size, again whenever that changes. The desktop
 * program's own wall screen has a name of its own.
 */

import { OWN_WALL, screenName } from '../../../app/core/screen/screen-name.ts';
import type { Introduce, Link } from '../../link/link.ts';
import type { OwnStorage } from '../../ui/coach/own-storage.ts';

type Introduction = NonNullable<ReturnType<Introduce>>;

/** As much of the page as is asked. */
export type Page = Pick<Window, 'innerWidth' | 'innerHeight' | 'location' | 'addEventListener'>;

const KEY = 'lanecall.screen';

/** As the host takes it; whatever is longer asks for nothing that there is. */
const LONGEST_SEARCH = 512;

/** In ms. A window that is being dragged changes with every frame, and the coach is told twice a second at most. */
const SETTLING = 500;

/** memory: null where the browser keeps nothing; then the name lasts as long as the page. */
export function createIntroduction(page: Page, isOwnWindow: boolean, memory: OwnStorage | null) {
  const { search } = page.location;
  const inAddress = screenName(new URLSearchParams(search).get('name') ?? '');
  let given: string | null = null;

  const room = (): Introduction['room'] => ({
    width: Math.max(1, Math.round(page.innerWidth)),
    height: Math.max(1, Math.round(page.innerHeight)),
  });
  return {
    introduce: (): Introduction => ({
      name: isOwnWindow ? OWN_WALL : (inAddress ?? given ?? screenName(memory?.getItem(KEY) ?? '')),
      search: search.length <= LONGEST_SEARCH ? search : '',
      room: room(),
    }),
    /** Keeps the name that the host gives, and tells it of every change of size. */
    follow(link: Link): void {
      link.store.subscribe(({ screen }) => {
        if (screen === null || screen.name === given) return;
        given = screen.name;
        if (inAddress === null && !isOwnWindow) keepName(memory, given);
      });
      let timer: ReturnType<typeof setTimeout> | undefined;
      page.addEventListener('resize', () => {
        clearTimeout(timer);
        timer = setTimeout(() => link.room(room()), SETTLING);
      });
    },
  };
}

function keepName(memory: OwnStorage | null, name: string): void {
  try {
    memory?.setItem(KEY, name);
  } catch {
    // A full or forbidden storage costs the name after the next reload, nothing now.
  }
}
