/*
 * What keys mean in the coach's window during a run. A clicker counts as a keyboard: its forward key only ever starts,
 * its blank-screen key stops or resumes.
 */

import { ACTION_NAMES, ACTIONS, type ActionName } from '../../../ui/coach/commands/action-list.ts';

export type Meaning =
  | { readonly kind: 'act'; readonly name: ActionName }
  | { readonly kind: 'stop-or-resume' }
  | { readonly kind: 'lane'; readonly number: number }
  | { readonly kind: 'panel'; readonly name: 'mark' | 'edit' | 'lane' | 'screens' }
  | { readonly kind: 'clear' }
  /** A key that does nothing here, and must not reload or scroll the page either; `why` is said, where it is not a repeat. */
  | { readonly kind: 'nothing'; readonly why?: string };

/** The key that chooses a lane; undefined if there is none. */
export function keyOf(lane: number): string | undefined {
  return lane <= 10 ? `${lane % 10}` : undefined;
}

export interface KeyPress {
  readonly key: string;
  /** The key's place on the keyboard, as `KeyboardEvent.code`. */
  readonly code: string;
  readonly shift: boolean;
  /** With Control, Alt or Meta, which belong to the browser and the system. */
  readonly modified: boolean;
  /** Whether the key is held down and repeats. */
  readonly repeat: boolean;
  /** Whether a text field, or a select, slider or checkbox reached by Tab, has the keyboard. */
  readonly typing: boolean;
  /** Whether a button or link has the keyboard: it takes Enter and Space itself. */
  readonly onControl: boolean;
}

/** Keys that do not just give their action: Stop and Resume share one, and a mark asks for words first. */
const OTHERWISE: { readonly [name in ActionName]?: Meaning } = {
  stop: { kind: 'stop-or-resume' },
  resume: { kind: 'stop-or-resume' },
  mark: { kind: 'panel', name: 'mark' },
};

const OWN_KEYS: readonly (readonly [string, Meaning])[] = [
  ['e', { kind: 'panel', name: 'edit' }],
  ['l', { kind: 'panel', name: 'lane' }],
  ['w', { kind: 'panel', name: 'screens' }],
  ['PageUp', { kind: 'nothing', why: 'Page Up does nothing here: Undo takes the last command back.' }],
  ['F5', { kind: 'nothing', why: 'F5 does nothing here, so that it cannot load the page again during a run.' }],
  ['Escape', { kind: 'clear' }],
];

/** By `KeyboardEvent.key`, letters in lower case. */
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
 * What a key press means; null if it belongs to the browser. A key that is held down counts once. Escape closes panels
 * even while the coach types.
 */
export function meaningOf(press: KeyPress): Meaning | null {
  if (press.modified || (press.typing && press.key !== 'Escape')) return null;
  const meaning = meaningUnrepeated(press);
  return meaning && press.repeat ? { kind: 'nothing' } : meaning;
}

/** With the text in sight a letter is meant for it, even if nothing has the keyboard: the clicker's keys and Escape alone act. */
export function actsInEdit(meaning: Meaning): boolean {
  return (meaning.kind === 'act' && meaning.name === 'start') || /^(stop-or-resume|clear|nothing)$/.test(meaning.kind);
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
