/*
 * The editor behind a session's text: CodeMirror with what every text here has. Its style sheet comes under the nonce
 * that the host put into the page. Tab goes on to the next control, as everywhere in the window; Escape gives the
 * keyboard back (ui/coach/free-keyboard.ts).
 */

import { defaultKeymap, history, historyKeymap, isolateHistory } from '@codemirror/commands';
import { Annotation, Compartment, EditorState, Transaction, type Extension } from '@codemirror/state';
import { EditorView, keymap, lineNumbers, placeholder, type KeyBinding } from '@codemirror/view';
import { characterAt } from './fault-place.ts';

/** The editor of a text, for `putCursor`. */
export type TextView = EditorView;

/** What a new editor has of the one before it: text, cursor, what can be undone, how far it was scrolled. */
export interface KeptView {
  readonly state: EditorState;
  readonly scrolled: ReturnType<EditorView['scrollSnapshot']>;
  readonly hadKeyboard: boolean;
}

export interface TextViewGiven {
  readonly parent: HTMLElement;
  readonly text: string;
  readonly placeholder: string | undefined;
  readonly extensions: Extension;
  /** An editor of the same text that this one takes the place of. */
  readonly before: KeptView | null;
  /** Whether what the coach does may make this of the text. */
  accepts(text: string): boolean;
  onChange(text: string): void;
}

/** The text was put there from outside, and is no news to whoever did. */
const fromOutside = Annotation.define<true>();

const dressing = new Compartment();

/** Without Ctrl+Enter, which runs the session. */
const KEYS: readonly KeyBinding[] = [...historyKeymap, ...defaultKeymap.filter(({ key }) => key !== 'Mod-Enter')];

/**
 * What is typed over a choice is put in by the editor: the browser would give it the colours of what it replaces, by a
 * style of the element, which the policy refuses.
 */
const typedOver = EditorView.domEventHandlers({
  beforeinput({ inputType, data, isComposing }, view) {
    if (inputType !== 'insertText' || data === null || isComposing) return false;
    const { from, to } = chosenIn(view);
    if (from === to) return false;
    const insert = view.state.toText(data);
    const selection = { anchor: from + insert.length };
    view.dispatch({ changes: { from, to, insert }, selection, userEvent: 'input.type', scrollIntoView: true });
    return true;
  },
});

/** What is chosen by the browser's account, which is ahead of the editor's until the editor has heard of it. */
function chosenIn(view: EditorView): { readonly from: number; readonly to: number } {
  const chosen = document.getSelection();
  const { anchorNode, focusNode } = chosen ?? { anchorNode: null, focusNode: null };
  const { contentDOM } = view;
  if (!chosen || !contentDOM.contains(anchorNode) || !contentDOM.contains(focusNode)) return view.state.selection.main;
  const anchor = view.posAtDOM(anchorNode!, chosen.anchorOffset);
  const focus = view.posAtDOM(focusNode!, chosen.focusOffset);
  return { from: Math.min(anchor, focus), to: Math.max(anchor, focus) };
}

export function createTextView(given: TextViewGiven): TextView {
  const { before } = given;
  const made = new EditorView({
    parent: given.parent,
    state: before?.state ?? newState(given),
    ...(before ? { scrollTo: before.scrolled } : {}),
    dispatchTransactions(transactions, view) {
      const last = transactions[transactions.length - 1];
      const changed = transactions.some((each) => each.docChanged);
      const own = changed && !transactions.some((each) => each.annotation(fromOutside));
      const text = own && last ? last.newDoc.toString() : null;
      // Undo comes by no filter of CodeMirror's: here everything comes by.
      if (text !== null && !given.accepts(text)) return;
      view.update(transactions);
      if (text !== null) given.onChange(text);
    },
  });
  if (before?.hadKeyboard) made.focus();
  return made;
}

function newState(given: TextViewGiven): EditorState {
  const nonce = document.querySelector<HTMLMetaElement>('meta[name="style-nonce"]')?.nonce;
  return EditorState.create({
    doc: given.text,
    extensions: [
      nonce ? EditorView.cspNonce.of(nonce) : [],
      EditorState.tabSize.of(4),
      lineNumbers(),
      history(),
      EditorView.lineWrapping,
      typedOver,
      given.placeholder === undefined ? [] : placeholder(given.placeholder),
      given.extensions,
      keymap.of(KEYS),
      dressing.of([]),
    ],
  });
}

/** Takes an editor away; what it gives back is what another one in its place begins with. */
export function keepView(view: TextView): KeptView {
  const kept = { state: view.state, scrolled: view.scrollSnapshot(), hadKeyboard: view.hasFocus };
  view.destroy();
  return kept;
}

/** What the editor says of itself to assistive technology. */
export function describe(view: TextView, attributes: Readonly<Record<string, string>>): void {
  view.dispatch({ effects: dressing.reconfigure(EditorView.contentAttributes.of(attributes)) });
}

/** Puts another text in place of what is there: only what differs is replaced, and undo brings it back. */
export function putText(view: TextView, given: string): void {
  const before = view.state.doc.toString();
  // Here every line ends with a line feed, whatever the file has.
  const text = given.replace(/\r\n?/g, '\n');
  if (before === text) return;
  const most = Math.min(before.length, text.length);
  let from = 0;
  while (from < most && before.charCodeAt(from) === text.charCodeAt(from)) from++;
  let same = 0;
  while (same < most - from && before.charCodeAt(before.length - 1 - same) === text.charCodeAt(text.length - 1 - same))
    same++;
  view.dispatch({
    changes: { from, to: before.length - same, insert: text.slice(from, text.length - same) },
    annotations: [fromOutside.of(true), isolateHistory.of('full'), Transaction.addToHistory.of(true)],
  });
}

/** Puts the cursor at a line and column (both from 1; a tab counts as 4 columns), if the text is there. */
export function putCursor(view: TextView | null, line: number, column: number): void {
  if (!view || line > view.state.doc.lines) return;
  const { from, to, text } = view.state.doc.line(line);
  const anchor = from + characterAt(text, column);
  view.dispatch({
    selection: { anchor, head: to },
    effects: EditorView.scrollIntoView(anchor, { y: 'start', yMargin: 3 * view.defaultLineHeight }),
  });
  view.focus();
}

/** Scrolls so that a line (from 1) is the first in sight. */
export function showFrom(view: TextView, line: number): void {
  const { from } = view.state.doc.line(Math.min(Math.max(1, line), view.state.doc.lines));
  view.dispatch({ effects: EditorView.scrollIntoView(from, { y: 'start', yMargin: 0 }) });
}
