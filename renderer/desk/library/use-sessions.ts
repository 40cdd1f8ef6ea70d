/*
 * The library beside the session that is being written: what is found, and what the coach does with it. What replaces the
 * text in the editor is a step of its undo.
 */

import { useEffect, useLayoutEffect, useState } from 'react';
import { createStore, type StoreApi } from 'zustand/vanilla';
import { readDay, type Day } from '../../../app/core/day.ts';
import { movedSession } from '../../../app/core/session/text/moved-session.ts';
import type { MinuteOfDay } from '../../../app/core/units.ts';
import type { BinEntry, LibraryText, ShelfKind } from '../../link/requests/library.ts';
import type { DeskTools } from '../desk-tools.ts';
import { EMPTY } from '../write/draft.ts';
import { nextFound, type Found } from './found.ts';
import { movedName } from './naming/moved-name.ts';

/** What was done; `undo` takes it back. */
export interface Done {
  readonly text: string;
  readonly undo?: () => void;
}

export interface SessionsGiven {
  readonly tools: Pick<DeskTools, 'writing' | 'askLibrary'>;
  /** Whether the list is in sight. */
  readonly isSeen: boolean;
  /** Takes the last change of the text back. */
  undo(): void;
  /** Puts lines in at the cursor. */
  insert(text: string): void;
  /** Another session is in the editor, for the coach to look at. */
  onShown(): void;
  /** A new text is there to be written. */
  onBegun(): void;
  onDone(done: Done): void;
  onRefused(why: string): void;
}

export interface Looked {
  /** What was looked for last. */
  readonly words: string;
  /** null until the library has answered. */
  readonly found: Found | null;
  readonly binned: readonly BinEntry[] | null;
}

/** Stays the same object as long as the page is there: what is made of it alone is drawn once. */
export interface Sessions {
  /** Beside React: a letter in the field, or a look at what is there, draws what has changed and not the page. */
  readonly looked: StoreApi<Looked>;
  find(words: string): void;
  open(name: string): Promise<void>;
  begin(text: string, name: string | null): void;
  duplicate(name: string): Promise<void>;
  moveTo(name: string, day: Day, start: MinuteOfDay | null): Promise<void>;
  /** Whether it has that name now. */
  rename(kind: ShelfKind, name: string, to: string): Promise<boolean>;
  discard(kind: ShelfKind, name: string): Promise<void>;
  read(kind: ShelfKind, name: string): Promise<LibraryText | null>;
  lookIntoBin(): Promise<void>;
  putBack(entry: BinEntry): Promise<void>;
  keepPiece(text: string): Promise<void>;
  insertPiece(name: string): Promise<void>;
  /** Says why something cannot be done. */
  refuse(why: string): void;
}

/** More are found by another word. */
const MOST = 200;

export function useSessions(given: SessionsGiven): Sessions {
  const { tools, isSeen } = given;
  const [{ sessions, again, listen }] = useState(() => createSessions(given));
  useLayoutEffect(() => listen(given));
  useFollowing(again, tools.writing, isSeen);
  return sessions;
}

interface Made {
  readonly sessions: Sessions;
  /** Looks for the same once more. */
  again(): Promise<void>;
  /** What the page has been drawn with last. */
  listen(given: SessionsGiven): void;
}

