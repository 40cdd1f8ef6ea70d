/*
 * Whether a session is being rehearsed in this window. A run that begins meanwhile ends it, so that no key is caught.
 */

import { useEffect, useRef, useState } from 'react';
import { openPlan } from '../../../app/core/plan/open-plan.ts';
import { view } from '../../../app/core/run/view.ts';
import type { Link } from '../../link/link.ts';
import { takesKeys } from '../../ui/coach/free-keyboard.ts';
import type { DeskTools } from '../desk-tools.ts';
import { createRehearsalTools, type Rehearsed, type RehearsalTools } from './rehearsal-tools.ts';

export interface RehearsalChoice {
  /** null for nothing. */
  readonly rehearsed: RehearsalTools | null;
  /** Why it ended by itself; null until it does, and once that is read. */
  readonly ended: string | null;
  /** Refused with a sentence while a run is going, or for a text with faults; null otherwise. */
  begin(session: Rehearsed): string | null;
  leave(): void;
  read(): void;
}

const GOING = 'A run is going: finish it first, then rehearse.';
const FAULTY = 'The text has faults: mend them first.';
const STARTED = 'The rehearsal has ended: a run is going.';
const OPENED = 'The rehearsal has ended: a session was opened on another screen.';

export function useRehearsal(tools: DeskTools): RehearsalChoice {
  const { link } = tools;
  const [rehearsed, setRehearsed] = useState<RehearsalTools | null>(null);
  const [ended, setEnded] = useState<string | null>(null);
  /** What had the keyboard before. */
  const keyboard = useRef<Element | null>(null);
  useEffect(() => {
    if (rehearsed === null) return undefined;
    const before = link.store.getState().run?.id ?? null;
    const end = (why: string): void => {
      rehearsed.stop();
      setRehearsed(null);
      setEnded(why);
    };
    return link.store.subscribe(({ run }) => {
      if (isGoing(link)) end(STARTED);
      else if (run !== null && run.id !== before) end(OPENED);
    });
  }, [link, rehearsed]);
  useEffect(() => {
    if (rehearsed !== null) return;
    const before = keyboard.current;
    keyboard.current = null;
    if (before?.isConnected && takesKeys(before)) before.focus();
  }, [rehearsed]);
  return {
    rehearsed,
    ended,
    begin(next) {
      if (isGoing(link)) return GOING;
      if (!openPlan(next.source).ok) return FAULTY;
      keyboard.current = document.activeElement;
      setEnded(null);
      setRehearsed(createRehearsalTools(next, tools));
      return null;
    },
    leave() {
      rehearsed?.stop();
      setRehearsed(null);
    },
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
