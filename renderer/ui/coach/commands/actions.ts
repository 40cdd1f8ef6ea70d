/*
 * The coach's actions, as the commands have them: what each is called, which key gives it, and the command it
 * stands for.
 */

import type { Command, CommandName, CommandOf } from '../../../../app/core/run/command/command.ts';
import type { Action, CommandWords } from '../../../../app/core/run/command/command-words.ts';
import { RULES, WORDS } from '../../../../app/core/run/command/commands.ts';
import { lanesOrAll } from '../../../../app/core/words/lanes.ts';
import { capital } from '../../../../app/core/words/phrase.ts';

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

/** The same with whom it is for: "+5 s lane 1", "Stop all lanes", "Lane 2 out". */
export function commandNamed(command: Command): string {
  const label = commandLabel(command);
  const { fields, steers } = RULES[command.do];
  if (!steers || !('lanes' in fields)) return label;
  const who = lanesOrAll(('lanes' in command && command.lanes) || []);
  return command.do === 'lane-in' || command.do === 'lane-out'
    ? label.replace('Lane', capital(who))
    : `${label} ${who}`;
}

function labelOf<Name extends CommandName>(command: CommandOf<Name>): string {
  const { label } = wordsOf(command.do);
  return typeof label === 'string' ? label : label(command);
}

export function wordsOf<Name extends CommandName>(name: Name): CommandWords<Name> {
  const words: { readonly [N in CommandName]: CommandWords<N> } = WORDS;
  return words[name];
}
