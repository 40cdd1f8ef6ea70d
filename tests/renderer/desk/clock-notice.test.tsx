// @vitest-environment happy-dom
/* What the coach's window and the remote say of their own clocks, over a line that is slow. */

import { act, cleanup, render } from '@testing-library/react';
import type { ReactElement } from 'react';
import { afterEach, expect, test } from 'vitest';
import { Notices } from '../../../renderer/desk/notices.tsx';
import { Remote } from '../../../renderer/remote/remote.tsx';
import { createCoachActions } from '../../../renderer/ui/coach/commands/coach-actions.ts';
import { createOffers } from '../../../renderer/ui/coach/commands/offers.ts';
import { startFrames } from '../../../renderer/ui/coach/frames.ts';
import type { Tools } from '../../../renderer/ui/coach/use-deck.ts';
import { pageTouches } from '../../support/coach/page-touches.ts';
import { FakeHost } from '../link/fake-host.ts';

afterEach(cleanup);

/** A page whose messages take so long each way, in ms. */
function drawn(delay: number, page: (tools: Tools) => ReactElement): HTMLElement {
  const host = new FakeHost();
  host.delay = delay;
  const link = host.open('desk');
  host.pass(3000);
  act(() => host.openRun());
  host.pass(2000);
  const frames = startFrames(link);
  const actions = createCoachActions(link, () => host.now, null);
  const tools = { link, frames, actions, offers: createOffers(frames, actions), touches: pageTouches(link) };
  const { container } = render(page(tools));
  link.close();
  return container;
}

const said = (...args: Parameters<typeof drawn>): string => drawn(...args).textContent;

test.each([
  ['the coach’s window', (tools: Tools) => <Notices tools={tools} />],
  ['the remote', (tools: Tools) => <Remote tools={tools} />],
])('[sync] %s says that its clock is fair, and that nobody is to leave on a poor one', (_, page) => {
  expect(said(10, page)).not.toMatch(/clock is|Clock:|Do not leave/);
  expect(said(60, page)).toMatch(/clock of this window is fair\. It may be off by 0\.1 s\.|Clock: fair/);
  expect(said(160, page)).toMatch(/Do not leave on this clock\. It may be off by 0\.2 s\./);
});

test('a fair clock alone is no alarm: swimmers may leave on it', () => {
  const look = (delay: number): string =>
    drawn(delay, (tools) => <Notices tools={tools} />).querySelector('[role=status]')!.className;
  expect(look(60)).toMatch(/isMild/);
  expect(look(160)).not.toMatch(/isMild/);
});
