/*
 * The reading of a command from outside: what is not exactly one of those that there are is refused with a
 * sentence, never guessed at.
 */

import type { Result } from '../result.ts';
import type { Command, CommandName } from './command.ts';
import type { Fields } from './command-fields.ts';
import { RULES } from './commands.ts';

/** Of a name that is not known, so many characters are said again. */
const NAME_SHOWN = 40;

/**
 * A command from an object that came from outside, or one sentence saying what is wrong with it:
 * a field missing, unknown, empty, of the wrong kind or out of range.
 */
export function readCommand(given: { readonly [name: string]: unknown }): Result<Command, string> {
  const name = given['do'];
  if (typeof name !== 'string' || !isCommandName(name)) {
    return refuse(`There is no command ${typeof name === 'string' ? named(name) : 'without a text "do"'}.`);
  }
  const fields: Fields = RULES[name].fields;
  const unknown = Object.keys(given).find((field) => field !== 'do' && !has(fields, field));
  if (unknown !== undefined) return refuse(`The command ${name} takes no field ${named(unknown)}.`);
  const command: { [field: string]: unknown } = { do: name };
  for (const [field, { optional, read }] of Object.entries(fields)) {
    if (has(given, field)) {
      const value = read(given[field]);
      if (!value.ok) return refuse(`The command ${name} needs ${value.faults}.`);
      command[field] = value.value;
    } else if (!optional) return refuse(`The command ${name} needs the field "${field}".`);
  }
  return { ok: true, value: command as Command };
}

export function isCommandName(name: string): name is CommandName {
  return has(RULES, name);
}

function has(fields: object, name: string): boolean {
  return Object.prototype.hasOwnProperty.call(fields, name);
}

/** A name from outside in quotes, cut where it is endless. */
function named(name: string): string {
  return JSON.stringify(name.length > NAME_SHOWN ? `${name.slice(0, NAME_SHOWN)}…` : name);
}

function refuse(why: string): Result<Command, string> {
  return { ok: false, faults: why };
}
