/*
 * Whether a session is being rehearsed in this window. A run that begins meanwhile ends it, so that no key is caught.
 */

import { useEffect, useState } from 'react';
import type { Source } from '../../../app/core/plan/plan.ts';
import { view } from '../../../app/core/run/view.ts';
import type { Link } from '../../link/link.ts';

/** A session without faults, and what the pool's clock shows past the full minute; null where it was not matched. */
export interface Rehearsed {
  readonly source: Source;
  readonly clockPhase: number | null;
}

export interface RehearsalChoice {
  /** null for nothing. */
  readonly rehearsed: Rehearsed | null;
  /** Why it ended by itself; null until it does, and once that is read. */
  readonly ended: string | null;
  /** Refused with a sentence while a run is going; null otherwise. */
  begin(session: Rehearsed): string | null;
  leave(): void;
  read(): void;
}

const GOING = 'A run is going: finish it first, then rehearse.';
const STARTED = 'The rehearsal has ended: a run is going.';
const OPENED = 'The rehearsal has ended: a session was opened on another screen.';

export function useRehearsal(link: Link): RehearsalChoice {
  const [rehearsed, setRehearsed] = useState<Rehearsed | null>(null);
  const [ended, setEnded] = useState<string | null>(null);
  useEffect(() => {
    if (rehearsed === null) return undefined;
    const before = link.store.getState().run?.id ?? null;
    const end = (why: string): void => {
      setRehearsed(null);
      setEnded(why);
    };
    return link.store.subscribe(({ run }) => {
      if (isGoing(link)) end(STARTED);
      else if (run !== null && run.id !== before) end(OPENED);
    });
  }, [link, rehearsed]);
  return {
    rehearsed,
    ended,
    begin(next) {
      if (isGoing(link)) return GOING;
      setEnded(null);
      setRehearsed(next);
      return null;
    },
    leave: () => setRehearsed(null),
    read: () => setEnded(null),
  };
}

/** Without a clock to trust a run that was begun counts as going. */
function isGoing(link: Link): boolean {
  const { run } = link.store.getState();
  if (run === null || run.commands.length === 0) return false;
  const t = link.now();
  return t === null || view(run.state, t).phase !== 'done';
}
