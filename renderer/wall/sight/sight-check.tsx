/*
 * The sight check: from how far away each kind of text on this screen can be read, as it is drawn now, and what makes
 * the leaves larger. What is chosen here holds for this page alone, by its address; the coach's window keeps it.
 */

import { useEffect, useState, type ReactElement } from 'react';
import { useStore } from 'zustand';
import { lanesNamed } from '../../../app/core/words/lanes.ts';
import { capital } from '../../../app/core/words/phrase.ts';
import type { Link } from '../../link/link.ts';
import { layoutFor } from '../layout.ts';
import { lanesShown, mostSwimmers, roomOf } from '../room.ts';
import { readWallChoice, type WallChoice } from '../screen/wall-choice.ts';
import { drawnHeights } from './drawn.ts';
import { helpsFor, KIND_WORDS, metres, reachesOf, reachText, type Help } from './sight.ts';
import './sight-check.css';

export function SightCheck({ link }: { readonly link: Link }): ReactElement {
  useSeconds();
  const run = useStore(link.store, (state) => state.run);
  const settings = useStore(link.store, ({ screen }) => screen?.settings);
  const choice = readWallChoice(location.search, settings);
  const { diagonal, reader } = choice;
  const lanes = lanesShown(run, choice);
  const size = { width: window.innerWidth, height: window.innerHeight };
  const room = roomOf(size, lanes.length, mostSwimmers(run, lanes), choice, false);
  const { face, clock } = layoutFor(room, choice.face);
  const board = document.querySelector('.board') ?? document.body;
  const reaches = reachesOf(drawnHeights(board, face.numerals(clock)), { ...size, diagonal });
  const helps = helpsFor(room, choice, lanes);
  return (
    <section className="sight-check" aria-label="Sight check">
      <p>
        {diagonal} inches, the farthest reader at {reader} m
      </p>
      <ul>
        {reaches.map(({ kind, ...reach }) => (
          <li key={kind} data-short={metres(reach.least) < reader ? 'yes' : undefined}>
            <b>{capital(KIND_WORDS[kind])}</b> {reachText(reach)}
            {metres(reach.least) < reader ? `, not from ${reader} m` : ''}
          </li>
        ))}
      </ul>
      {helps.map((help) => (
        <button
          key={help.kind}
          type="button"
          onClick={() => (location.search = helpedBy(location.search, help, choice))}
        >
          {helpText(help)}
        </button>
      ))}
      {isHelped(location.search) ? (
        <button type="button" onClick={() => (location.search = helpedBy(location.search, null))}>
          As it was before
        </button>
      ) : null}
    </section>
  );
}

function helpText({ kind, lanes, least }: Help): string {
  const so = `leaves to ${metres(least)} m`;
  switch (kind) {
    case 'fewer words':
      return `Fewer words: ${so}`;
    case 'two columns':
      return `Two columns: ${so}`;
    case 'shared':
      return `Only ${lanesNamed(lanes)} here, the others on another screen: ${so}`;
    case 'leaves only':
      return `Clock and leaves only: ${so}`;
    case 'digits':
      return `Digits in place of the dial: clock to ${metres(least)} m`;
  }
}

/** What a page's address asks for after a help was chosen; null: after they were all taken back. choice: of now. */
export function helpedBy(
  search: string,
  help: Pick<Help, 'kind' | 'lanes'> | null,
  { clock }: Partial<Pick<WallChoice, 'clock'>> = {},
): string {
  const asked = new URLSearchParams(search);
  if (!help) for (const name of HELPS) asked.delete(name);
  else if (help.kind === 'fewer words') asked.set('without', 'words,after');
  else if (help.kind === 'two columns') asked.set('columns', '2');
  else if (help.kind === 'shared') asked.set('lanes', help.lanes.join(','));
  else if (help.kind === 'digits') {
    asked.set('face', 'digits');
    // A face that an address asks for has its own usual clock.
    if (clock) asked.set('clock', clock);
  } else asked.set('only', 'leaves');
  return asked.toString();
}

const HELPS = ['without', 'columns', 'lanes', 'only'];

function isHelped(search: string): boolean {
  const asked = new URLSearchParams(search);
  return HELPS.some((name) => asked.has(name));
}

/** What is drawn changes meanwhile. */
function useSeconds(): void {
  const [, count] = useState(0);
  useEffect(() => {
    const timer = setInterval(() => count((n) => n + 1), 1000);
    return () => clearInterval(timer);
  }, []);
}
