/*
 * Whether a coach's screen is light or dark: as the system is set, or as chosen in this browser. Style sheets look only
 * at one attribute of the page.
 */

import type { OwnStorage } from './own-storage.ts';

export type LightChoice = 'system' | 'light' | 'dark';

export interface Light {
  choice(): LightChoice;
  choose(choice: LightChoice): void;
}

/** Where a browser keeps what was chosen. */
const KEY = 'lanecall.light';

/**
 * Puts `data-light` ("light" or "dark") on the page's root now and whenever it changes.
 * system: the query for the system's wish for the dark; memory: null where nothing can be kept.
 */
export function followLight(
  root: Pick<HTMLElement, 'setAttribute'>,
  system: Pick<MediaQueryList, 'matches' | 'addEventListener'>,
  memory: OwnStorage | null,
): Light {
  let chosen = choiceIn(memory?.getItem(KEY));
  const show = (): void => {
    const dark = chosen === 'system' ? system.matches : chosen === 'dark';
    root.setAttribute('data-light', dark ? 'dark' : 'light');
  };
  system.addEventListener('change', show);
  show();
  return {
    choice: () => chosen,
    choose(choice) {
      chosen = choice;
      show();
      memory?.setItem(KEY, choice);
    },
  };
}

/** What was kept; the system's where that is nothing known. */
export function choiceIn(kept: string | null | undefined): LightChoice {
  return kept === 'light' || kept === 'dark' ? kept : 'system';
}
