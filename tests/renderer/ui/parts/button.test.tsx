// @vitest-environment happy-dom
/*
 * The button of the coach's screens: when a press counts, what has to be held, and what it says if it cannot be done.
 */

import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { Button, HOLD_TIME, type ButtonProps } from '../../../../renderer/ui/parts/button.tsx';
import { lift, tap, touch } from '../../../support/coach/finger.ts';

const button = (): HTMLElement => screen.getByRole('button');

let pressed: string[];

function show(props: Partial<ButtonProps> = {}): void {
  const all = {
    name: 'Finish',
    onPress: () => pressed.push('pressed'),
    onRefused: (why: string) => pressed.push(why),
    ...props,
  } as ButtonProps;
  render(<Button {...all} />);
}

beforeEach(() => {
  pressed = [];
  vi.useFakeTimers();
});

afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

const wait = (ms: number): void => act(() => void vi.advanceTimersByTime(ms));

describe('a tap', () => {
  test('is one press, at the click', () => {
    show();
    touch(button());
    lift(button());
    expect(pressed).toEqual([]);
    fireEvent.click(button(), { detail: 1 });
    wait(1000);
    expect(pressed).toEqual(['pressed']);
  });

  test('does not move the keyboard focus', () => {
    show();
    expect(fireEvent.mouseDown(button(), { button: 0 })).toBe(false);
  });

  test('is seen while the finger is down, and no longer', () => {
    show();
    touch(button());
    expect(button().dataset['pressed']).toBe('true');
    tap(button());
    expect(button().dataset['pressed']).toBeUndefined();
  });

  test('by assistive technology, which clicks without a pointer, is one press', () => {
    show();
    fireEvent.click(button());
    expect(pressed).toEqual(['pressed']);
  });

  test('its second does not count on a button that was not there at the first', () => {
    show({ name: 'Stop' });
    tap(button());
    cleanup();
    show({ name: 'Resume' });
    tap(button(), 2);
    expect(pressed).toEqual(['pressed']);
    tap(button(), 1);
    expect(pressed).toHaveLength(2);
  });

  test('its second counts on the same button', () => {
    show();
    tap(button());
    tap(button(), 2);
    expect(pressed).toHaveLength(2);
  });
});

describe('a key on a button reached by Tab', () => {
  test('Enter counts when it goes down, once however long it is held', () => {
    show();
    fireEvent.keyDown(button(), { key: 'Enter' });
    expect(pressed).toEqual(['pressed']);
    fireEvent.keyDown(button(), { key: 'Enter', repeat: true });
    fireEvent.keyUp(button(), { key: 'Enter' });
    expect(pressed).toEqual(['pressed']);
    fireEvent.click(button());
    expect(pressed).toHaveLength(2);
  });

  test('Space counts when it comes up', () => {
    show();
    fireEvent.keyDown(button(), { key: ' ' });
    expect(pressed).toEqual([]);
    fireEvent.keyUp(button(), { key: ' ' });
    expect(pressed).toEqual(['pressed']);
  });

  test.each(['Enter', ' '])('"%s" that went down elsewhere and comes up here counts for nothing', (key) => {
    show();
    fireEvent.keyUp(button(), { key });
    expect(pressed).toEqual([]);
  });

  test('Enter that came up elsewhere leaves the next tap its press', () => {
    show();
    fireEvent.keyDown(button(), { key: 'Enter' });
    fireEvent.keyUp(document.body, { key: 'Enter' });
    tap(button());
    expect(pressed).toHaveLength(2);
  });
});

describe('what cannot be done', () => {
  test('is not offered, can be reached all the same, and says why when pressed', () => {
    show({ why: 'Nothing is left.' });
    button().focus();
    expect([document.activeElement, button().getAttribute('aria-disabled')]).toEqual([button(), 'true']);
    tap(button());
    expect(pressed).toEqual(['Nothing is left.']);
  });

  test('is judged at the press, not by its looks', () => {
    show({ why: 'Nothing is left.', judge: () => null });
    tap(button());
    cleanup();
    show({ judge: () => 'Too late.' });
    tap(button());
    expect(pressed).toEqual(['pressed', 'Too late.']);
  });
});

