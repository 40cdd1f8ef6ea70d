/*
 * The line that is being written: the cursor stands in it, and it was changed a moment ago. What is wrong with it can
 * wait until the cursor leaves it or typing rests, for half a line is no mistake yet.
 */

import { StateEffect, StateField, type EditorState, type Extension, type Transaction } from '@codemirror/state';
import { ViewPlugin, type EditorView, type PluginValue, type ViewUpdate } from '@codemirror/view';

/** In ms. */
export const RESTS_AFTER = 1500;

const rest = StateEffect.define<null>();

/** Where it begins; null where none is written. */
const field = StateField.define<number | null>({
  create: () => null,
  update(before, transaction) {
    const { state, effects, docChanged } = transaction;
    if (effects.some((effect) => effect.is(rest))) return null;
    const { from } = state.doc.lineAt(state.selection.main.head);
    if (docChanged) return isWriting(transaction) ? from : null;
    return before === from ? before : null;
  },
});

/** Its number; null where none is written. */
export function lineInHand(state: EditorState): number | null {
  const from = state.field(field, false) ?? null;
  return from === null ? null : state.doc.lineAt(from).number;
}

/** Letters within a line; a paste of several, or Enter, leaves no line half written. */
function isWriting(transaction: Transaction): boolean {
  const { changes, startState } = transaction;
  if (!['input.type', 'input.complete', 'delete'].some((kind) => transaction.isUserEvent(kind))) return false;
  let isInLine = true;
  changes.iterChanges((from, to, _from, _to, inserted) => {
    if (inserted.lines > 1 || to > startState.doc.lineAt(from).to) isInLine = false;
  });
  return isInLine;
}

class Rest implements PluginValue {
  private readonly view: EditorView;
  private timer: ReturnType<typeof setTimeout> | undefined;

  constructor(view: EditorView) {
    this.view = view;
  }

  update({ docChanged, state }: ViewUpdate): void {
    if (!docChanged) return;
    clearTimeout(this.timer);
    if (lineInHand(state) !== null)
      this.timer = setTimeout(() => this.view.dispatch({ effects: rest.of(null) }), RESTS_AFTER);
  }

  destroy(): void {
    clearTimeout(this.timer);
  }
}

export const writingLine: Extension = [field, ViewPlugin.fromClass(Rest)];
