// @vitest-environment happy-dom
/* The sight check as somebody at the screen sees it, and the screen's name while it is asked for. */

import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, expect, test } from 'vitest';
import { FIRST_SETTINGS } from '../../../../app/core/screen/screen-settings.ts';
import { givenIn } from '../../../../app/core/run/view/given.ts';
import type { Link } from '../../../../renderer/link/link.ts';
import { createDeckStore, type DeckRun } from '../../../../renderer/link/store.ts';
import { layoutFor } from '../../../../renderer/wall/layout.ts';
import { roomOf } from '../../../../renderer/wall/room.ts';
import { ScreenNamed } from '../../../../renderer/wall/screen/screen-named.tsx';
import { SightControl } from '../../../../renderer/wall/screen/sight-control.tsx';
import { readWallChoice } from '../../../../renderer/wall/screen/wall-choice.ts';
import { helpedBy, SightCheck } from '../../../../renderer/wall/sight/sight-check.tsx';
import { runOf } from '../../../support/coach/coach-run.ts';

afterEach(cleanup);

function linkWith(state: Partial<ReturnType<ReturnType<typeof createDeckStore>['getState']>>): Link {
  const store = createDeckStore();
  store.setState(state);
  return { store } as unknown as Link;
}

test('[sight check] says how far the clock can be read, for which screen, and offers what makes the leaves larger', () => {
  const lanes = [1, 2, 3, 4, 5, 6].map((lane) => `lane ${lane}`).join('\n');
  const state = runOf(`${lanes}\n4 x 50 free @ 1:00\n`);
  const settings = { ...FIRST_SETTINGS, diagonal: 43, reader: 40 };
  const run = { state, given: givenIn(state) } as unknown as DeckRun;
  render(<SightCheck link={linkWith({ run, screen: { name: 'Far end', settings } })} />);
  const check = screen.getByRole('region', { name: 'Sight check' });
  expect(check.textContent).toContain('43 inches, the farthest reader at 40 m');
  expect(check.textContent).toMatch(/Clock to \d+ m, well to \d+ m, not from 40 m/);
  const offers = screen.getAllByRole('button').map(({ textContent }) => textContent);
  expect(offers.length).toBeGreaterThan(0);
  for (const offer of offers) expect(offer).toMatch(/: leaves to \d+ m$/);
});

test('[sight check] is opened by its button, and closed by it or by Escape', () => {
  const told: boolean[] = [];
  const onOpen = (open: boolean): void => void told.push(open);
  render(<SightControl link={linkWith({})} onOpen={onOpen} />);
  const button = screen.getByRole('button', { name: 'How far it can be read' });
  const isOpen = () => button.getAttribute('aria-expanded');
  fireEvent.click(button);
  fireEvent.keyDown(window, { key: 'a' });
  expect([isOpen(), told.at(-1)]).toEqual(['true', true]);
  fireEvent.keyDown(window, { key: 'Escape' });
  expect([isOpen(), told.at(-1)]).toEqual(['false', false]);
  fireEvent.click(button);
  fireEvent.click(button);
  expect([isOpen(), told.at(-1)]).toEqual(['false', false]);
});

test('[sight check] what is chosen is asked for by the address, beside what it asked for before; and can be taken back', () => {
  const lanes = [1, 2, 3];
  expect(helpedBy('?flip', { kind: 'fewer words', lanes })).toBe('flip=&without=words%2Cafter');
  expect(helpedBy('', { kind: 'two columns', lanes })).toBe('columns=2');
  expect(helpedBy('?lanes=1-6', { kind: 'shared', lanes })).toBe('lanes=1%2C2%2C3');
  expect(helpedBy('', { kind: 'leaves only', lanes })).toBe('only=leaves');
  expect(helpedBy('?face=sweep', { kind: 'digits', lanes }, { clock: 'pool' })).toBe('face=digits&clock=pool');
  expect(helpedBy('?face=sweep&only=leaves&columns=2', null)).toBe('face=sweep');
});

test('[which is which] the screen shows its name while the coach asks, over the words of the head', () => {
  const choice = readWallChoice('');
  const layout = layoutFor(roomOf({ width: 1920, height: 1080 }, 6, 4, choice, false), choice.face);
  const named = { name: 'Far end', settings: FIRST_SETTINGS };
  const { container, rerender } = render(
    <ScreenNamed link={linkWith({ screen: named, naming: false })} layout={layout} />,
  );
  expect(container.textContent).toBe('');
  rerender(<ScreenNamed link={linkWith({ screen: named, naming: true })} layout={layout} />);
  expect(screen.getByRole('status').textContent).toBe('Far end');
});
