/*
 * The text in the coach's editor, for tests in a small DOM: read whole, and written as if it were typed.
 */

import { act, configure, screen } from '@testing-library/react';
import { EditorView } from '@codemirror/view';

// A busy machine is slow, not wrong.
configure({ asyncUtilTimeout: 10_000 });

export function editorOf(name = 'Session'): EditorView {
  const view = EditorView.findFromDOM(screen.getByRole('textbox', { name }));
  if (!view) throw new Error(`${name} is no editor`);
  return view;
}

export function writtenText(name = 'Session'): string {
  return editorOf(name).state.doc.toString();
}

/** All of it, in place of what is there. */
export function writeText(text: string, name = 'Session'): void {
  const view = editorOf(name);
  // This small DOM tells of a selection while the editor is still setting it, which it does with the keyboard alone.
  act(() => view.contentDOM.blur());
  act(() => view.dispatch({ changes: { from: 0, to: view.state.doc.length, insert: text }, userEvent: 'input.type' }));
}
