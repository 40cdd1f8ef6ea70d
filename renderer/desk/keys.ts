/*
 * What keys and clickers mean to the coach's window during a run. A clicker is a keyboard: its
 * forward key starts and does nothing else, its blank-screen key stops or resumes.
 */

import type { ActionName } from '../ui/coach/actions.ts';

export type Meaning =
  | { readonly kind: 'act'; readonly name: ActionName }
  | { readonly kind: 'stop-or-resume' }
  | { readonly kind: 'lane'; readonly number: number }
  | { readonly kind: 'interval'; readonly seconds: number }
  | { readonly kind: 'panel'; readonly name: 'mark' | 'edit' | 'lane' }
  | { readonly kind: 'clear' }
  /** A key that must not do what the browser would do with it (reload, scroll). */
  | { readonly kind: 'nothing' };

/** The key that chooses a lane; undefined where there is none. */
export function keyOf(lane: number): string | undefined {
  return lane <= 10 ? `${lane % 10}` : undefined;
}

export interface KeyPress {
  readonly key: string;
  /** The key's place on the keyboard, as `KeyboardEvent.code`. */
  readonly code: string;
  readonly shift: boolean;
  /** Control, Alt or Meta: the browser's and the system's own. */
  readonly modified: boolean;
  /** Held down. */
  readonly repeat: boolean;
  /** Text is being written, or a select, slider or box reached by Tab is worked by keys. */
  readonly typing: boolean;
  /** A button or link has the keyboard and takes Enter and Space itself. */
  readonly onControl: boolean;
}

const LETTERS: { readonly [key: string]: Meaning } = {
  s: { kind: 'act', name: 'skip' },
  o: { kind: 'act', name: 'sit-out' },
  r: { kind: 'act', name: 'repeat' },
  j: { kind: 'act', name: 'rejoin' },
  u: { kind: 'act', name: 'undo' },
  b: { kind: 'stop-or-resume' },
  '.': { kind: 'stop-or-resume' },
  '+': { kind: 'act', name: 'later' },
  '=': { kind: 'act', name: 'later' },
  '-': { kind: 'act', name: 'sooner' },
  '−': { kind: 'act', name: 'sooner' },
  '[': { kind: 'interval', seconds: -5 },
  ']': { kind: 'interval', seconds: 5 },
  m: { kind: 'panel', name: 'mark' },
  e: { kind: 'panel', name: 'edit' },
  l: { kind: 'panel', name: 'lane' },
};

const WITH_SHIFT: { readonly [key: string]: Meaning } = {
  m: { kind: 'act', name: 'move-on' },
  r: { kind: 'act', name: 'restart' },
  f: { kind: 'act', name: 'finish' },
};

const NAMED: { readonly [key: string]: Meaning } = {
  PageDown: { kind: 'act', name: 'start' },
  PageUp: { kind: 'nothing' },
  F5: { kind: 'nothing' },
  Escape: { kind: 'clear' },
};

/**
 * What a key press means; null where it is the browser's. A key held down means nothing again. Escape closes
 * what prints it, while one types too.
 */
export function meaningOf(press: KeyPress): Meaning | null {
  if (press.modified || (press.typing && press.key !== 'Escape')) return null;
  const meaning = meaningUnrepeated(press);
  return meaning && press.repeat ? { kind: 'nothing' } : meaning;
}

function meaningUnrepeated({ key, code, shift, onControl }: KeyPress): Meaning | null {
  if (key === ' ' || key === 'Enter') {
    if (onControl || shift) return null;
    return key === ' ' ? { kind: 'stop-or-resume' } : { kind: 'act', name: 'start' };
  }
  const named = NAMED[key];
  if (named) return named;
  const digit = /^(?:Digit|Numpad)(\d)$/.exec(code);
  if (digit && !shift) return { kind: 'lane', number: Number(digit[1]) || 10 };
  const letter = key.toLowerCase();
  const isLetter = letter !== key.toUpperCase();
  return (shift && isLetter ? WITH_SHIFT[letter] : LETTERS[letter]) ?? null;
}
