/*
 * What the host answers over HTTP: the pages, whether it is well, a session to open, and commands too
 * long for a message. Everything else is refused with a sentence.
 */

import type { IncomingMessage, ServerResponse } from 'node:http';
import { readFromScreen, runToLeave, sessionToOpen, TEXT_LIMIT, type SessionToOpen } from '../wire/messages.ts';
import type { DeckHost } from './deck-host.ts';
import { isFromOwnPage, ownHost } from './doorkeeper.ts';
import type { Pages } from './pages.ts';
import { sendJson, sendPage, sendRefusal } from './replies.ts';
import { readBody } from './request-body.ts';
import { textOf } from './text-file.ts';

/** JSON around the largest texts: a line's end and a quotation mark take two bytes each there. */
const JSON_LIMIT = 4 * TEXT_LIMIT;

/** Answers one request; rejects only where the program is wrong. `port` is the one the host listens on. */
export async function answerRequest(
  host: DeckHost,
  pages: Pages,
  port: number,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const name = ownHost(request, port);
  if (name === null) return sendRefusal(response, 403, 'This host answers to the names of this machine only.');
  const { method } = request;
  const [path = '', query = ''] = (request.url ?? '').split('?');
  if (method === 'GET' || method === 'HEAD') return answerGet(pages, path, name, response);
  if (!isFromOwnPage(request, name)) return sendRefusal(response, 403, 'Only pages of this host may do that.');
  if (path === '/session') {
    if (method !== 'PUT') return sendNotAllowed(response, 'PUT');
    return openSession(host, request, response, new URLSearchParams(query).get('replace') === 'true');
  }
  if (path === '/command') {
    if (method !== 'POST') return sendNotAllowed(response, 'POST');
    return giveCommand(host, request, response);
  }
  if (path === '/leave' || path === '/told') {
    if (method !== 'POST') return sendNotAllowed(response, 'POST');
    return path === '/leave' ? leaveRun(host, request, response) : told(host, response);
  }
  sendRefusal(response, pages.has(path) ? 405 : 404, 'There is nothing to be changed here.');
}

function answerGet(pages: Pages, path: string, name: string, response: ServerResponse): void {
  if (path === '/healthz') return sendJson(response, 200, { ok: true });
  const page = pages.get(path);
  if (page) return sendPage(response, page, name);
  if (path === '/session') return sendNotAllowed(response, 'PUT');
  if (path === '/command' || path === '/leave' || path === '/told') return sendNotAllowed(response, 'POST');
  sendRefusal(
    response,
    404,
    pages.size > 0 ? 'There is no such page.' : 'The pages are not built: npm run build makes them.',
  );
}

function sendNotAllowed(response: ServerResponse, method: string): void {
  sendJson(response, 405, { ok: false, why: `Only ${method} here.` }, { Allow: method, Connection: 'close' });
}

async function openSession(
  host: DeckHost,
  request: IncomingMessage,
  response: ServerResponse,
  replace: boolean,
): Promise<void> {
  const type = mediaType(request);
  if (type !== 'text/plain' && type !== 'application/json') {
    return sendRefusal(response, 415, 'A session comes as text/plain, or as application/json with its lanes.');
  }
  const body = await readBody(request, type === 'text/plain' ? TEXT_LIMIT : JSON_LIMIT);
  if (!body.ok) return sendRefusal(response, body.why === 'too large' ? 413 : 400, TOO_LARGE);
  if (type === 'text/plain') {
    const text = textOf(body.bytes);
    if (!text.ok) return sendJson(response, 400, { errors: text.faults, in: 'session' });
    return openText(host, response, { text: text.value, replace });
  }
  const session = readSession(body.bytes);
  if (!session) return sendRefusal(response, 400, 'As JSON a session reads {"text": "…", "lanesText": "…" or null}.');
  if ([session.text, session.lanesText ?? ''].some((each) => Buffer.byteLength(each) > TEXT_LIMIT)) {
    return sendRefusal(response, 413, TOO_LARGE);
  }
  return openText(host, response, { ...session, replace: session.replace ?? replace });
}

async function openText(
  host: DeckHost,
  response: ServerResponse,
  { text, lanesText = null, replace = false, clockPhase }: SessionToOpen,
): Promise<void> {
  const answer = await host.open({ text, lanesText }, { replace, clockPhase });
  if (answer.ok) return sendJson(response, 200, answer);
  if (answer.reason === 'going') return sendRefusal(response, 409, answer.why);
  sendJson(response, 400, { errors: answer.faults, in: answer.in });
}

const TOO_LARGE = 'A session has at most 256 KiB of text.';

async function giveCommand(host: DeckHost, request: IncomingMessage, response: ServerResponse): Promise<void> {
  if (mediaType(request) !== 'application/json')
    return sendRefusal(response, 415, 'A command comes as application/json.');
  const body = await readBody(request, JSON_LIMIT);
  if (!body.ok) return sendRefusal(response, body.why === 'too large' ? 413 : 400, TOO_LARGE);
  const message = readFromScreen(body.bytes.toString('utf8'));
  if (message?.say !== 'command') return sendRefusal(response, 400, 'That was no command.');
  const { id, command, seen, run } = message;
  sendJson(response, 200, { say: 'answer', id, ...(await host.command(id, command, seen, run)) });
}

/** The coach does not go on with a run that has come back. */
async function leaveRun(host: DeckHost, request: IncomingMessage, response: ServerResponse): Promise<void> {
  if (mediaType(request) !== 'application/json')
    return sendRefusal(response, 415, 'The run to be left comes as application/json.');
  const body = await readBody(request, JSON_LIMIT);
  const named = body.ok ? runToLeave.safeParse(jsonOf(body.bytes)) : null;
  if (!named?.success) return sendRefusal(response, 400, 'The run to be left reads {"run": "…"}.');
  const answer = await host.leave(named.data.run);
  if (answer.ok) return sendJson(response, 200, answer);
  sendRefusal(response, 409, answer.why);
}

/** The coach has read what there was to be told once. */
function told(host: DeckHost, response: ServerResponse): void {
  host.told();
  sendJson(response, 200, { ok: true });
}

function readSession(bytes: Buffer): SessionToOpen | null {
  const result = sessionToOpen.safeParse(jsonOf(bytes));
  return result.success ? result.data : null;
}

/** undefined for what is no JSON in UTF-8. */
function jsonOf(bytes: Buffer): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return undefined;
  }
}

function mediaType(request: IncomingMessage): string {
  return (request.headers['content-type'] ?? '').split(';')[0]!.trim().toLowerCase();
}
