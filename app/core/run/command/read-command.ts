/*
 * Reads a command from outside. Anything that is not exactly a known command is refused with a sentence; nothing is
 * guessed.
 */

import type { Result } from '../../result.ts';
import type { Command, CommandName } from './command.ts';
import type { Fields } from './command-fields.ts';
import { RULES } from './commands.ts';

/** How many characters of an unknown name the refusal repeats. */
const NAME_SHOWN = 40;

/**
 * The command in an object from outside, or one sentence about the first field that is missing, unknown, empty, of
 * the wrong kind or out of range.
 */
export function readCommand(given: { readonly [name: string]: unknown }): Result<Command, string> {
  const name = given['do'];
  if (typeof name !== 'string' || !isCommandName(name)) {
    return refuse(
      typeof name === 'string' ? `There is no command ${named(name)}.` : 'A command needs its name as "do".',
    );
  }
  const fields: Fields = RULES[name].fields;
  const unknown = Object.keys(given).find((field) => field !== 'do' && !has(fields, field));
  if (unknown !== undefined) return refuse(`The command ${name} has no field ${named(unknown)}.`);
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

/** A name from outside in quotes, cut short if it is long. */
function named(name: string): string {
  return JSON.stringify(name.length > NAME_SHOWN ? `${name.slice(0, NAME_SHOWN)}…` : name);
}

function refuse(why: string): Result<Command, string> {
  return { ok: false, faults: why };
}
