/*
 * What a coach can say during a run, and the reading of it from outside: a command that is not
 * exactly one of these is refused with a sentence, never guessed at.
 */

import type { Millis } from '../units.ts';
import type { Result } from '../result.ts';

export type Command =
  | { readonly do: 'start' | 'move-on' | 'restart' | 'finish' }
  | { readonly do: 'undo' }
  | { readonly do: LaneWord; readonly lanes?: readonly number[] }
  | { readonly do: 'shift' | 'interval' | 'gap'; readonly lanes?: readonly number[]; readonly seconds: number }
  | { readonly do: 'swimmers'; readonly lanes?: readonly number[]; readonly n: number }
  | { readonly do: 'lane-out' | 'lane-in'; readonly lanes: readonly number[] }
  | { readonly do: 'cut'; readonly line: number; readonly n: number }
  | { readonly do: 'go-to'; readonly line: number; readonly rounds?: readonly number[]; readonly rep: number }
  | { readonly do: 'rewrite'; readonly text: string }
  | { readonly do: 'mark'; readonly lanes?: readonly number[]; readonly words?: string };

/** Commands that take lanes and nothing else; with none named they mean all lanes that are in. */
export type LaneWord = 'stop' | 'resume' | 'rejoin' | 'skip' | 'sit-out' | 'repeat';

export type CommandName = Command['do'];

/** A command with the time at which the host accepted it, in ms since the run was opened. */
export interface TimedCommand {
  readonly at: Millis;
  readonly command: Command;
}

/** A mark's words, in characters. */
export const MARK_LIMIT = 200;

/** As many as a session may have, and as deep as its rounds may stand in rounds. */
const MOST_LANES = 20;
const DEEPEST_ROUNDS = 4;

/** Of a name that is not known, so many characters are said again. */
const NAME_SHOWN = 40;

/** The fields each command takes; a field with `?` may be left out. */
const FIELDS: { readonly [name in CommandName]: readonly string[] } = {
  start: [],
  stop: ['lanes?'],
  resume: ['lanes?'],
  rejoin: ['lanes?'],
  skip: ['lanes?'],
  'sit-out': ['lanes?'],
  repeat: ['lanes?'],
  shift: ['lanes?', 'seconds'],
  interval: ['lanes?', 'seconds'],
  cut: ['line', 'n'],
  rewrite: ['text'],
  'go-to': ['line', 'rounds?', 'rep'],
  'move-on': [],
  restart: [],
  'lane-out': ['lanes'],
  'lane-in': ['lanes'],
  swimmers: ['lanes?', 'n'],
  gap: ['lanes?', 'seconds'],
  mark: ['lanes?', 'words?'],
  finish: [],
  undo: [],
};

/**
 * A command from an object that came from outside, or one sentence saying what is wrong with it:
 * a field missing, unknown, empty, of the wrong kind or out of range.
 */
export function readCommand(fields: { readonly [name: string]: unknown }): Result<Command, string> {
  const name = fields['do'];
  if (typeof name !== 'string' || !isCommandName(name)) {
    return refuse(`There is no command ${typeof name === 'string' ? named(name) : 'without a text "do"'}.`);
  }
  const taken = FIELDS[name];
  for (const field of Object.keys(fields)) {
    if (field !== 'do' && !taken.includes(field) && !taken.includes(`${field}?`)) {
      return refuse(`The command ${name} takes no field ${named(field)}.`);
    }
  }
  for (const field of taken) {
    const fieldName = field.replace('?', '');
    const value = fields[fieldName];
    if (!Object.prototype.hasOwnProperty.call(fields, fieldName)) {
      if (!field.endsWith('?')) return refuse(`The command ${name} needs the field "${fieldName}".`);
    } else {
      const wrong = wrongValue(name, fieldName, value);
      if (wrong) return refuse(`The command ${name} needs ${wrong}.`);
    }
  }
  return { ok: true, value: fields as unknown as Command };
}

/** A name from outside in quotes, cut where it is endless. */
function named(name: string): string {
  return JSON.stringify(name.length > NAME_SHOWN ? `${name.slice(0, NAME_SHOWN)}…` : name);
}

function isCommandName(name: string): name is CommandName {
  return Object.prototype.hasOwnProperty.call(FIELDS, name);
}

function refuse(why: string): Result<Command, string> {
  return { ok: false, faults: why };
}

/** What the field should be, where the value is not that; else null. */
function wrongValue(name: CommandName, field: string, value: unknown): string | null {
  switch (field) {
    case 'lanes':
      if (!isList(value, 0, 20) || value.length === 0) return 'lanes as a list of lane numbers, each from 0 to 20';
      if (value.length > MOST_LANES) return `lanes as a list of at most ${MOST_LANES}, not ${value.length}`;
      return new Set(value).size === value.length ? null : 'lanes as a list in which each lane stands once';
    case 'rounds':
      return isList(value, 1, 500) && value.length <= DEEPEST_ROUNDS
        ? null
        : `rounds as a list of at most ${DEEPEST_ROUNDS} round numbers from 1 to 500, outermost first`;
    case 'seconds':
      if (name === 'gap') return isWhole(value, 1, 60) ? null : 'seconds from 1 to 60';
      return isWhole(value, -600, 600) && value !== 0 ? null : 'whole seconds from -600 to 600, not 0';
    case 'n':
      if (name === 'swimmers') return isWhole(value, 1, 20) ? null : 'n from 1 to 20';
      return isWhole(value, 1, Number.MAX_SAFE_INTEGER) ? null : 'n, a whole number from 1';
    case 'line':
    case 'rep':
      return isWhole(value, 1, Number.MAX_SAFE_INTEGER) ? null : `${field}, a whole number from 1`;
    case 'text':
      return typeof value === 'string' && value !== '' ? null : 'text, a whole session';
    default:
      return typeof value === 'string' && [...value].length <= MARK_LIMIT
        ? null
        : `words of at most ${MARK_LIMIT} characters`;
  }
}

function isList(value: unknown, least: number, most: number): value is readonly number[] {
  return Array.isArray(value) && value.every((item) => isWhole(item, least, most));
}

function isWhole(value: unknown, least: number, most: number): value is number {
  return typeof value === 'number' && Number.isSafeInteger(value) && value >= least && value <= most;
}
