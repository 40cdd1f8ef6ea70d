/*
 * What a coach got wrong comes back as a value; what a programmer got wrong is thrown.
 */

/** One thing wrong with a text: where (both from 1; a tab counts as 4 columns), what was found and what would be right. */
export interface Fault {
  readonly line: number;
  readonly column: number;
  readonly message: string;
}

export type Result<Value, Failure = readonly Fault[]> =
  { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly faults: Failure };
