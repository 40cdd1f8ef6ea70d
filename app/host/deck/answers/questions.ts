/*
 * Everything that the coach's pages ask besides messages, in one place for all that carries it: HTTP, the desktop
 * program's own channel, and the sealed messages of a tablet.
 */

import type { Library } from '../../library/library.ts';
import { LIBRARY_PATH, libraryQuestion } from '../../library/library-requests.ts';
import type { Records } from '../../records/records.ts';
import { RECORDS_PATH, recordsQuestion } from '../../records/records-requests.ts';
import type { Guest } from '../../sharing/doors/guest.ts';
import type { Squads } from '../../squads/squads.ts';
import { SQUADS_PATH, squadsQuestion } from '../../squads/squads-requests.ts';
import { TokenBucket } from '../../web/limits/token-bucket.ts';
import type { SessionFile } from '../../../wire/window-bridge.ts';
import { QUESTIONS, refusal, type Questions } from './coach-requests.ts';
import type { DeckHost } from '../deck-host.ts';

/** What is kept in the data folder besides runs. */
export interface Shelves {
  readonly library: Library;
  readonly records: Records;
  readonly squads: Squads;
}

export function questionsOf({ library, records, squads }: Shelves): Questions {
  return new Map([
    ...QUESTIONS,
    [LIBRARY_PATH, libraryQuestion(library)],
    [RECORDS_PATH, recordsQuestion(records)],
    [SQUADS_PATH, squadsQuestion(squads)],
  ]);
}

/** The path at which a coach's window asks for the session file. The desktop program hands its files over itself. */
export const FILE_PATH = '/session-file';

/** The same with the session file that waits for the coach's first window on this machine. */
export function withSessionFile(questions: Questions, file: SessionFile | null): Questions {
  let waiting = file;
  const take = (by: Guest | undefined): SessionFile | null => {
    if (by?.role === 'tablet') return null;
    const taken = waiting;
    waiting = null;
    return taken;
  };
  const answer = (_: DeckHost, { by }: { readonly by?: Guest | undefined }) =>
    Promise.resolve({ status: 200, value: { file: take(by) } });
  return new Map([...questions, [FILE_PATH, { method: 'POST', refusesType: () => null, limit: () => 0, answer }]]);
}

/** How many questions may be asked: a large session takes time that the leaves of a run need. */
const SESSION_RATE = { perSecond: 2, burst: 20 };
const OTHER_RATE = { perSecond: 20, burst: 40 };

/** The pace of those who ask on one way. Whoever types, or looks for a session or a run, keeps no command waiting. */
export class AskPace {
  private readonly others: TokenBucket;
  private readonly apart: ReadonlyMap<string, TokenBucket>;

  constructor(now: number) {
    this.others = new TokenBucket(OTHER_RATE, now);
    const ofLibrary = new TokenBucket(OTHER_RATE, now);
    this.apart = new Map([
      ['/session', new TokenBucket(SESSION_RATE, now)],
      [LIBRARY_PATH, ofLibrary],
      [SQUADS_PATH, ofLibrary],
      [RECORDS_PATH, ofLibrary],
    ]);
  }

  /** Whether one more question is allowed now; counts it. */
  mayAsk(path: string, now: number): boolean {
    return (this.apart.get(path) ?? this.others).take(now);
  }
}

/** A question as text. */
export interface Put {
  readonly method: string;
  readonly path: string;
  /** JSON. */
  readonly body: string;
}

export interface ReplyText {
  readonly status: number;
  /** JSON. */
  readonly body: string;
}

/** The type of the body of what does not come by HTTP. */
const JSON_TYPE = 'application/json';

/** Answers as over HTTP. */
export async function answerPut(
  host: DeckHost,
  questions: Questions,
  { method, path, body }: Put,
  by?: Guest,
): Promise<ReplyText> {
  const question = questions.get(path);
  if (!question || method !== question.method) return textOf(refusal(404, 'There is nothing to be asked here.'));
  const bytes = Buffer.from(body);
  const isTooLarge = bytes.length > question.limit(JSON_TYPE) && body !== '';
  const asked = isTooLarge ? ({ ok: false, why: 'too large' } as const) : ({ ok: true, bytes } as const);
  return textOf(await question.answer(host, { query: '', type: JSON_TYPE, body: asked, by }));
}

export const TOO_MANY_QUESTIONS = 'Too many requests at once: wait a second and try again.';

function textOf({ status, value }: { readonly status: number; readonly value: object }): ReplyText {
  return { status, body: JSON.stringify(value) };
}
