/*
 * The wall screens as the host tells of them, with what the coach has just changed on top: the host tells twice a
 * second at most, and a second tap must go on from the first.
 */

import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { changedSettings, type ScreenChange } from '../../../app/core/screen/screen-settings.ts';
import type { ScreenTold, ScreenWish } from '../../link/store.ts';
import type { Link } from '../../link/link.ts';
import { useDeck } from '../../ui/coach/use-deck.ts';
import { useSaid } from '../sharing/use-said.ts';

export interface Screens {
  readonly all: readonly ScreenTold[];
  /** What the host has said of the last wish; empty where it was done. */
  readonly said: string;
  say(sentence: string): void;
  change(name: string, change: ScreenChange): void;
  /** Resolves with why it was not done, to be said beside the name; null where it was. */
  rename(name: string, to: string): Promise<string | null>;
  forget(name: string): void;
}

interface Draft {
  readonly name: string;
  readonly change: ScreenChange;
}

/** In ms after its answer: the list that has the change is here by then. */
const TOLD_BY = 1000;

export function useScreens(link: Link): Screens {
  const told = useDeck(link, (state) => state.wallScreens);
  const [drafts, setDrafts] = useState<readonly Draft[]>([]);
  const [said, say] = useSaid();
  const timers = useRef(new Set<ReturnType<typeof setTimeout>>());
  useEffect(() => {
    const { current } = timers;
    return () => current.forEach(clearTimeout);
  }, []);

  const rename = useCallback(
    async (name: string, to: string): Promise<string | null> => (await link.wish(name, { rename: to })).why,
    [link],
  );
  const wish = useCallback(
    async (name: string, wanted: ScreenWish): Promise<boolean> => {
      const { ok, why } = await link.wish(name, wanted);
      say(why ?? '');
      return ok;
    },
    [link, say],
  );
  const change = useCallback(
    (name: string, wanted: ScreenChange): void => {
      const draft: Draft = { name, change: wanted };
      setDrafts((before) => [...before, draft]);
      void wish(name, { settings: wanted }).then((ok) => {
        const timer = setTimeout(
          () => {
            timers.current.delete(timer);
            setDrafts((before) => before.filter((each) => each !== draft));
          },
          ok ? TOLD_BY : 0,
        );
        timers.current.add(timer);
      });
    },
    [wish],
  );
  const forget = useCallback((name: string): void => void wish(name, { forget: true }), [wish]);
  const all = useMemo(() => told.map((each) => withDrafts(each, drafts)), [told, drafts]);
  return { all, said, say, change, rename, forget };
}

function withDrafts(told: ScreenTold, drafts: readonly Draft[]): ScreenTold {
  const own = drafts.filter(({ name }) => name === told.name);
  if (own.length === 0) return told;
  return { ...told, settings: own.reduce((settings, { change }) => changedSettings(settings, change), told.settings) };
}
