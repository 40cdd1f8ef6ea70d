/*
 * The answers given to commands, by their ids, so that a command that comes a second time is not carried
 * out a second time.
 */

import type { Millis } from '../core/units.ts';

/** `at`: when it was accepted, in ms since the run was opened. */
export type CommandAnswer =
  | { readonly ok: true; readonly at: Millis; readonly why: null }
  | { readonly ok: false; readonly at: null; readonly why: string };

/** So many are remembered; a screen repeats a command for seconds, not for a whole session. */
const REMEMBERED = 2000;

export class AnswerMemory {
  private readonly answers = new Map<string, Promise<CommandAnswer>>();

  /** The answer given or being worked out; undefined for an id not known. */
  get(id: string): Promise<CommandAnswer> | undefined {
    return this.answers.get(id);
  }

  keep(id: string, answer: Promise<CommandAnswer>): void {
    this.answers.set(id, answer);
    for (const oldest of this.answers.keys()) {
      if (this.answers.size <= REMEMBERED) break;
      this.answers.delete(oldest);
    }
  }
}