describe('what ends something', () => {
  const held = { held: true };

  test('is done after 0.6 s under the finger, once', () => {
    show(held);
    touch(button());
    wait(HOLD_TIME - 1);
    expect([pressed, button().dataset['held']]).toEqual([[], '']);
    wait(1);
    expect([pressed, button().dataset['held']]).toEqual([['pressed'], undefined]);
    lift(button());
    wait(1000);
    expect(pressed).toEqual(['pressed']);
  });

  test('a short press says how long, and a click after it counts for nothing', () => {
    show(held);
    tap(button());
    wait(1000);
    expect(pressed).toEqual(['Hold Finish for 0.6 s.']);
  });

  test('a finger that lifts at 0.59 s has not held it, however late the browser tells of the click', () => {
    show(held);
    touch(button());
    wait(HOLD_TIME - 10);
    lift(button());
    wait(1000);
    expect(pressed).toEqual(['Hold Finish for 0.6 s.']);
  });

  test.each<[string, () => void]>([
    ['a finger that slides off', () => void fireEvent.pointerLeave(button(), { pointerId: 1 })],
    ['a page that scrolls under it', () => void fireEvent.pointerCancel(button(), { pointerId: 1 })],
    ['a window that loses the keyboard', () => void fireEvent.blur(button())],
  ])('%s ends it', (_, happens) => {
    show(held);
    touch(button());
    wait(300);
    happens();
    wait(1000);
    expect(pressed).toEqual(['Hold Finish for 0.6 s.']);
  });

  test.each(['Enter', ' '])('"%s" is held too, and its repeats do not begin anew', (key) => {
    show(held);
    fireEvent.keyDown(button(), { key });
    wait(300);
    fireEvent.keyDown(button(), { key, repeat: true });
    wait(300);
    fireEvent.keyUp(button(), { key });
    expect(pressed).toEqual(['pressed']);
    fireEvent.keyDown(button(), { key });
    fireEvent.keyUp(button(), { key });
    expect(pressed).toEqual(['pressed', 'Hold Finish for 0.6 s.']);
  });

  test('assistive technology cannot hold: its click is enough, after a hold too', () => {
    show(held);
    fireEvent.click(button());
    expect(pressed).toEqual(['pressed']);
    touch(button());
    wait(HOLD_TIME);
    tap(button());
    fireEvent.click(button());
    expect(pressed.filter((each) => each === 'pressed')).toHaveLength(3);
  });

  test('where it cannot be done it says why at once, and nothing fills', () => {
    show({ ...held, why: 'Too late.' });
    touch(button());
    expect([pressed, button().dataset['held']]).toEqual([['Too late.'], undefined]);
    wait(1000);
    tap(button());
    expect(pressed.filter((each) => each !== 'Too late.')).toEqual([]);
  });

  test('one that goes while it is held is not done', () => {
    show(held);
    touch(button());
    cleanup();
    wait(1000);
    expect(pressed).toEqual([]);
  });
});

describe('for those who cannot see it', () => {
  test('the name is the plain one; hint and countdown describe it', () => {
    show({ name: 'Undo', label: '↶', hint: 'U, Skip rep, 6 s left', keys: 'U' });
    const named = screen.getByRole('button', { name: 'Undo' });
    const described = document.getElementById(named.getAttribute('aria-describedby') ?? '');
    expect(described?.textContent).toBe('U, Skip rep, 6 s left');
    expect(named.getAttribute('aria-keyshortcuts')).toBe('U');
  });

  test('a row has its text for a name, and says whether it is open', () => {
    render(
      <Button expanded={false} onPress={() => undefined}>
        3 rounds, now
      </Button>,
    );
    expect(screen.getByRole('button', { name: '3 rounds, now' }).getAttribute('aria-expanded')).toBe('false');
  });

  test.each([true, false])('a toggle says whether it is on: %s', (on) => {
    show({ pressed: on });
    expect(button().getAttribute('aria-pressed')).toBe(`${on}`);
  });
});
