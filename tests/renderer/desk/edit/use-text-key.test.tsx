// @vitest-environment happy-dom
/*
 * The way back into the text of Edit by its key.
 */

import { cleanup, renderHook } from '@testing-library/react';
import { afterEach, expect, test, vi } from 'vitest';
import { useTextKey } from '../../../../renderer/desk/edit/use-text-key.ts';

afterEach(cleanup);

/** Whether it was taken. */
function press(init: KeyboardEventInit): boolean {
  const event = new KeyboardEvent('keydown', { bubbles: true, cancelable: true, ...init });
  (document.activeElement ?? document.body).dispatchEvent(event);
  return event.defaultPrevented;
}

test('[keyboard] E gives the keyboard to the text where no text has it; there, and with Ctrl, it is not taken', () => {
  const give = vi.fn();
  renderHook(() => useTextKey(give));
  expect([press({ key: 'e' }), press({ key: 'E' })]).toEqual([true, true]);
  expect(give).toHaveBeenCalledTimes(2);
  expect([press({ key: 'e', ctrlKey: true }), press({ key: 'e', repeat: true }), press({ key: 's' })]).not.toContain(
    true,
  );
  const field = document.body.appendChild(document.createElement('textarea'));
  field.focus();
  expect(press({ key: 'e' })).toBe(false);
  field.remove();
  expect(give).toHaveBeenCalledTimes(2);
});
