/*
 * The session texts of the run that is open. Each is kept once and named by its hash; all together have a
 * bound, because every screen that connects and every restart reads and plans each of them again.
 */

import type { Plan, Source } from '../../core/plan/plan.ts';
import type { FromHost } from '../../wire/messages.ts';
import { textHash } from './text-hash.ts';

/**
 * What the texts of one run may weigh together, each as often as it came into force. A coach who rewrites ten
 * kilobytes every minute for three hours stays below it; a restart with as much takes a few seconds.
 */
export const MOST_TEXTS = 2 * 1024 * 1024;

export const NO_MORE_TEXTS =
  'No more changes of the text fit into this run: Stop, Skip, Cut and all else go on working, ' +
  'and what you have written can be opened as a session of its own once this run is finished.';

export class RunTexts {
  private readonly sources = new Map<string, Source>();
  private weight = 0;

  /** Forgets those of the run before. Gives the hash of the first. */
  begin(source: Source, weight: number): string {
    this.clear();
    this.grow(weight);
    return this.keep(source);
  }

  clear(): void {
    this.sources.clear();
    this.weight = 0;
  }

  /** Another text has come into force. */
  grow(weight: number): void {
    this.weight += weight;
  }

  /** Whether another may come into force; what it comes to is not known before it is planned, and goes to the next. */
  hasRoom(source: Source): boolean {
    return this.weight + bytesOf(source) <= MOST_TEXTS;
  }

  get(hash: string): Source | undefined {
    return this.sources.get(hash);
  }

  /** A command as screens get it: a new text is named by its hash, and goes to each by itself. */
  named(fields: Readonly<Record<string, unknown>>, lanesText: string | null): Record<string, unknown> {
    const { text, ...others } = fields;
    if (typeof text !== 'string') return { ...fields };
    return { ...others, textHash: this.keep({ text, lanesText }) };
  }

  messages(): readonly Extract<FromHost, { say: 'text' }>[] {
    return Array.from(this.sources, ([hash, { text, lanesText }]) => ({ say: 'text', hash, text, lanesText }));
  }

  private keep(source: Source): string {
    const hash = textHash(source);
    this.sources.set(hash, source);
    return hash;
  }
}

/** What a text takes: a byte as it crosses the wire, with its lanes, costs about as much as a leave to be planned. */
export function weightOf({ source, stretches }: Plan): number {
  const leaves = (sum: number, { reps }: { readonly reps: readonly unknown[] }): number => sum + reps.length;
  return stretches.reduce((sum, { lanes }) => lanes.reduce(leaves, sum + 1), bytesOf(source));
}

function bytesOf({ text, lanesText }: Source): number {
  return Buffer.byteLength(text) + Buffer.byteLength(lanesText ?? '');
}
