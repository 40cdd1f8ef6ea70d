/*
 * Changes of the code that nobody could notice, in `equal.json`: the file, the line as it stands there without its
 * indent, what on it is changed into what, and why that comes to the same. Found by their text, not by line numbers,
 * which move.
 */

import { readFileSync } from 'node:fs';
import { relative } from 'node:path';
import type { MutantResult } from '@stryker-mutator/api/core';

export interface Equal {
  readonly file: string;
  readonly line: string;
  readonly was: string;
  readonly is: string;
  readonly why: string;
}

const EQUAL = JSON.parse(readFileSync(new URL('equal.json', import.meta.url), 'utf8')) as readonly Equal[];

/** The entry for a change, if there is one. */
export function entryOf(mutant: MutantResult): Equal | undefined {
  const { file, line, was, is } = changeOf(mutant);
  return EQUAL.find((entry) => entry.file === file && entry.line === line && entry.was === was && entry.is === is);
}

/** Entries for the files mutated that stand for none of the changes tried: the code has moved on. */
export function staleIn(mutants: readonly MutantResult[]): readonly Equal[] {
  const files = new Set(mutants.map(({ fileName }) => relative('', fileName)));
  const met = new Set(mutants.map(entryOf));
  return EQUAL.filter((entry) => files.has(entry.file) && !met.has(entry));
}

/** Lines and columns count from 1; runs of blanks are one. */
function changeOf({ fileName, location: { start, end }, replacement = '' }: MutantResult): Omit<Equal, 'why'> {
  const lines = readFileSync(fileName, 'utf8')
    .split('\n')
    .slice(start.line - 1, end.line);
  const line = oneBlank(lines[0] ?? '');
  lines.push((lines.pop() ?? '').slice(0, end.column - 1));
  lines[0] = lines[0]!.slice(start.column - 1);
  return { file: relative('', fileName), line, was: oneBlank(lines.join('\n')), is: oneBlank(replacement) };
}

function oneBlank(text: string): string {
  return text.replace(/\s+/g, ' ').trim();
}
