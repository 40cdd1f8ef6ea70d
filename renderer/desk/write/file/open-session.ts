/*
 * Handing a session to the host, which opens a run of it.
 */

import type { Fault } from '../../../../app/core/result.ts';
import { askHost } from '../../../link/connection/own-window.ts';

export type Opened =
  /** `run`: the id of the new run; null from a host that does not say. */
  | { readonly kind: 'opened'; readonly run: string | null }
  | { readonly kind: 'faults'; readonly in: 'session' | 'lanes'; readonly faults: readonly Fault[] }
  /** A run is going, which only an express word replaces. */
  | { readonly kind: 'going'; readonly why: string }
  | { readonly kind: 'failed'; readonly why: string };

export interface SessionTexts {
  readonly text: string;
  readonly lanesText: string | null;
  /** What the pool's clock shows past the full minute now, where the coach has matched it, in ms. */
  readonly clockPhase: number | null;
}

/**
 * Matches the pool's clock of a run that has not started: what it shows past the full minute now, in ms, or null for
 * the time of day's. The run is opened anew by it. Never rejects.
 */
export function matchClock(run: string, clockPhase: number | null): Promise<Opened> {
  return ask('POST', '/clock', { run, clockPhase });
}

/** Opens a session; with `replace` also in place of a run that is going. Never rejects. */
export function openSession({ text, lanesText, clockPhase }: SessionTexts, replace: boolean): Promise<Opened> {
  const body = { text, lanesText, ...(replace ? { replace } : {}), ...(clockPhase === null ? {} : { clockPhase }) };
  return ask('PUT', '/session', body);
}

async function ask(method: 'PUT' | 'POST', path: string, body: object): Promise<Opened> {
  try {
    const reply = await askHost(method, path, JSON.stringify(body));
    return readAnswer(reply.status, reply.body);
  } catch {
    return { kind: 'failed', why: 'The program does not answer: check that it is running, then try again.' };
  }
}

/** What the host's answer comes to. */
export function readAnswer(status: number, body: string): Opened {
  const answer = parsed(body);
  if (status === 200) return { kind: 'opened', run: typeof answer['run'] === 'string' ? answer['run'] : null };
  const why = typeof answer['why'] === 'string' ? answer['why'] : `The program refused it (${status}).`;
  if (status === 409) return { kind: 'going', why };
  const faults = Array.isArray(answer['errors']) ? answer['errors'].filter(isFault) : [];
  if (faults.length > 0) return { kind: 'faults', in: answer['in'] === 'lanes' ? 'lanes' : 'session', faults };
  return { kind: 'failed', why };
}

function parsed(body: string): { readonly [name: string]: unknown } {
  try {
    const value: unknown = JSON.parse(body);
    return typeof value === 'object' && value !== null ? (value as { [name: string]: unknown }) : {};
  } catch {
    return {};
  }
}

function isFault(value: unknown): value is Fault {
  if (typeof value !== 'object' || value === null) return false;
  const { line, column, message } = value as { [name: string]: unknown };
  return typeof line === 'number' && typeof column === 'number' && typeof message === 'string';
}
