/*
 * The fields that commands are given with, as data: what a command's type has, and what is read from outside,
 * both come from here.
 */

import type { Result } from '../result.ts';

/** One field: its value from what came from outside, or what it should be, as it goes on behind "needs". */
export interface Field<Value> {
  readonly optional: boolean;
  read(value: unknown): Result<Value, string>;
}

/** The fields of a command, by name, in the order in which they are looked at. */
export type Fields = { readonly [field: string]: Field<unknown> };

type Needed<Read> = Field<Read> & { readonly optional: false };

type Value<Of> = Of extends Field<infer Read> ? Read : never;

type OptionalIn<F extends Fields> = { [K in keyof F]: F[K]['optional'] extends true ? K : never }[keyof F];

/** What a command with these fields has. */
export type FieldsOf<F extends Fields> = { readonly [K in Exclude<keyof F, OptionalIn<F>>]: Value<F[K]> } & {
  readonly [K in OptionalIn<F>]?: Value<F[K]>;
};

/** As many lanes as a session may have, and as deep as its rounds may stand in rounds. */
const MOST_LANES = 20;
const DEEPEST_ROUNDS = 4;

/** A mark's words, in characters. */
export const MARK_LIMIT = 200;

/** With none named a command is for all lanes that are in. */
export const LANES = field((value): Result<readonly number[], string> => {
  if (!isList(value, 0, 20) || value.length === 0) return no('lanes as a list of lane numbers, each from 0 to 20');
  if (value.length > MOST_LANES) return no(`lanes as a list of at most ${MOST_LANES}, not ${value.length}`);
  return new Set(value).size === value.length ? yes(value) : no('lanes as a list in which each lane stands once');
});

export const ROUNDS = field((value): Result<readonly number[], string> =>
  isList(value, 1, 500) && value.length <= DEEPEST_ROUNDS
    ? yes(value)
    : no(`rounds as a list of at most ${DEEPEST_ROUNDS} round numbers from 1 to 500, outermost first`),
);

/** By how much leaves or intervals change. */
export const CHANGE = field((value): Result<number, string> =>
  isWhole(value, -600, 600) && value !== 0 ? yes(value) : no('whole seconds from -600 to 600, not 0'),
);

/** A whole session. It goes to screens by its hash, and a screen names beside it the text it was made from. */
export const TEXT = field((value): Result<string, string> =>
  typeof value === 'string' && value !== '' ? yes(value) : no('text, a whole session'),
);

export const MARK_WORDS = field((value): Result<string, string> =>
  typeof value === 'string' && [...value].length <= MARK_LIMIT
    ? yes(value)
    : no(`words of at most ${MARK_LIMIT} characters`),
);

/** A whole number from `least` to `most`; without `most`, from `least` on. */
export function wholeNumber(name: string, least: number, most?: number): Needed<number> {
  const what = most === undefined ? `${name}, a whole number from ${least}` : `${name} from ${least} to ${most}`;
  return field((value): Result<number, string> =>
    isWhole(value, least, most ?? Number.MAX_SAFE_INTEGER) ? yes(value) : no(what),
  );
}

/** The same field, which may be left out. */
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
