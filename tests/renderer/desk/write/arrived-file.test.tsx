// @vitest-environment happy-dom
/*
 * What is said of a session file that the program was started with, and for how long.
 */

import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, expect, test, vi } from 'vitest';
import { Desk } from '../../../../renderer/desk/desk.tsx';
import { askForSessionFile } from '../../../../renderer/link/connection/own-window.ts';
import { CoachWindow, withSwitches } from '../../../support/coach/coach-window.ts';
import { writeText } from '../../../support/coach/write-window/written-text.ts';

afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
  localStorage.clear();
});

test('that a file has faults is said until the last of them is mended', async () => {
  const WHY = 'faulty.txt has faults: they are marked in the editor.';
  const file = { name: 'faulty.txt', text: 'Set\n4 x 50 @ 1.00', lanesText: null, why: WHY };
  const host = vi.fn((path: string) =>
    Promise.resolve(new Response(JSON.stringify(path === '/session-file' ? { file } : { run: 'run-2' }))),
  );
  vi.stubGlobal('fetch', host);
  render(<Desk tools={withSwitches(new CoachWindow('Set\n4 x 50 @ 1:00'))} />);
  await act(askForSessionFile);
  expect(screen.getByText(WHY)).toBeTruthy();
  await act(async () => writeText('Set\n4 x 50 @ 1.01'));
  await vi.waitFor(() => expect(screen.getByText(/1\.01/)).toBeTruthy());
  expect(screen.getByText(WHY)).toBeTruthy();
  await act(async () => writeText('Set\n4 x 50 @ 1:00'));
  await vi.waitFor(() => expect(screen.queryByText(WHY)).toBeNull());
  const run = screen.getByRole('button', { name: 'Run this session' });
  await vi.waitFor(() => expect(run.getAttribute('aria-disabled')).not.toBe('true'));
  fireEvent.click(run);
  expect(host).toHaveBeenCalledWith('/session', expect.objectContaining({ method: 'PUT' }));
});
