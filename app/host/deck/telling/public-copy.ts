/*
 * What a screen that anybody may open is given of the run: nobody's name, no comment, no mark and no notice. Its session
 * has names turned into numbers, line for line, under a hash of its own.
 */

import { withoutNames } from '../../../core/session/names/without-names.ts';
import type { FromHost, Snapshot } from '../../../wire/messages.ts';
import { textHash } from '../text-hash.ts';

type Text = Extract<FromHost, { say: 'text' }>;

export function publicText({ text, lanesText }: Text): Text {
  const source = withoutNames({ text, lanesText });
  return { say: 'text', hash: textHash(source), ...source };
}

/** hashOf: the hash of the public copy, by that of the whole text. */
export function publicSnapshot(whole: Snapshot, hashOf: (hash: string) => string): Snapshot {
  const { run } = whole;
  if (!run) return { ...whole, notices: [], startUp: null };
  const commands = run.commands
    .filter(({ command }) => command['do'] !== 'mark')
    .map(({ at, command }) => {
      const { textHash: named } = command;
      return { at, command: typeof named === 'string' ? { ...command, textHash: hashOf(named) } : command };
    });
  return { ...whole, run: { ...run, text: hashOf(run.text), commands }, notices: [], startUp: null };
}
