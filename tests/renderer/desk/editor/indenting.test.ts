// @vitest-environment happy-dom
/*
 * What Enter and Tab do with indents, and how the keyboard leaves the text.
 */

import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { parseSession } from '../../../../app/core/session/parse.ts';
import { createTextView, type TextView } from '../../../../renderer/desk/editor/text-view.ts';
import { freeKeyboard } from '../../../../renderer/ui/coach/free-keyboard.ts';

let view: TextView;
let endFree: () => void;

beforeEach(() => {
  endFree = freeKeyboard(document);
  view = createTextView({
    ...{ parent: document.body.appendChild(document.createElement('div')), text: '', sheet: 0, kept: null },
    ...{ placeholder: undefined, extensions: [], accepts: () => true, begins: () => null },
    ...{ onChange: () => undefined, onUpdate: () => undefined },
  });
});
afterEach(() => {
  view.destroy();
  endFree();
});

/** With the cursor where | stands. */
function holds(text: string): void {
  const at = text.indexOf('|');
  const insert = text.replace('|', '');
  view.dispatch({ changes: { from: 0, to: view.state.doc.length, insert }, selection: { anchor: at } });
}

function shown(): string {
  const text = view.state.doc.toString();
  const { head } = view.state.selection.main;
  return `${text.slice(0, head)}|${text.slice(head)}`;
}

/** Whether the editor took it. */
function press(key: string, shiftKey = false): boolean {
  const event = new KeyboardEvent('keydown', { key, shiftKey, bubbles: true, cancelable: true });
  view.contentDOM.dispatchEvent(event);
  return event.defaultPrevented;
}

function type(text: string): void {
  for (const letter of text) {
    if (letter === '\n') press('Enter');
    else view.dispatch(view.state.replaceSelection(letter));
  }
}

describe('[indent] Enter', () => {
  test.each([
    ['3 rounds|', '3 rounds\n  |'],
    ['3 rounds of:  # the middle|', '3 rounds of:  # the middle\n  |'],
    ['  4 times|', '  4 times\n    |'],
    ['3 x|', '3 x\n  |'],
    ['lanes 1-3:|', 'lanes 1-3:\n  |'],
    ['3 rounds\n  4 x 50 @ 1:00|', '3 rounds\n  4 x 50 @ 1:00\n  |'],
    ['lanes 1-3: 4 x 50 @ 1:00|', 'lanes 1-3: 4 x 50 @ 1:00\n|'],
    ['3 x 4 x 50 @ 1:00|', '3 x 4 x 50 @ 1:00\n|'],
    ['Main set|', 'Main set\n|'],
    ['|3 rounds', '\n|3 rounds'],
    ['4 x 50 free| fast', '4 x 50 free\n|fast'],
  ])('behind %j begins the line that the notation wants', (before, after) => {
    holds(before);
    press('Enter');
    expect(shown()).toBe(after);
  });

  test('on a line that is still empty goes back out, a depth at a time, and adds none', () => {
    holds('2 rounds\n  3 rounds\n    |');
    press('Enter');
    expect(shown()).toBe('2 rounds\n  3 rounds\n  |');
    press('Enter');
    expect(shown()).toBe('2 rounds\n  3 rounds\n|');
    press('Enter');
    expect(shown()).toBe('2 rounds\n  3 rounds\n\n|');
  });

  test('a session of rounds is written without a space or Tab typed for its indents', () => {
    type(
      'Harbour\nlane 1 base 1:30\nMain set\n3 rounds\n4 x 50 fast @ 1:00\nrest 1:00 between rounds\n\nSwim-down\n200 easy',
    );
    expect(view.state.doc.toString()).toContain(
      '3 rounds\n  4 x 50 fast @ 1:00\n  rest 1:00 between rounds\nSwim-down',
    );
    expect(parseSession(view.state.doc.toString(), null).ok).toBe(true);
  });
});

describe('[WCAG 2.1.2] Tab', () => {
  test('indents the line from wherever the cursor stands, Shift+Tab back', () => {
    holds('3 rounds\n4 x 50| @ 1:00');
    expect(press('Tab')).toBe(true);
    expect(shown()).toBe('3 rounds\n  4 x 50| @ 1:00');
    expect(press('Tab', true)).toBe(true);
    expect(shown()).toBe('3 rounds\n4 x 50| @ 1:00');
  });

  test('after Escape leaves the text: it is no trap', () => {
    holds('3 rounds\n4 x 50| @ 1:00');
    view.contentDOM.focus();
    expect(document.activeElement).toBe(view.contentDOM);
    press('Escape');
    expect(document.activeElement).toBe(document.body);
    const tab = new KeyboardEvent('keydown', { key: 'Tab', bubbles: true, cancelable: true });
    document.activeElement!.dispatchEvent(tab);
    expect(tab.defaultPrevented).toBe(false);
    expect(shown()).toBe('3 rounds\n4 x 50| @ 1:00');
  });
});
