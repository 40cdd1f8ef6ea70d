/*
 * The commands that a coach can give during a run. Each command's own file in `commands/` declares its name and
 * fields; `commands.ts` lists them all.
 */

import type { Millis } from '../../units.ts';

/**
 * The fields of each command by its name. Only `undo`, which has none and is about the others, is declared here. The
 * others add themselves in their own files, so a state can hold a command without importing every rule.
 */
export interface CommandFields {
  readonly undo: Readonly<Record<never, never>>;
}

export type CommandName = keyof CommandFields;

export type CommandOf<Name extends CommandName> = { readonly do: Name } & CommandFields[Name];

export type Command = { [Name in CommandName]: CommandOf<Name> }[CommandName];

/** A command with the time at which the host accepted it, in ms since the run was opened. */
export interface TimedCommand {
  readonly at: Millis;
  readonly command: Command;
}
