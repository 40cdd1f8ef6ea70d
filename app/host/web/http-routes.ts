/*
 * What the host answers over HTTP: the pages, a health check, and the coach's requests. Everything else is refused
 * with a sentence.
 */

import type { IncomingMessage, ServerResponse } from 'node:http';
import type { Question, Questions } from '../deck/answers/coach-requests.ts';
import type { DeckHost } from '../deck/deck-host.ts';
import { TOO_MANY_QUESTIONS } from '../deck/answers/questions.ts';
import { isFromOwnPage, ownHost } from './doorkeeper.ts';
import type { Pages } from './pages.ts';
import { FRAMING, OPENER_POLICY, sendJson, sendPage, sendRefusal } from './replies.ts';
import { readBody } from './limits/request-body.ts';

/** What the answers need. */
export interface Answering {
  readonly host: DeckHost;
  readonly pages: Pages;
  readonly questions: Questions;
  /** The port that the host listens on. */
  readonly port: number;
  /** Whether one more request is allowed now; counts it. */
  readonly mayAsk: (path: string) => boolean;
  /** Whether pages here need a key now, which they prove over the socket: nothing is changed by HTTP then. */
  readonly needsKey: () => boolean;
}

const NEEDS_KEY =
  'While Lanecall is shared, a page here needs a key: open it by “Another window” in one that has it, or stop sharing.';

/** Answers one request; rejects only for an error of the program. */
export async function answerRequest(
  { host, pages, questions, port, mayAsk, needsKey }: Answering,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  for (const [header, value] of Object.entries(OPENER_POLICY)) response.setHeader(header, value);
  const name = ownHost(request, port);
  if (name === null) return sendRefusal(response, 403, 'Use the address of this machine, such as localhost.');
  const { method, url } = request;
  // Every request that a server gets has an address.
  const [path, query = ''] = url!.split('?') as [string, string?];
  if (method === 'GET' || method === 'HEAD') return answerGet({ pages, questions }, path, name, response);
  if (!isFromOwnPage(request, name)) return sendRefusal(response, 403, 'Only the pages of this Lanecall may do that.');
  const question = questions.get(path);
  if (!question) return sendRefusal(response, pages.has(path) ? 405 : 404, 'Nothing can be changed at this address.');
  if (method !== question.method) return sendNotAllowed(response, question.method);
  if (needsKey()) return sendRefusal(response, 403, NEEDS_KEY);
  if (!mayAsk(path)) return sendRefusal(response, 429, TOO_MANY_QUESTIONS);
  return answerQuestion(question, host, query, request, response);
}

function answerGet(
  { pages, questions }: Pick<Answering, 'pages' | 'questions'>,
  path: string,
  name: string,
  response: ServerResponse,
): void {
  if (path === '/healthz') return sendJson(response, 200, { ok: true });
  const page = pages.get(path);
  if (page) return sendPage(response, page, name, FRAMING[path]);
  const question = questions.get(path);
  if (question) return sendNotAllowed(response, question.method);
  sendRefusal(response, 404, pages.size > 0 ? 'There is no such page.' : 'The pages are not built: run npm run build.');
}

function sendNotAllowed(response: ServerResponse, method: string): void {
  sendJson(response, 405, { ok: false, why: `Only ${method} here.` }, { Allow: method, Connection: 'close' });
}

async function answerQuestion(
  question: Question,
  host: DeckHost,
  query: string,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const type = mediaType(request);
  const refused = question.refusesType(type);
  if (refused) return sendJson(response, refused.status, refused.value, { Connection: 'close' });
  const body = await readBody(request, question.limit(type));
  const { status, value } = await question.answer(host, { query, type, body });
  // After a refusal the connection is not used again: whatever is still coming is not read.
  sendJson(response, status, value, status === 200 ? {} : { Connection: 'close' });
}

function mediaType(request: IncomingMessage): string {
  return (request.headers['content-type'] ?? '').split(';')[0]!.trim().toLowerCase();
}
