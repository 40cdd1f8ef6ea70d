/*
 * The first lines of a text that may no longer be changed, because a run has begun them: dimmed, with an edge below
 * the last.
 */

import { RangeSet, StateEffect, StateField, type Extension, type Text } from '@codemirror/state';
import { Decoration, EditorView, keymap, type Command, type DecorationSet } from '@codemirror/view';
import styles from '../session-editor.module.css';

/** How many they are now. */
export const lockLines = StateEffect.define<number>();

interface Locked {
  readonly count: number;
  readonly drawn: DecorationSet;
}

const dimmed = Decoration.line({ class: styles.isLocked ?? '' });
const lastDimmed = Decoration.line({ class: `${styles.isLocked ?? ''} ${styles.isLockedLast ?? ''}` });

const field = StateField.define<Locked>({
  create: () => ({ count: 0, drawn: RangeSet.empty }),
  update(locked, { docChanged, effects, state }) {
    const count = effects.reduce((known, effect) => (effect.is(lockLines) ? effect.value : known), locked.count);
    return docChanged || count !== locked.count ? { count, drawn: dimmedIn(state.doc, count) } : locked;
  },
  provide: (own) => EditorView.decorations.from(own, ({ drawn }) => drawn),
});

/** While a run goes on these are a clicker's, which must not move the cursor of who types. */
const doesNothing: Command = ({ state }) => state.field(field).count > 0;

export const lockedLines: Extension = [
  field,
  keymap.of(['PageDown', 'PageUp'].map((key) => ({ key, run: doesNothing }))),
];

function dimmedIn(doc: Text, count: number): DecorationSet {
  const lines = Array.from({ length: Math.min(count, doc.lines) }, (_, index) => doc.line(index + 1));
  return Decoration.set(lines.map(({ from }, index) => (index === lines.length - 1 ? lastDimmed : dimmed).range(from)));
}
