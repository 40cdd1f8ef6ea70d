/*
 * A session file that somebody opens with the program. One without faults is opened at once, unless a run is going.
 * Any other goes into the coach's editor, with a sentence that says why.
 */

import { basename } from 'node:path';
import type { DeckHost } from '../../host/deck/deck-host.ts';
import { readTextFile, type TextRead } from '../../host/text-file.ts';
import type { SessionFile } from '../../wire/window-bridge.ts';

/** What goes to the coach's window; null where the session is open already. Never rejects. */
export async function openFile(host: DeckHost, path: string, lanes: string | null): Promise<SessionFile | null> {
  const name = basename(path);
  const read = await readTextFile(path);
  const lanesRead = lanes === null ? null : await readTextFile(lanes);
  const why =
    reasonNotText(name, read) ?? (lanesRead && lanes !== null ? reasonNotText(basename(lanes), lanesRead) : null);
  if (!read.ok || (lanesRead && !lanesRead.ok)) return { name, text: null, lanesText: null, why: why ?? '' };
  const lanesText = lanesRead?.text ?? null;
  const answer = await host.open({ text: read.text, lanesText }, { replace: false });
  if (answer.ok) return null;
  const { text } = read;
  if (answer.reason === 'going') {
    return { name, text, lanesText, why: `${name} is in the editor, for when the run that is going is over.` };
  }
  return { name, text, lanesText, why: `${name} has faults: they are marked in the editor.` };
}

function reasonNotText(name: string, read: TextRead): string | null {
  if (read.ok) return null;
  if (read.why === 'unreadable') return `${name}: ${read.message}.`;
  const [fault] = read.faults;
  return `${name}: ${fault?.message ?? 'this is no text'}.`;
}
