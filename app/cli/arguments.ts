/*
 * The words of a command line, checked against what a command takes. Wrong usage is a sentence.
 */

import { parseArgs } from 'node:util';
import type { Result } from '../core/result.ts';

/** By name without the dashes: `value` takes one word, `flag` none. */
export type Options = Readonly<Record<string, 'value' | 'flag'>>;

export interface Arguments {
  readonly positionals: readonly string[];
  /** The last one given for an option that takes a value. */
  readonly values: ReadonlyMap<string, string>;
  readonly flags: ReadonlySet<string>;
}

/** What was given, or one sentence about what cannot be understood. `--help` is known to every command. */
export function readArguments(args: readonly string[], options: Options): Result<Arguments, string> {
  const known = new Map([...Object.entries(options), ['help', 'flag'] as const]);
  // Not strict, so that the sentences are ours; the tokens say all that is needed to judge them.
  const { tokens } = parseArgs({
    args: [...args],
    options: Object.fromEntries(
      Array.from(known, ([name, kind]) => [name, { type: kind === 'value' ? 'string' : 'boolean' } as const]),
    ),
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const found = { positionals: [] as string[], values: new Map<string, string>(), flags: new Set<string>() };
  for (const token of tokens) {
    if (token.kind === 'positional') found.positionals.push(token.value);
    if (token.kind !== 'option') continue;
    const { rawName, name, value, inlineValue } = token;
    const kind = rawName.startsWith('--') ? known.get(name) : undefined;
    if (!kind) return wrong(`there is no option ${rawName}`);
    if (kind === 'flag') {
      if (value !== undefined) return wrong(`${rawName} takes no value`);
      found.flags.add(name);
    } else {
      // A lone dash is standard input; any other dash begins the next option, unless written with "=".
      if (value === undefined || value === '' || (!inlineValue && /^-./.test(value))) {
        return wrong(`${rawName} needs a value`);
      }
      found.values.set(name, value);
    }
  }
  return { ok: true, value: found };
}

function wrong(message: string): { readonly ok: false; readonly faults: string } {
  return { ok: false, faults: message };
}
