/*
 * The fields of commands, described as data. Both the types of commands and the checks on commands from outside are
 * made from these descriptions.
 */

import type { Result } from '../../result.ts';

/** One field. `read` gives its value, or the words that follow "The command … needs" in the refusal. */
export interface Field<Value> {
  readonly optional: boolean;
  read(value: unknown): Result<Value, string>;
}

/** The fields of a command by name, in the order in which they are checked. */
export type Fields = { readonly [field: string]: Field<unknown> };

type Needed<Read> = Field<Read> & { readonly optional: false };

type Value<Of> = Of extends Field<infer Read> ? Read : never;

type OptionalIn<F extends Fields> = { [K in keyof F]: F[K]['optional'] extends true ? K : never }[keyof F];

/** The type of a command with these fields. */
export type FieldsOf<F extends Fields> = { readonly [K in Exclude<keyof F, OptionalIn<F>>]: Value<F[K]> } & {
  readonly [K in OptionalIn<F>]?: Value<F[K]>;
};

/** A session has at most this many lanes, and rounds nested at most this deep. */
const MOST_LANES = 20;
const DEEPEST_ROUNDS = 4;

/** The most characters that the words of a mark may have. */
export const MARK_LIMIT = 200;

/** Lane numbers. A command without this field is for all lanes that are in. */
export const LANES = field((value): Result<readonly number[], string> => {
  if (!isList(value, 0, 20) || value.length === 0) return no('lanes as a list of lane numbers, each from 0 to 20');
  if (value.length > MOST_LANES) return no(`lanes as a list of at most ${MOST_LANES}, not ${value.length}`);
  return new Set(value).size === value.length ? yes(value) : no('lanes as a list that names each lane once');
});

export const ROUNDS = field((value): Result<readonly number[], string> =>
  isList(value, 1, 500) && value.length <= DEEPEST_ROUNDS
    ? yes(value)
    : no(`rounds as a list of at most ${DEEPEST_ROUNDS} round numbers from 1 to 500, outermost first`),
);

/** By how many seconds leaves or intervals change. */
export const CHANGE = field((value): Result<number, string> =>
  isWhole(value, -600, 600) && value !== 0 ? yes(value) : no('whole seconds from -600 to 600, not 0'),
);

/** The text of a whole session. Screens are sent only its hash. A screen that sends a text names the text it started from. */
export const TEXT = field((value): Result<string, string> =>
  typeof value === 'string' && value !== '' ? yes(value) : no('text, a whole session'),
);

export const MARK_WORDS = field((value): Result<string, string> =>
  typeof value === 'string' && [...value].length <= MARK_LIMIT
    ? yes(value)
    : no(`words of at most ${MARK_LIMIT} characters`),
);

/** A whole number from `least` to `most`, both included; without `most`, from `least` up. */
export function wholeNumber(name: string, least: number, most?: number): Needed<number> {
  const what = most === undefined ? `${name}, a whole number from ${least}` : `${name} from ${least} to ${most}`;
  return field((value): Result<number, string> =>
    isWhole(value, least, most ?? Number.MAX_SAFE_INTEGER) ? yes(value) : no(what),
  );
}

export function optional<Read>({ read }: Needed<Read>): Field<Read> & { readonly optional: true } {
  return { optional: true, read };
}

function field<Read>(read: Field<Read>['read']): Needed<Read> {
  return { optional: false, read };
}

function yes<Read>(value: Read): Result<Read, string> {
  return { ok: true, value };
}

function no(what: string): Result<never, string> {
  return { ok: false, faults: what };
}

function isList(value: unknown, least: number, most: number): value is readonly number[] {
  return Array.isArray(value) && value.every((item) => isWhole(item, least, most));
}

function isWhole(value: unknown, least: number, most: number): value is number {
  return typeof value === 'number' && Number.isSafeInteger(value) && value >= least && value <= most;
}
