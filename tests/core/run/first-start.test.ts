// What was told to a run that has not started, less what was undone.

import { expect, test } from 'vitest';
import { hasStarted, notUndone } from '../../../app/core/run/first-start.ts';

const given = (...names: unknown[]) => names.map((name) => ({ command: { do: name } }));

test('an undo goes with the command before it, one after the other; a mark is passed over and stays', () => {
  expect(notUndone(given('cut', 'start', 'undo'))).toEqual(given('cut'));
  expect(notUndone(given('cut', 'gap', 'undo', 'undo'))).toEqual([]);
  expect(notUndone(given('cut', 'start', 'mark', 'mark', 'undo'))).toEqual(given('cut', 'mark', 'mark'));
  expect(notUndone(given('start', 'undo', 'gap'))).toEqual(given('gap'));
});

test('an undo of nothing, or of what no program of this age knows, leaves everything', () => {
  expect(notUndone(given('undo'))).toEqual([]);
  expect(notUndone(given('mark', 'undo'))).toEqual(given('mark'));
  expect(notUndone(given('fly', 7, undefined, 'toString', 'undo'))).toEqual(given('fly', 7, undefined, 'toString'));
});

test('it has started where a start was given that was not undone', () => {
  expect(hasStarted(given())).toBe(false);
  expect(hasStarted(given('mark', 'cut'))).toBe(false);
  expect(hasStarted(given('cut', 'start', 'mark'))).toBe(true);
  expect(hasStarted(given('cut', 'start', 'mark', 'undo'))).toBe(false);
});
