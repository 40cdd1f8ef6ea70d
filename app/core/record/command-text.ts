/*
 * A command in a few words, for the record: its name as the coach knows it, whom it was for, and how much.
 */

import type { Command, CommandName, CommandOf } from '../run/command/command.ts';
import type { CommandWords } from '../run/command/command-words.ts';
import { RULES, WORDS } from '../run/command/commands.ts';
import { lanesOrAll } from '../words/lanes.ts';
import { commaed, spaced } from '../words/phrase.ts';

/** "Skip rep, lane 2", "Cut 1, line 22". */
export function commandText(command: Command): string {
  const label = labelOf(command);
  return commaed(command.do === 'shift' ? label : spaced(label, amountOf(command)), whomOf(command));
}

/** Whom it was for and how much: "lane 2, +5 s"; '' where it says no more than its name. Texts and words are left out. */
export function fieldsText(command: Command): string {
  return commaed(whomOf(command), amountOf(command));
}

function whomOf(command: Command): string {
  const { lanes, line, rounds, rep } = command as AnyFields;
  const { fields, steers } = RULES[command.do];
  const isForAll = steers && 'lanes' in fields;
  return commaed(
    lanes || isForAll ? lanesOrAll(lanes ?? []) : '',
    line === undefined ? '' : `line ${line}`,
    rounds === undefined ? '' : `round ${rounds.join('.')}`,
    rep === undefined ? '' : `rep ${rep}`,
  );
}

function amountOf(command: Command): string {
  const { seconds, n } = command as AnyFields;
  if (seconds === undefined) return n === undefined ? '' : `${n}`;
  return `${seconds > 0 && command.do !== 'gap' ? '+' : ''}${seconds} s`;
}

/** What any command may have. */
interface AnyFields {
  readonly lanes?: readonly number[];
  readonly seconds?: number;
  readonly line?: number;
  readonly n?: number;
  readonly rounds?: readonly number[];
  readonly rep?: number;
}

function labelOf<Name extends CommandName>(command: CommandOf<Name>): string {
  const words: { readonly [N in CommandName]: CommandWords<N> } = WORDS;
  const { label } = words[command.do as Name];
  return typeof label === 'string' ? label : label(command);
}
