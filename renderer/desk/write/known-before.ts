/*
 * What the library's sessions and the squads say, for what is offered while a coach types. It is read when it is first
 * wanted, and again now and then; until it is there only the session itself is known.
 */

import type { AskLibrary } from '../../link/requests/library.ts';
import { askSquads } from '../../link/requests/squads.ts';
import type { KnownBefore } from '../editor/completion/completing.ts';
import { KnownWords } from '../editor/completion/known-words.ts';

/** The last used. */
const SESSIONS_READ = 24;

/** Of each; more would keep whoever types waiting. */
const LINES_READ = 300;

/** In ms. */
const READ_EVERY = 5 * 60_000;

export function createKnownBefore(ask: AskLibrary, now: () => number = Date.now): KnownBefore {
  let known = new KnownWords();
  let readAt = -Infinity;
  return () => {
    if (now() - readAt >= READ_EVERY) {
      readAt = now();
      void readAll(ask).then((read) => (known = read));
    }
    return known;
  };
}

async function readAll(ask: AskLibrary): Promise<KnownWords> {
  const words = new KnownWords();
  const list = await ask<'list'>({ do: 'list', find: '', most: SESSIONS_READ });
  const shelves = list.ok
    ? ([
        ['session', list.sessions],
        ['piece', list.pieces],
      ] as const)
    : [];
  for (const [kind, entries] of shelves) {
    for (const { name } of entries.slice(0, SESSIONS_READ)) {
      const answer = await ask<'read'>({ do: 'read', kind, name });
      if (answer.ok) words.read(answer.text.split(/\r?\n/, LINES_READ));
    }
  }
  const squads = await askSquads({ do: 'list' });
  if (squads.ok) for (const { lanes } of squads.squads) words.read(['Squad', ...lanes]);
  return words;
}
