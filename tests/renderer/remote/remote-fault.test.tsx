// @vitest-environment happy-dom
// The remote says what is wrong with its own link, as the other two pages do.

import { act, render, screen } from '@testing-library/react';
import { expect, test } from 'vitest';
import { WIRE_VERSION } from '../../../app/wire/messages.ts';
import { Remote } from '../../../renderer/remote/remote.tsx';
import { startFrames } from '../../../renderer/ui/coach/frames.ts';
import { createCoachActions } from '../../../renderer/ui/coach/commands/coach-actions.ts';
import { createOffers } from '../../../renderer/ui/coach/commands/offers.ts';
import { pageTouches } from '../../support/coach/page-touches.ts';
import { FakeHost } from '../link/fake-host.ts';

test('[wire] a remote older than the program says so, and what to do', () => {
  const host = new FakeHost();
  const link = host.open('remote');
  host.pass(1000);
  const frames = startFrames(link);
  const actions = createCoachActions(link, () => host.now, null);
  const tools = { link, frames, actions, offers: createOffers(frames, actions), touches: pageTouches(link) };
  render(<Remote tools={tools} />);
  expect(screen.getByRole('main').textContent).toBe('Waiting for a session.Run one in the coach’s window.');
  act(() => {
    host.sendRaw(JSON.stringify({ say: 'snapshot', version: WIRE_VERSION + 1, squads: [] }));
    host.pass(10);
  });
  expect(screen.queryByText('This page is older than the program: reload it.')).not.toBeNull();
  link.close();
});
