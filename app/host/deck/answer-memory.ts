/*
 * The answers given to commands, by their ids, so that a command that comes a second time is not carried
 * out a second time.
 */

import type { Millis } from '../../core/units.ts';

/** `at`: when it was accepted, in ms since the run was opened. */
export type CommandAnswer =
  | { readonly ok: true; readonly at: Millis; readonly why: null }
  | { readonly ok: false; readonly at: null; readonly why: string };

/**
 * In ms: a screen sends a command again for five seconds at most, and what it sent may stand in a queue until
 * the connection is given up. No more are kept than may come in that time: every screen's messages are counted.
 */
const REMEMBERED_FOR = 120_000;

interface Kept {
  readonly at: number;
  readonly answer: Promise<CommandAnswer>;
}

export class AnswerMemory {
  /** Oldest first. */
  private readonly answers = new Map<string, Kept>();

  /** The answer given or being worked out; undefined for an id not known. */
  get(id: string): Promise<CommandAnswer> | undefined {
    return this.answers.get(id)?.answer;
  }

  /** `now` in ms, never less than before. */
  keep(id: string, answer: Promise<CommandAnswer>, now: number): void {
    this.answers.set(id, { at: now, answer });
    for (const [oldest, { at }] of this.answers) {
      if (now - at <= REMEMBERED_FOR) break;
      this.answers.delete(oldest);
    }
  }
}
