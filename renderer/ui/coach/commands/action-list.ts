/*
 * The coach's actions, collected from the commands: what each is called, which key gives it, and its command.
 */

import type { Command, CommandName } from '../../../../app/core/run/command/command.ts';
import { commandLabel } from '../../../../app/core/run/command/command-label.ts';
import type { Action } from '../../../../app/core/run/command/command-words.ts';
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

/** The command of an action for these lanes; an empty list is for all of them. */
export function commandOf(name: ActionName, lanes: readonly number[]): Command {
  return ACTIONS[name].command(lanes.length > 0 ? { lanes } : {});
}

/** What a command is called, with its lanes: "+5 s lane 1", "Stop all lanes", "Lane 2 out". */
export function commandNamed(command: Command): string {
  const label = commandLabel(command);
  const { fields, steers } = RULES[command.do];
  if (!steers || !('lanes' in fields)) return label;
  const who = lanesOrAll(('lanes' in command && command.lanes) || []);
  return command.do === 'lane-in' || command.do === 'lane-out'
    ? label.replace('Lane', capital(who))
    : `${label} ${who}`;
}
