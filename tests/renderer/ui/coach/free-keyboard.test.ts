// @vitest-environment happy-dom
/*
 * Who has the keyboard: a control that was tapped gives it back, one reached by Tab keeps it. The same with a
 * browser's own events is in tests/e2e/coach/desk-keyboard.test.ts.
 */

import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { freeKeyboard, takesKeys, takesText } from '../../../../renderer/ui/coach/free-keyboard.ts';

const PAGE = `<button>Sound</button><input type="checkbox"><input type="range"><input type="text"><textarea></textarea>
<select><option>one</option><option>two</option></select><a href="#x">x</a><details><summary>More</summary></details>`;

let stop: () => void;

beforeEach(() => {
  vi.useFakeTimers();
  document.body.innerHTML = PAGE;
  stop = freeKeyboard(document);
});

afterEach(() => {
  stop();
  vi.useRealTimers();
});

const at = (selector: string): HTMLElement => document.querySelector<HTMLElement>(selector)!;

function fire(selector: string, ...names: string[]): void {
  for (const name of names) at(selector).dispatchEvent(new Event(name, { bubbles: true }));
  vi.runAllTimers();
}

function press(key: string): void {
  (document.activeElement ?? document).dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true }));
}

function tap(selector: string): void {
  fire(selector, 'pointerdown');
  at(selector).focus();
  fire(selector, 'pointerup', 'click');
}

const CONTROLS = ['button', '[type=checkbox]', '[type=range]', 'a', 'summary'];

test.each(CONTROLS)('%s tapped gives the keyboard back', (selector) => {
  tap(selector);
  expect(document.activeElement).toBe(document.body);
});

test('a select keeps it while its list is open, and gives it back with the choice', () => {
  tap('select');
  expect(document.activeElement).toBe(at('select'));
  fire('select', 'change');
  expect(document.activeElement).toBe(document.body);
});

test('a select in which the same was chosen again gives it back at the next key', () => {
  tap('select');
  press(' ');
  expect(document.activeElement).toBe(document.body);
});

test.each([...CONTROLS, 'select'])('%s reached by Tab keeps it while it is used by keys, until Escape', (selector) => {
  press('Tab');
  at(selector).focus();
  press(' ');
  fire(selector, 'click', 'change');
  expect(document.activeElement).toBe(at(selector));
  press('Escape');
  expect(document.activeElement).toBe(document.body);
});

test('a tap on something else takes the keyboard from what was reached by Tab', () => {
  press('Tab');
  at('select').focus();
  fire('button', 'pointerdown', 'pointerup', 'click');
  press(' ');
  expect(document.activeElement).toBe(document.body);
});

test.each(['[type=text]', 'textarea'])('%s keeps it until Escape: there one types', (selector) => {
  tap(selector);
  press('a');
  expect(document.activeElement).toBe(at(selector));
  expect([takesText(at(selector)), takesKeys(at(selector))]).toEqual([true, false]);
  press('Escape');
  expect(document.activeElement).toBe(document.body);
});

test('Escape closes the list of what could come next in a text, which keeps the keyboard; the next gives it back', () => {
  tap('textarea');
  at('textarea').setAttribute('aria-haspopup', 'listbox');
  press('Escape');
  expect(document.activeElement).toBe(at('textarea'));
  at('textarea').removeAttribute('aria-haspopup');
  press('Escape');
  expect(document.activeElement).toBe(document.body);
});

test('a control that is given the keyboard without a tap, as by a screen reader, keeps it after an earlier tap elsewhere', () => {
  tap('button');
  at('[type=range]').focus();
  press('ArrowLeft');
  press('ArrowLeft');
  expect(document.activeElement).toBe(at('[type=range]'));
});