function createSessions(given: SessionsGiven): Made {
  const { writing, askLibrary: ask } = given.tools;
  let page = given;
  const looked = createStore<Looked>(() => ({ words: '', found: null, binned: null }));
  let asked = 0;

  const find = async (words: string): Promise<void> => {
    looked.setState({ words });
    const n = ++asked;
    const answer = await ask<'list'>({ do: 'list', find: words, most: MOST });
    // Only the answer to the last question counts.
    if (n !== asked) return;
    if (!answer.ok) return page.onRefused(answer.why);
    looked.setState(({ found }) => ({ found: nextFound(found, { ...answer, words }) }));
  };
  const again = (): Promise<void> => find(looked.getState().words);
  const read = async (kind: ShelfKind, name: string): Promise<LibraryText | null> => {
    if (kind === 'session' && writing.state().saving.file?.name === name) await writing.flush();
    const answer = await ask<'read'>({ do: 'read', kind, name });
    if (answer.ok) return answer;
    page.onRefused(answer.why);
    return null;
  };
  const show = (text: LibraryText, done: string): void => {
    writing.open(text);
    page.onShown();
    page.onDone({ text: done, undo: page.undo });
  };
  const copy = async (name: string, text: string, done: (name: string) => string): Promise<void> => {
    const placed = await ask<'create'>({ do: 'create', kind: 'session', name, text });
    if (!placed.ok) return page.onRefused(placed.why);
    show({ ...placed, text }, done(placed.name));
    await again();
  };
  const lookIntoBin = async (): Promise<void> => {
    const answer = await ask<'bin'>({ do: 'bin' });
    if (answer.ok) looked.setState({ binned: answer.binned });
    else page.onRefused(answer.why);
  };
  const putBack = async (id: string, opens: boolean): Promise<void> => {
    const answer = await ask<'put-back'>({ do: 'put-back', id });
    if (!answer.ok) return page.onRefused(answer.why);
    const text = opens ? await read(answer.kind, answer.name) : null;
    if (text) writing.open(text);
    page.onDone({ text: `${answer.name} is back.` });
    await Promise.all([again(), looked.getState().binned ? lookIntoBin() : null]);
  };

  const sessions: Sessions = {
    looked,
    find: (next) => void find(next),
    read,
    lookIntoBin,
    async open(name) {
      if (writing.state().saving.file?.name === name) return;
      const text = await read('session', name);
      if (text) show(text, `Opened ${name}.`);
    },
    begin(text, name) {
      const { lanesText } = writing.state().draft;
      writing.put({ ...EMPTY, text, lanesText, from: name });
      // What was looked for would hide it.
      void find('');
      page.onShown();
      page.onBegun();
      page.onDone({
        text: name === null ? 'A new session.' : `${name}, a sample: change it as you like.`,
        undo: page.undo,
      });
    },
    async duplicate(name) {
      const text = await read('session', name);
      if (text) await copy(name, text.text, (copied) => `${copied} is a copy of ${name}.`);
    },
    async moveTo(name, day, start) {
      const text = await read('session', name);
      if (!text) return;
      const entry = looked.getState().found?.sessions.find((each) => each.name === name);
      const from = readDay(entry?.day ?? '');
      await copy(movedName(name, from, day), movedSession(text.text, day, start), (moved) => `Made ${moved}.`);
    },
    async rename(kind, name, to) {
      const isOpen = kind === 'session' && writing.state().saving.file?.name === name;
      const refused = isOpen ? await writing.rename(to) : await renameFile(kind, name, to);
      if (refused !== null) page.onRefused(refused);
      else await again();
      return refused === null;
    },
    async discard(kind, name) {
      const isOpen = kind === 'session' && writing.state().saving.file?.name === name;
      if (isOpen) await writing.flush();
      const answer = await ask<'discard'>({ do: 'discard', kind, name });
      if (!answer.ok) return page.onRefused(answer.why);
      if (kind === 'session') writing.moved(name, null);
      if (isOpen) writing.put({ ...EMPTY, lanesText: writing.state().draft.lanesText });
      page.onDone({ text: `${name} is in the bin, for 30 days.`, undo: () => void putBack(answer.id, isOpen) });
      await again();
    },
    putBack: ({ id }) => putBack(id, false),
    async keepPiece(text) {
      const name = text.trim().split('\n')[0] ?? '';
      const placed = await ask<'create'>({ do: 'create', kind: 'piece', name, text });
      if (!placed.ok) return page.onRefused(placed.why);
      page.onDone({ text: `${placed.name} is kept: put it into any session.` });
      await again();
    },
    async insertPiece(name) {
      const piece = await read('piece', name);
      if (!piece) return;
      page.insert(piece.text);
      page.onDone({ text: `Put in ${name}.`, undo: page.undo });
    },
    refuse: (why) => page.onRefused(why),
  };
  return { sessions, again, listen: (next) => void (page = next) };

  async function renameFile(kind: ShelfKind, name: string, to: string): Promise<string | null> {
    const answer = await ask<'rename'>({ do: 'rename', kind, name, to });
    if (!answer.ok) return answer.why;
    if (kind === 'session') writing.moved(name, answer.name);
    return null;
  }
}

/** In ms: other programs and windows write there too. */
const LOOK_EVERY = 5000;

/** While it is in sight the list is looked up now and then, and at once where the open session was saved or has another file. */
function useFollowing(again: () => Promise<void>, writing: DeskTools['writing'], isSeen: boolean): void {
  useEffect(() => {
    if (!isSeen) return;
    let known: string | null = null;
    const look = (): void => void again();
    const follow = (): void => {
      const { name, version } = writing.state().saving.file ?? { name: '', version: '' };
      if (known === name + version) return;
      known = name + version;
      look();
    };
    follow();
    const timer = setInterval(look, LOOK_EVERY);
    window.addEventListener('focus', look);
    const unfollow = writing.subscribe(follow);
    return () => {
      clearInterval(timer);
      window.removeEventListener('focus', look);
      unfollow();
    };
  }, [again, writing, isSeen]);
}
