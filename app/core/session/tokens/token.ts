/*
 * What a piece of a line is, as the reading of a session understands it.
 */

export type TokenKind =
  | 'bullet'
  | 'comment'
  | 'title'
  | 'heading'
  /** A setting's word, and what it is set to. */
  | 'setting'
  | 'value'
  /** `lanes 1-3:` before a line. */
  | 'lanes'
  | 'note'
  | 'kit'
  | 'count'
  | 'distance'
  /** Of a timed block, a swim by time, a talk or a break. */
  | 'time'
  | 'interval'
  | 'rest'
  | 'target'
  /** How much an interval gets shorter or longer. */
  | 'step'
  /** What says how to read what stands beside it: `x`, `@`, `rest`, `drop`, `odds`, `rounds`, `talk`. */
  | 'keyword'
  | 'words'
  | 'fault';

export interface Token {
  readonly kind: TokenKind;
  /** Characters of the line. */
  readonly from: number;
  readonly to: number;
}
