// @vitest-environment happy-dom
/*
 * Who has the keyboard in Edit: the text, or by touch nobody; and no letter is a command while it is open.
 */

import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { useState, type ReactElement } from 'react';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { RunScreen } from '../../../../renderer/desk/run/run-screen.tsx';
import { useMoment } from '../../../../renderer/ui/coach/use-deck.ts';
import { CoachWindow, withSwitches } from '../../../support/coach/coach-window.ts';
import { editorOf } from '../../../support/coach/write-window/written-text.ts';

/** Line 4 has begun at 20 s; line 5 is the first that can be changed. */
const TEXT = `Harbour
lane 1 base 1:30, 4 swimmers
Main set
2 x 50 fast @ 1:00
4 x 75 free @ 1:20
`;

beforeEach(() => localStorage.clear());
afterEach(cleanup);

function Shown({ coach }: { readonly coach: CoachWindow }): ReactElement {
  const moment = useMoment(coach.tools.frames) ?? coach.moment;
  const [tools] = useState(() => withSwitches(coach));
  return <RunScreen tools={tools} moment={moment} onWrite={() => undefined} />;
}

function going(): CoachWindow {
  const coach = new CoachWindow(TEXT);
  coach.other({ do: 'start' });
  coach.at(20);
  render(<Shown coach={coach} />);
  return coach;
}

const button = (name: string): HTMLElement => screen.getByRole('button', { name });
const text = (): HTMLElement => screen.getByRole('textbox', { name: 'Session' });
const dos = ({ given }: CoachWindow): readonly string[] => given.map(({ command }) => command.do);

function press(key: string, code: string, repeat = false): boolean {
  let isLeft = true;
  act(() => void (isLeft = fireEvent.keyDown(document.activeElement ?? document.body, { key, code, repeat })));
  return isLeft;
}

function editBy(pointerType: 'mouse' | 'touch'): void {
  fireEvent(button('Edit'), new PointerEvent('pointerdown', { bubbles: true, pointerType }));
  fireEvent.click(button('Edit'));
}

test.each([
  ['its key', () => void press('e', 'KeyE')],
  ['the mouse', () => editBy('mouse')],
])('[rewrite] opened by %s, Edit gives the keyboard to the first line that can be changed', (_, open) => {
  const coach = going();
  open();
  expect(document.activeElement).toBe(text());
  const { doc, selection } = editorOf().state;
  expect([doc.lineAt(selection.main.head).number, selection.main.empty]).toEqual([5, true]);
  expect(button('Stop all lanes').textContent).toBe('Stop all lanestap, or Esc then Space');
  // A letter is the text's.
  expect(press('s', 'KeyS')).toBe(true);
  expect(dos(coach)).toEqual([]);
});

test('[rewrite] the key that opened Edit, held on, does not write into the text', () => {
  going();
  press('e', 'KeyE');
  expect(press('e', 'KeyE', true)).toBe(false);
  expect(press('e', 'KeyE')).toBe(true);
});

test('[rewrite] opened by touch, Edit calls up no keyboard, and letters, digits and signs command nothing meanwhile', () => {
  const coach = going();
  editBy('touch');
  expect(document.activeElement).toBe(document.body);
  expect(button('Stop all lanes').textContent).toContain('Space, or the clicker');
  for (const letter of 'sorjumlwf') press(letter, `Key${letter.toUpperCase()}`);
  for (const sign of '-+[]') press(sign, 'Other');
  press('1', 'Digit1');
  expect([dos(coach), coach.tools.actions.chosen()]).toEqual([[], []]);
  expect(screen.queryByRole('heading', { name: /Screens|Mark|Lane 1/ })).toBeNull();
  expect(button('Undo').textContent).toMatch(/^Undotap, /);
  press(' ', 'Space');
  expect(dos(coach)).toEqual(['stop']);
});

test('[rewrite] after Escape, E gives the keyboard back to the text', () => {
  going();
  editBy('touch');
  expect(document.activeElement).toBe(document.body);
  press('e', 'KeyE');
  expect(document.activeElement?.getAttribute('aria-label')).toBe('Session');
});
