/*
 * What keys and clickers mean to the coach's window during a run. A clicker is a keyboard: its
 * forward key starts and does nothing else, its blank-screen key stops or resumes.
 */

import { ACTION_NAMES, ACTIONS, type ActionName } from '../../ui/coach/commands/action-list.ts';

export type Meaning =
  | { readonly kind: 'act'; readonly name: ActionName }
  | { readonly kind: 'stop-or-resume' }
  | { readonly kind: 'lane'; readonly number: number }
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

/** What an action's key means where it is not just the action: one key has two, and a mark asks for words. */
const OTHERWISE: { readonly [name in ActionName]?: Meaning } = {
  stop: { kind: 'stop-or-resume' },
  resume: { kind: 'stop-or-resume' },
  mark: { kind: 'panel', name: 'mark' },
};

const OWN_KEYS: readonly (readonly [string, Meaning])[] = [
  ['e', { kind: 'panel', name: 'edit' }],
  ['l', { kind: 'panel', name: 'lane' }],
  ['PageUp', { kind: 'nothing' }],
  ['F5', { kind: 'nothing' }],
  ['Escape', { kind: 'clear' }],
];

/** By `KeyboardEvent.key`, letters small. */
const PLAIN = new Map(OWN_KEYS);
const WITH_SHIFT = new Map<string, Meaning>();

for (const name of ACTION_NAMES) {
  const { key, typed = [], clicker = [] } = ACTIONS[name];
  const meaning = OTHERWISE[name] ?? { kind: 'act', name };
  const shifted = /^Shift (.)$/.exec(key)?.[1];
  if (shifted !== undefined) WITH_SHIFT.set(shifted.toLowerCase(), meaning);
  else if (key.length === 1) PLAIN.set(key.toLowerCase(), meaning);
  for (const each of [...typed, ...clicker]) PLAIN.set(each, meaning);
}

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
  const named = key.length > 1 ? PLAIN.get(key) : undefined;
  if (named) return named;
  const digit = /^(?:Digit|Numpad)(\d)$/.exec(code);
  if (digit && !shift) return { kind: 'lane', number: Number(digit[1]) || 10 };
  const letter = key.toLowerCase();
  const isLetter = letter !== key.toUpperCase();
  return (shift && isLetter ? WITH_SHIFT : PLAIN).get(letter) ?? null;
}
