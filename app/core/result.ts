/*
 * A coach's mistake comes back as a value; a programmer's mistake is thrown.
 */

/** One mistake in a text: line and column (from 1; a tab counts as 4 columns), what was found and what to write instead. */
export interface Fault {
  readonly line: number;
  readonly column: number;
  readonly message: string;
}

export type Result<Value, Failure = readonly Fault[]> =
  { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly faults: Failure };
