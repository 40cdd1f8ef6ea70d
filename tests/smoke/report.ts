/*
 * What the smoke says of each check: one line, and whether anything has failed.
 */

export type Outcome =
  | { readonly kind: 'held'; readonly what: string }
  | { readonly kind: 'failed'; readonly what: string }
  | { readonly kind: 'unseen'; readonly what: string };

export const held = (what = ''): Outcome => ({ kind: 'held', what });
export const failed = (what: string): Outcome => ({ kind: 'failed', what });
export const unseen = (what: string): Outcome => ({ kind: 'unseen', what });

const WORDS: Readonly<Record<Outcome['kind'], string>> = {
  held: 'held',
  failed: 'FAILED',
  unseen: 'cannot be seen here',
};

export class Report {
  private readonly say: (line: string) => void;
  private failures = 0;

  constructor(say: (line: string) => void) {
    this.say = say;
  }

  /** What throws has failed; a check that failed keeps none of the others from being tried. */
  async check(name: string, look: () => Promise<Outcome>): Promise<void> {
    const { kind, what } = await look().catch((error: unknown) => failed(firstLineOf(error)));
    if (kind === 'failed') this.failures++;
    this.say(`${WORDS[kind]}: ${name}${what === '' ? '' : ` (${what})`}`);
  }

  /** The exit status. */
  end(): number {
    this.say(this.failures === 0 ? 'Nothing failed.' : `${this.failures} failed.`);
    return this.failures === 0 ? 0 : 1;
  }
}

function firstLineOf(error: unknown): string {
  return (error instanceof Error ? error.message : String(error)).split('\n')[0]!;
}
