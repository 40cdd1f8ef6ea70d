/*
 * Keys and clickers of the coach's window.
 */

import { describe, expect, test } from 'vitest';
import { ACTIONS, type ActionName } from '../../../../../renderer/ui/coach/commands/action-list.ts';
import { meaningOf, type KeyPress } from '../../../../../renderer/desk/actions/keys/keys.ts';

const press = (key: string, more: Partial<KeyPress> = {}): KeyPress => ({
  key,
  code: '',
  shift: false,
  modified: false,
  repeat: false,
  typing: false,
  onControl: false,
  ...more,
});

describe('keys', () => {
  test.each<[string, ActionName]>([
    ['s', 'skip'],
    ['o', 'sit-out'],
    ['r', 'repeat'],
    ['j', 'rejoin'],
    ['u', 'undo'],
    ['[', 'shorter'],
    [']', 'longer'],
    ['Enter', 'start'],
  ])('%s gives %s, in capitals too', (key, name) => {
    expect(meaningOf(press(key))).toEqual({ kind: 'act', name });
    if (key.length === 1) expect(meaningOf(press(key.toUpperCase()))).toEqual({ kind: 'act', name });
  });

  test('each key that stands on a button of one letter does what the button does; a mark asks for words first', () => {
    for (const [name, { key, pressed }] of Object.entries(ACTIONS)) {
      const letter = pressed ? key.replace('Shift ', '') : key;
      if (letter.length !== 1) continue;
      const kind = name === 'mark' ? 'panel' : 'act';
      expect(meaningOf(press(letter, { shift: pressed }))).toEqual({ kind, name });
    }
  });

  test('no two actions share a key but Stop and Resume', () => {
    const keys = Object.entries(ACTIONS).flatMap(([name, { key, typed = [], clicker = [] }]) =>
      name === 'resume' ? [] : [key.toLowerCase(), ...typed, ...clicker],
    );
    expect(keys.filter((key, index) => keys.indexOf(key) !== index)).toEqual([]);
  });

  test('Move on, Restart and Finish want Shift: without it R repeats, F is nothing', () => {
    expect(meaningOf(press('M', { shift: true }))).toEqual({ kind: 'act', name: 'move-on' });
    expect(meaningOf(press('R', { shift: true }))).toEqual({ kind: 'act', name: 'restart' });
    expect(meaningOf(press('F', { shift: true }))).toEqual({ kind: 'act', name: 'finish' });
    expect(meaningOf(press('m'))).toEqual({ kind: 'panel', name: 'mark' });
    expect(meaningOf(press('f'))).toBeNull();
  });

  test('with Shift a letter of another action does nothing', () => {
    expect(meaningOf(press('S', { shift: true }))).toBeNull();
    expect(meaningOf(press('U', { shift: true }))).toBeNull();
  });

  test('digits choose lanes, of the number block too', () => {
    expect(meaningOf(press('3', { code: 'Digit3' }))).toEqual({ kind: 'lane', number: 3 });
    expect(meaningOf(press('3', { code: 'Numpad3' }))).toEqual({ kind: 'lane', number: 3 });
  });

  test('plus comes with Shift on many keyboards', () => {
    expect(meaningOf(press('+', { shift: true }))).toEqual({ kind: 'act', name: 'later' });
    expect(meaningOf(press('-'))).toEqual({ kind: 'act', name: 'sooner' });
  });
});

describe('clickers', () => {
  test('forward starts and nothing else, back does nothing and says so', () => {
    expect(meaningOf(press('PageDown'))).toEqual({ kind: 'act', name: 'start' });
    expect(meaningOf(press('PageUp'))).toEqual({
      kind: 'nothing',
      why: 'Page Up does nothing here: Undo takes the last command back.',
    });
    expect(meaningOf(press('PageUp', { repeat: true }))).toEqual({ kind: 'nothing' });
  });

  test.each(['.', 'b', 'B', ' '])('the blank-screen key (%s) stops or resumes', (key) => {
    expect(meaningOf(press(key))).toEqual({ kind: 'stop-or-resume' });
  });

  test('F5, which presenters send, does not reload the page', () => {
    expect(meaningOf(press('F5'))).toMatchObject({
      kind: 'nothing',
      why: expect.stringMatching(/^F5 does nothing here/) as string,
    });
  });
});

describe('what is never taken', () => {
  const all = [' ', 'Enter', 's', '.', 'b', 'PageDown', '+', 'u'];

  test.each(all)('%s held down acts once', (key) => {
    expect(meaningOf(press(key, { repeat: true }))).toEqual({ kind: 'nothing' });
  });

  test.each(all)('%s while typing is the text’s', (key) => {
    expect(meaningOf(press(key, { typing: true }))).toBeNull();
  });

  test.each(all)('%s with Control, Alt or Meta is the browser’s', (key) => {
    expect(meaningOf(press(key, { modified: true }))).toBeNull();
  });

  test('Escape closes what prints it, while one types too', () => {
    expect(meaningOf(press('Escape', { typing: true }))).toEqual({ kind: 'clear' });
    expect(meaningOf(press('Escape', { repeat: true }))).toEqual({ kind: 'nothing' });
  });

  test('Space and Enter on a button with the focus are the button’s', () => {
    expect(meaningOf(press(' ', { onControl: true }))).toBeNull();
    expect(meaningOf(press('Enter', { onControl: true }))).toBeNull();
    expect(meaningOf(press('s', { onControl: true }))).toEqual({ kind: 'act', name: 'skip' });
  });
});
