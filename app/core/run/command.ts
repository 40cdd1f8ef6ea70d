/*
 * What a coach can say during a run. Which commands there are, and their fields, each command's own file in
 * `commands/` declares; `commands.ts` holds them all.
 */

import type { Millis } from '../units.ts';

/**
 * The fields of each command by its name. `undo` has none and is about the others; they add themselves, each in
 * its own file, so that a state can hold a command without every rule being known here.
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
