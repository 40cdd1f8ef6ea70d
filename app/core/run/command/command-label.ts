/*
 * What the coach calls a command.
 */

import { lanesNamed } from '../../words/lanes.ts';
import { commaed } from '../../words/phrase.ts';
import type { Command, CommandName, CommandOf } from './command.ts';
import type { CommandWords } from './command-words.ts';
import { WORDS } from './commands.ts';

/** "Stop", "+5 s", "Move on". */
export function commandLabel(command: Command): string {
  return labelOf(command);
}

/** With the lanes that it names: "Stop, lane 6", "Stop". */
export function labelWithLanes(command: Command): string {
  const lanes = ('lanes' in command && command.lanes) || [];
  return commaed(labelOf(command), lanes.length > 0 ? lanesNamed(lanes) : '');
}

export function wordsOf<Name extends CommandName>(name: Name): CommandWords<Name> {
  const words: { readonly [N in CommandName]: CommandWords<N> } = WORDS;
  return words[name];
}

function labelOf<Name extends CommandName>(command: CommandOf<Name>): string {
  const { label } = wordsOf(command.do);
  return typeof label === 'string' ? label : label(command);
}
