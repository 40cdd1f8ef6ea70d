/* What the history shows is worked out by the host before it is opened, but never while a run goes on. */

import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { createStore } from 'zustand/vanilla';
import { AFTER_OPENING, readHistoryAhead } from '../../../renderer/desk/history-ahead.ts';
import type { AskRecords, RecordsRequest } from '../../../renderer/link/requests/records.ts';
import type { DeckState } from '../../../renderer/link/store.ts';

const GOING = { commands: [{ at: 0 }], given: { phase: 'going' } };
const DONE = { commands: [{ at: 0 }], given: { phase: 'done' } };
const OPENED = { commands: [], given: { phase: 'ready' } };

let asked: RecordsRequest[];
let toCome: number[];
let ended: () => void;

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** A page whose host is heard; `set` changes what it knows of the deck. */
function open(run: object | null): { set(state: object): void; wait(): Promise<unknown> } {
  asked = [];
  toCome = [];
  ended = () => undefined;
  const store = createStore(() => ({ status: 'connecting', run: null }) as unknown as DeckState);
  const ask = ((request: RecordsRequest) => {
    asked.push(request);
    ended();
    const runs = [{ run: 'newest' }];
    return Promise.resolve(request.do === 'list' ? { ok: true, runs, toCome: toCome.shift() ?? 0 } : { ok: true });
  }) as unknown as AskRecords;
  readHistoryAhead({ store, ask, after: (ms, call) => setTimeout(call, ms) });
  const set = (state: object): void => store.setState(state);
  set({ status: 'live', run });
  return { set, wait: () => vi.advanceTimersByTimeAsync(AFTER_OPENING) };
}

const wishes = (): readonly string[] => asked.map((request) => request.do);

test.each([
  ['without a run', null],
  ['with one that nobody has begun', OPENED],
  ['after a run', DONE],
])('[history] %s the host reads the list and the newest record, once, when the window has opened', async (_, run) => {
  const page = open(run);
  expect(asked).toEqual([]);
  await page.wait();
  expect(wishes()).toEqual(['list', 'review']);
  expect(asked[1]).toMatchObject({ run: 'newest' });
  page.set({ status: 'lost' });
  page.set({ status: 'live' });
  await page.wait();
  expect(asked).toHaveLength(2);
});

test('[history] what the host has not worked out yet is asked for until it has', async () => {
  const page = open(null);
  toCome = [40, 12, 0];
  await page.wait();
  expect(wishes()).toEqual(['list', 'list', 'list', 'review']);
});

test('[history] nothing is read ahead during a run, nor gone on with when one begins', async () => {
  await open(GOING).wait();
  expect(asked).toEqual([]);
  const page = open(null);
  toCome = [40, 12];
  ended = () => page.set({ run: GOING });
  await page.wait();
  expect(wishes()).toEqual(['list']);
});
