/*
 * Light or dark, by the system or by choice.
 */

import { expect, test } from 'vitest';
import { choiceIn, followLight } from '../../../../renderer/ui/coach/light-choice.ts';

/** A root, a system that can change its mind, and a memory. */
function screen(kept: string | null, dark: boolean) {
  const shown: string[] = [];
  const memory = new Map<string, string>(kept === null ? [] : [['lanecall.light', kept]]);
  const listeners: (() => void)[] = [];
  const system = {
    matches: dark,
    addEventListener: (_: string, listener: () => void) => void listeners.push(listener),
  };
  const light = followLight(
    { setAttribute: (name, value) => void shown.push(`${name} ${value}`) },
    system as unknown as MediaQueryList,
    { getItem: (key) => memory.get(key) ?? null, setItem: (key, value) => void memory.set(key, value) },
  );
  const turn = (to: boolean): void => {
    system.matches = to;
    for (const listener of listeners) listener();
  };
  return { light, memory, turn, last: () => shown[shown.length - 1] };
}

test('without a choice it follows the system, also when that changes', () => {
  const { last, turn, light } = screen(null, false);
  expect([light.choice(), last()]).toEqual(['system', 'data-light light']);
  turn(true);
  expect(last()).toBe('data-light dark');
});

test('a choice holds against the system, is kept, and is given back with "system"', () => {
  const { last, turn, light, memory } = screen(null, true);
  light.choose('light');
  expect([last(), memory.get('lanecall.light')]).toEqual(['data-light light', 'light']);
  turn(true);
  expect(last()).toBe('data-light light');
  light.choose('system');
  expect(last()).toBe('data-light dark');
});

test('what was kept is taken up again; anything unknown is the system’s', () => {
  expect(screen('dark', false).last()).toBe('data-light dark');
  expect(screen('mauve', true).last()).toBe('data-light dark');
  expect(choiceIn(null)).toBe('system');
});
