/*
 * The coach's actions, as the commands have them: what each is called, which key gives it, and the command it
 * stands for.
 */

import type { Command, CommandName, CommandOf } from '../../../app/core/run/command.ts';
import type { Action, CommandWords } from '../../../app/core/run/command-words.ts';
import { WORDS } from '../../../app/core/run/commands.ts';

type Words = typeof WORDS;

export type ActionName = { [Name in CommandName]: keyof Words[Name]['actions'] }[CommandName];

/** In the order of the commands. */
export const ACTIONS = Object.assign({}, ...Object.values(WORDS).map(({ actions }) => actions)) as {
  readonly [name in ActionName]: Action;
};

export const ACTION_NAMES = Object.keys(ACTIONS) as readonly ActionName[];

/** The command of an action for the lanes chosen; none chosen: for all. */
export function commandOf(name: ActionName, lanes: readonly number[]): Command {
  return ACTIONS[name].command(lanes.length > 0 ? { lanes } : {});
}

/** What the coach calls a command. */
export function commandLabel(command: Command): string {
  return labelOf(command);
}

function labelOf<Name extends CommandName>(command: CommandOf<Name>): string {
  const { label } = wordsOf(command.do);
  return typeof label === 'string' ? label : label(command);
}

export function wordsOf<Name extends CommandName>(name: Name): CommandWords<Name> {
  const words: { readonly [N in CommandName]: CommandWords<N> } = WORDS;
  return words[name];
}
