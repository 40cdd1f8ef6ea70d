/*
 * Checks the words of a command line against what the command takes. Wrong usage comes back as a sentence.
 */

import { parseArgs } from 'node:util';
import type { Result } from '../core/result.ts';

/** Options by name, without the dashes: a `value` takes one word, a `flag` none. */
export type Options = Readonly<Record<string, 'value' | 'flag'>>;

export interface Arguments {
  readonly positionals: readonly string[];
  /** Values by option. If an option is given twice, the last value counts. */
  readonly values: ReadonlyMap<string, string>;
  readonly flags: ReadonlySet<string>;
}

/** The arguments, or one sentence saying what is wrong. Every command knows `--help`. */
export function readArguments(args: readonly string[], options: Options): Result<Arguments, string> {
  const known = new Map([...Object.entries(options), ['help', 'flag'] as const]);
  // Not strict, so that the sentences are ours; the tokens are enough to check everything.
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
      // A single dash is standard input. Any other word with a dash is the next option, unless it follows "=".
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
