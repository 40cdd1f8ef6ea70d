/*
 * What the host can be asked besides pages: to open a session, to take a command too long for a message, to match the
 * clock, and what to do with a run that has come back. The network and the windows of the desktop program ask the
 * same things and get the same replies.
 */

import {
  clockToMatch,
  hearScreen,
  runToLeave,
  sessionToOpen,
  TEXT_LIMIT,
  type SessionToOpen,
} from '../../../wire/messages.ts';
import type { DeckHost } from '../deck-host.ts';
import type { Guest } from '../../sharing/doors/guest.ts';
import type { Body } from '../../web/limits/request-body.ts';
import { textOf } from '../../text-file.ts';

export interface Reply {
  /** An HTTP status. */
  readonly status: number;
  readonly value: object;
}

/** A question that has arrived completely. */
export interface Asked {
  /** The part after the path, without its question mark. */
  readonly query: string;
  /** The media type of the body, in lower case. */
  readonly type: string;
  readonly body: Body;
  /** Who asks; a page of this machine if it is not said. */
  readonly by?: Guest | undefined;
}

export interface Question {
  readonly method: 'PUT' | 'POST';
  /** The reply to a body of the wrong type; null if the type is right. */
  refusesType(type: string): Reply | null;
  /** The longest body that is kept, in bytes. */
  limit(type: string): number;
  answer(host: DeckHost, asked: Asked): Promise<Reply>;
}

/** Room for the largest texts in JSON, where a line end or a quotation mark takes two bytes. */
const JSON_LIMIT = 4 * TEXT_LIMIT;

const JSON_TYPE = 'application/json';

/** By their paths. */
export type Questions = ReadonlyMap<string, Question>;

export const QUESTIONS: Questions = new Map<string, Question>([
  [
    '/session',
    {
      method: 'PUT',
      refusesType: (type) =>
        type === 'text/plain' || type === JSON_TYPE
          ? null
          : refusal(415, 'Send a session as text/plain, or as application/json with its lanes.'),
      limit: (type) => (type === 'text/plain' ? TEXT_LIMIT : JSON_LIMIT),
      answer: openSession,
    },
  ],
  ['/command', asJson('Send a command as application/json.', giveCommand)],
  ['/clock', asJson('Send a clock to match as application/json.', matchClock)],
  ['/leave', asJson('Send the run to leave as application/json.', leaveRun)],
  ['/told', { method: 'POST', refusesType: () => null, limit: () => 0, answer: told }],
]);

/** A refusal with its reason in a sentence. */
export function refusal(status: number, why: string): Reply {
  return { status, value: { ok: false, why } };
}

export function asJson(sentence: string, answer: Question['answer']): Question {
  return {
    method: 'POST',
    refusesType: (type) => (type === JSON_TYPE ? null : refusal(415, sentence)),
    limit: () => JSON_LIMIT,
    answer,
  };
}

async function openSession(host: DeckHost, { query, type, body }: Asked): Promise<Reply> {
  const replace = new URLSearchParams(query).get('replace') === 'true';
  if (!body.ok) return refusal(body.why === 'too large' ? 413 : 400, TOO_LARGE);
  if (type === 'text/plain') {
    const text = textOf(body.bytes);
    if (!text.ok) return { status: 400, value: { errors: text.faults, in: 'session' } };
    return openText(host, { text: text.value, replace });
  }
  const session = readSession(body.bytes);
  if (!session) return refusal(400, 'Write a session in JSON as {"text": "…", "lanesText": "…" or null}.');
  if ([session.text, session.lanesText ?? ''].some((each) => Buffer.byteLength(each) > TEXT_LIMIT)) {
    return refusal(413, TOO_LARGE);
  }
  return openText(host, { ...session, replace: session.replace ?? replace });
}

async function openText(
  host: DeckHost,
  { text, lanesText = null, replace = false, clockPhase }: SessionToOpen,
): Promise<Reply> {
  const answer = await host.open({ text, lanesText }, { replace, clockPhase });
  if (answer.ok) return { status: 200, value: answer };
  if (answer.reason === 'going') return refusal(409, answer.why);
  return { status: 400, value: { errors: answer.faults, in: answer.in } };
}

const OTHER_VERSION = 'This command is not of this version of Lanecall: reload the page.';

export const TOO_LARGE = 'A session can have 256 KiB of text at most: make it shorter.';

async function giveCommand(host: DeckHost, { body, by }: Asked): Promise<Reply> {
  if (!body.ok) return refusal(body.why === 'too large' ? 413 : 400, TOO_LARGE);
  const heard = hearScreen(body.bytes.toString('utf8'));
  if (heard.kind === 'unknown' || heard.kind === 'other version') return refusal(400, OTHER_VERSION);
  if (heard.kind !== 'message' || heard.message.say !== 'command') return refusal(400, 'That was not a command.');
  const { id, command, run, ...seen } = heard.message;
  const asked = { ...seen, meantFor: run, ...(by && { by: { ...by, kind: 'desk' as const } }) };
  return { status: 200, value: { say: 'answer', id, ...(await host.command(id, command, asked)) } };
}

/** The coach matches the pool's clock, or takes that back. */
async function matchClock(host: DeckHost, { body }: Asked): Promise<Reply> {
  const asked = body.ok ? clockToMatch.safeParse(jsonOf(body.bytes)) : null;
  if (!asked?.success) return refusal(400, 'Write a clock to match as {"run": "…", "clockPhase": 0 to 59999 or null}.');
  const answer = await host.matchClock(asked.data.run, asked.data.clockPhase);
  return answer.ok ? { status: 200, value: answer } : refusal(409, answer.why);
}

/** The coach leaves a run that has come back. */
async function leaveRun(host: DeckHost, { body }: Asked): Promise<Reply> {
  const named = body.ok ? runToLeave.safeParse(jsonOf(body.bytes)) : null;
  if (!named?.success) return refusal(400, 'Write the run to leave as {"run": "…"}.');
  const answer = await host.leave(named.data.run);
  return answer.ok ? { status: 200, value: answer } : refusal(409, answer.why);
}

/** The coach has read the report. */
function told(host: DeckHost): Promise<Reply> {
  host.told();
  return Promise.resolve({ status: 200, value: { ok: true } });
}

function readSession(bytes: Buffer): SessionToOpen | null {
  const result = sessionToOpen.safeParse(jsonOf(bytes));
  return result.success ? result.data : null;
}

/** The value; undefined if the bytes are not JSON in UTF-8. */
export function jsonOf(bytes: Buffer): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return undefined;
  }
}
