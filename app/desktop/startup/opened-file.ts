/*
 * A session file that somebody opens with the program. One without faults is opened at once, unless a run is going.
 * Any other goes into the coach's editor, with a sentence that says why.
 */

import { basename } from 'node:path';
import type { DeckHost } from '../../host/deck/deck-host.ts';
import { readTextFile } from '../../host/text-file.ts';
import type { SessionFile } from '../../wire/window-bridge.ts';

/** What goes to the coach's window; null where the session is open already. Never rejects. */
export async function openFile(host: DeckHost, path: string, lanes: string | null): Promise<SessionFile | null> {
  const name = basename(path);
  const session = await textOf(path);
  const laneList = lanes === null ? NO_LANES : await textOf(lanes);
  if (!session.ok) return { name, text: null, lanesText: null, why: session.why };
  if (!laneList.ok) return { name, text: null, lanesText: null, why: laneList.why };
  const [text, lanesText] = [session.text, laneList.text];
  const answer = await host.open({ text, lanesText }, { replace: false });
  if (answer.ok) return null;
  const why =
    answer.reason === 'going'
      ? `${name} is in the editor. You can run it when this run is over.`
      : `${name} has faults: they are marked in the editor.`;
  return { name, text, lanesText, why };
}

const NO_LANES = { ok: true, text: null } as const;

/** The text of a file, or a sentence that says why it has none. */
async function textOf(path: string): Promise<{ ok: true; text: string } | { ok: false; why: string }> {
  const name = basename(path);
  const read = await readTextFile(path);
  if (read.ok) return read;
  const why = read.why === 'unreadable' ? `${read.message}.` : read.faults.map(({ message }) => message).join(' ');
  return { ok: false, why: `${name}: ${why}` };
}
