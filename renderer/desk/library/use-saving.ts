/*
 * The session in the editor and its file: it is saved as it is typed, and looked at now and then, because other programs
 * may write there too.
 */

import { useEffect, useMemo, useSyncExternalStore } from 'react';
import { parseSession } from '../../../app/core/session/parse.ts';
import { askLibrary, type FileNow } from '../../link/library.ts';
import { newNameOf, type DraftFile, type Writing } from '../write/draft.ts';
import { NAMELESS, SessionSaver, type Saving } from './session-saver.ts';

/** In ms. */
const LOOK_EVERY = 2000;

const TIMERS = {
  set: (call: () => void, ms: number): unknown => setTimeout(call, ms),
  clear: (timer: unknown): void => clearTimeout(timer as ReturnType<typeof setTimeout>),
};

export interface SavedSession {
  readonly saving: Saving;
  readonly saver: SessionSaver;
}

export function useSaving({ draft, aside, begun, filed, outdated, asideFiled }: Writing): SavedSession {
  // Another text in the editor has a saver of its own; what was there is saved to its end by the one before.
  const saver = useMemo(() => {
    const ports = {
      ask: askLibrary,
      timers: TIMERS,
      wall: () => Date.now(),
      nameOf: titleOf,
      onFile: (file: DraftFile) => filed(begun, file),
      onOutdated: (now: FileNow) => outdated(begun, now),
    };
    return new SessionSaver(ports, begun);
  }, [begun, filed, outdated]);
  useEffect(() => {
    const flush = (): void => void saver.flush();
    const look = setInterval(() => document.visibilityState === 'visible' && void saver.look(), LOOK_EVERY);
    window.addEventListener('pagehide', flush);
    flush();
    return () => {
      clearInterval(look);
      window.removeEventListener('pagehide', flush);
      flush();
    };
  }, [saver]);
  useEffect(() => saver.write(draft.text), [saver, draft.text]);
  useEffect(() => {
    // A text that an earlier version set aside goes into the library as well.
    if (aside?.file !== undefined || !aside || aside.text.trim() === '') return;
    const name = newNameOf(aside) ?? titleOf(aside.text) ?? NAMELESS;
    void askLibrary<'create'>({ do: 'create', kind: 'session', name, text: aside.text }).then((answer) => {
      if (answer.ok) asideFiled(aside, { name: answer.name, version: answer.version });
    });
  }, [aside, asideFiled]);
  return { saver, saving: useSyncExternalStore(saver.subscribe, saver.state) };
}

/** Of a text that can be read: a title that is being typed names no file. */
function titleOf(text: string): string | null {
  const session = parseSession(text, null);
  return session.ok ? session.value.title : null;
}
