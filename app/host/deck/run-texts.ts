/*
 * The session texts of the run that is open. Each is kept once and named by its hash. Their total size is limited,
 * because every screen that connects and every restart reads and plans all of them again.
 */

import type { Plan, Source } from '../../core/plan/plan.ts';
import type { FromHost } from '../../wire/messages.ts';
import { publicText } from './telling/public-copy.ts';
import { textHash } from './text-hash.ts';

/**
 * The most that the texts of one run may weigh together; a text counts each time it comes into force. A coach who
 * rewrites ten kilobytes every minute for three hours stays below it, and a restart with this much takes a few seconds.
 */
export const MOST_TEXTS = 2 * 1024 * 1024;

export const NO_MORE_TEXTS =
  'This run has no room for more changes of the text: all other commands still work, ' +
  'and you can open what you have written as a new session once this run is finished.';

type Text = Extract<FromHost, { say: 'text' }>;

export class RunTexts {
  private readonly sources = new Map<string, Source>();
  /** The public copies, by the hash of the whole text, each made when it is first asked for. */
  private readonly copies = new Map<string, Text>();
  private weight = 0;

  /** Forgets the texts of the run before and keeps the first one of this run. Gives its hash. */
  begin(source: Source, weight: number): string {
    this.clear();
    this.grow(weight);
    return this.keep(source);
  }

  clear(): void {
    this.sources.clear();
    this.copies.clear();
    this.weight = 0;
  }

  /** To be called when another text has come into force. */
  grow(weight: number): void {
    this.weight += weight;
  }

  /** Whether another text may come into force. Its own weight is known only once it is planned, and counts for the next. */
  hasRoom(source: Source): boolean {
    return this.weight + bytesOf(source) <= MOST_TEXTS;
  }

  get(hash: string): Source | undefined {
    return this.sources.get(hash);
  }

  /** A command as screens get it: with the hash of a new text in place of the text, which is sent separately. */
  named(fields: Readonly<Record<string, unknown>>, lanesText: string | null): Record<string, unknown> {
    const { text, ...others } = fields;
    if (typeof text !== 'string') return { ...fields };
    return { ...others, textHash: this.keep({ text, lanesText }) };
  }

  messages(): readonly Text[] {
    return Array.from(this.sources, ([hash, { text, lanesText }]) => ({ say: 'text', hash, text, lanesText }));
  }

  publicMessages(): readonly Text[] {
    return this.messages().map((whole) => this.copyOf(whole));
  }

  /** The hash of a text's public copy. */
  publicHash(hash: string): string {
    const source = this.sources.get(hash);
    return source ? this.copyOf({ say: 'text', hash, ...source }).hash : hash;
  }

  private copyOf(whole: Text): Text {
    const copy = this.copies.get(whole.hash) ?? publicText(whole);
    this.copies.set(whole.hash, copy);
    return copy;
  }

  private keep(source: Source): string {
    const hash = textHash(source);
    this.sources.set(hash, source);
    return hash;
  }
}

/** What a text costs. A byte on the wire, its lanes included, costs about as much as planning a leave. */
export function weightOf({ source, stretches }: Plan): number {
  const leaves = (sum: number, { reps }: { readonly reps: readonly unknown[] }): number => sum + reps.length;
  return stretches.reduce((sum, { lanes }) => lanes.reduce(leaves, sum + 1), bytesOf(source));
}

function bytesOf({ text, lanesText }: Source): number {
  return Buffer.byteLength(text) + Buffer.byteLength(lanesText ?? '');
}
