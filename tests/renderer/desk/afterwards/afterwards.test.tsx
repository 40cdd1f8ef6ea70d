// @vitest-environment happy-dom
/*
 * The page after a session, on a run that a coach's window has finished and a host that counts what it is asked.
 */

import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { NOTHING_ADDED } from '../../../../app/core/record/afterwards.ts';
import type { RecordsRequest } from '../../../../app/wire/records/records.ts';
import { Afterwards } from '../../../../renderer/desk/afterwards/afterwards.tsx';
import { TRY_AGAIN_AFTER } from '../../../../renderer/desk/afterwards/added/adding.ts';
import type { AskRecords } from '../../../../renderer/link/requests/records.ts';
import { CoachWindow } from '../../../support/coach/coach-window.ts';

const TEXT = 'Evening\nlane 1\n\nMain set\n2 x 50 fast @ 1:00 hold 0:46\n';

let asked: RecordsRequest[];
let coach: CoachWindow;

beforeEach(() => {
  vi.useFakeTimers();
  asked = [];
});

afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

/** Takes its time, as over a network. */
const host = ((request: RecordsRequest) => {
  asked.push(request);
  const review = { ok: true, mayAdd: true, added: NOTHING_ADDED, version: null, said: [] };
  const answer = request.do === 'review' ? review : { ok: true, version: '1' };
  return new Promise((resolve) => setTimeout(() => resolve(answer), 50));
}) as unknown as AskRecords;

async function open(): Promise<void> {
  coach = new CoachWindow(TEXT, undefined, host);
  const light = { choice: () => 'system', choose: () => undefined, subscribe: () => () => undefined };
  const tools = { ...coach.tools, light } as unknown as typeof coach.tools;
  coach.other({ do: 'start' });
  coach.at(130);
  render(
    <Afterwards
      tools={tools}
      moment={coach.moment}
      onWrite={() => undefined}
      onHistory={() => undefined}
      onCss={() => ''}
    />,
  );
  await pass(5 * TRY_AGAIN_AFTER);
}

async function pass(ms: number): Promise<void> {
  await act(() => vi.advanceTimersByTimeAsync(ms));
}

const reviews = (): number => asked.filter((request) => request.do === 'review').length;

describe('[afterwards] what is added to the run', () => {
  test('the run is read once, however often the page is drawn, and saved once when something is added', async () => {
    await open();
    // The day, which a paper needs; a screen does not show it.
    expect(screen.getByText(/^\w+day \d+ \w+ \d{4}, \d\d:\d\d to \d\d:\d\d$/)).toBeTruthy();
    expect(reviews()).toBe(1);
    fireEvent.click(screen.getByRole('button', { name: /Effort 6/ }));
    await pass(5 * TRY_AGAIN_AFTER);
    expect(reviews()).toBe(1);
    expect(asked.filter((request) => request.do === 'keep')).toHaveLength(1);
    expect(screen.getByRole('button', { name: /Effort 6/ }).getAttribute('aria-pressed')).toBe('true');
  });
});
