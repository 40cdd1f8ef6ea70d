/*
 * Remembers the answers to commands by who asks and their ids, so that a command that arrives twice is carried out
 * once, and an id that another screen has used stands in nobody's way.
 */

import type { Millis } from '../../../core/units.ts';

/** `at`: when it was accepted, in ms since the run was opened. */
export type CommandAnswer =
  | { readonly ok: true; readonly at: Millis; readonly why: null }
  | { readonly ok: false; readonly at: null; readonly why: string };

/**
 * In ms. A screen repeats a command for five seconds at most, but what it sent may wait in a queue until the connection
 * is given up. The number kept stays small, because every screen may send only so many messages a second.
 */
const REMEMBERED_FOR = 120_000;

interface Kept {
  readonly at: number;
  readonly answer: Promise<CommandAnswer>;
}

export class AnswerMemory {
  /** Oldest first. */
  private readonly answers = new Map<string, Kept>();

  /** The answer, or the one being worked out; undefined if the id is not known. */
  get(by: string, id: string): Promise<CommandAnswer> | undefined {
    return this.answers.get(keyOf(by, id))?.answer;
  }

  /** Keeps an answer. now: ms, never less than before. */
  keep(by: string, id: string, answer: Promise<CommandAnswer>, now: number): void {
    this.answers.set(keyOf(by, id), { at: now, answer });
    for (const [oldest, { at }] of this.answers) {
      if (now - at <= REMEMBERED_FOR) break;
      this.answers.delete(oldest);
    }
  }
}

/** by: a device or a kind of screen, which has no blank (`askerOf`). */
function keyOf(by: string, id: string): string {
  return `${by} ${id}`;
}
