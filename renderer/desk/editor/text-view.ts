/*
 * The editor behind a session's text: CodeMirror with what every text here has. Its style sheet comes under the nonce
 * that the host put into the page. Escape gives the keyboard back (ui/coach/free-keyboard.ts): Tab is the text's own until
 * then.
 */

import { closeCompletion } from '@codemirror/autocomplete';
import {
  defaultKeymap,
  history,
  historyKeymap,
  invertedEffects,
  isolateHistory,
  redo,
  undo,
} from '@codemirror/commands';
import {
  Annotation,
  Compartment,
  EditorState,
  StateEffect,
  StateField,
  Transaction,
  type Extension,
} from '@codemirror/state';
import { EditorView, keymap, lineNumbers, placeholder, tooltips, type KeyBinding } from '@codemirror/view';
import { indenting } from './indenting.ts';
import { wordsAt } from './faults/fault-place.ts';

/** The editor of a text, for `putCursor`. */
export type TextView = EditorView;

/** What an editor was when its page was left: its text and all that can be undone. */
export type KeptText = EditorState;

export interface TextViewGiven {
  readonly parent: HTMLElement;
  readonly text: string;
  /** Which text it is, where others may take its place: an undo across such a change tells the number too. */
  readonly sheet: number;
  /** Its undos are still there. */
  readonly kept: KeptText | null;
  readonly placeholder: string | undefined;
  readonly extensions: Extension;
  /** Whether what the coach does may make this of the text. */
  accepts(text: string): boolean;
  /** Whether what the coach does begins another text: its number; null for no. */
  begins(before: string, after: string): number | null;
  onChange(text: string, sheet: number): void;
  /** Whatever was changed in it. */
  onUpdate(state: EditorState): void;
}

/** Another text is in the editor: its number. */
export const changeSheet = StateEffect.define<number>();

const sheetField = StateField.define<number>({
  create: () => 0,
  update: (before, { effects }) => effects.reduce((sheet, each) => (each.is(changeSheet) ? each.value : sheet), before),
});

const undoesSheet = invertedEffects.of(({ effects, startState }) =>
  effects.some((each) => each.is(changeSheet)) ? [changeSheet.of(startState.field(sheetField))] : [],
);

/** A letter or two more or less is never another text. */
const LETTERS = 2;

function beginsSheet(begins: TextViewGiven['begins']): Extension {
  return EditorState.transactionExtender.of((transaction) => {
    const { startState, newDoc } = transaction;
    const isOwn = transaction.isUserEvent('input') || transaction.isUserEvent('delete');
    if (!isOwn || transaction.annotation(fromOutside) || Math.abs(newDoc.length - startState.doc.length) <= LETTERS)
      return null;
    const sheet = begins(startState.doc.toString(), newDoc.toString());
    return sheet === null ? null : { effects: changeSheet.of(sheet) };
  });
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

/** A dropped file is a session of its own, which the page opens: the editor would write it into this one. */
const droppedFiles = EditorView.domEventHandlers({
  drop: ({ dataTransfer }) => (dataTransfer?.files.length ?? 0) > 0,
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

/** Where what lies over the text may lie: in the window, less the page's margin at its sides. */
function insideMargin(): {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
} {
  const { documentElement: page } = document;
  const margin = parseFloat(getComputedStyle(page).getPropertyValue('--space-8')) || 0;
  return { left: margin, right: page.clientWidth - margin, top: 0, bottom: page.clientHeight };
}

export function createTextView(given: TextViewGiven): TextView {
  const nonce = document.querySelector<HTMLMetaElement>('meta[name="style-nonce"]')?.nonce;
  return new EditorView({
    parent: given.parent,
    state:
      given.kept ??
      EditorState.create({
        doc: given.text,
        extensions: [
          sheetField.init(() => given.sheet),
          undoesSheet,
          lastPart,
          beginsSheet(given.begins),
          droppedFiles,
          nonce ? EditorView.cspNonce.of(nonce) : [],
          EditorState.tabSize.of(4),
          lineNumbers(),
          tooltips({ tooltipSpace: insideMargin }),
          history(),
          EditorView.lineWrapping,
          typedOver,
          given.placeholder === undefined ? [] : placeholder(given.placeholder),
          given.extensions,
          indenting,
          keymap.of(KEYS),
          dressing.of([]),
        ],
      }),
    dispatchTransactions(transactions, view) {
      const last = transactions[transactions.length - 1];
      const changed = transactions.some(
        ({ docChanged, effects }) => docChanged || effects.some((each) => each.is(changeSheet)),
      );
      const own = changed && !transactions.some((each) => each.annotation(fromOutside));
      const text = own && last ? last.newDoc.toString() : null;
      // Undo comes by no filter of CodeMirror's: here everything comes by.
      if (text !== null && !given.accepts(text)) return;
      view.update(transactions);
      if (text !== null) given.onChange(text, view.state.field(sheetField));
      given.onUpdate(view.state);
    },
  });
}

/** What a page that is only hidden has of its editor besides: how far it was scrolled, and whether it had the keyboard. */
export interface HiddenText {
  readonly state: KeptText;
  readonly scrolled: ReturnType<EditorView['scrollSnapshot']>;
  readonly hadKeyboard: boolean;
}

export function hideText(view: TextView): HiddenText {
  return { state: view.state, scrolled: view.scrollSnapshot(), hadKeyboard: view.hasFocus };
}

/** In an editor that was made of what was kept. */
export function showHidden(view: TextView, { scrolled, hadKeyboard }: HiddenText): void {
  view.dispatch({ effects: scrolled });
  if (hadKeyboard) view.focus();
}

/** What the editor says of itself to assistive technology. */
export function describe(view: TextView, attributes: Readonly<Record<string, string>>): void {
  view.dispatch({ effects: dressing.reconfigure(EditorView.contentAttributes.of(attributes)) });
}

/** Here every line ends with a line feed, whatever the file has. */
export const withOwnEnds = (text: string): string => text.replace(/\r\n?/g, '\n');

/** Whether that stands in it, whatever its lines end with. */
export function hasText(view: TextView, text: string): boolean {
  return view.state.doc.toString() === withOwnEnds(text);
}

/** What the text was last put there as a part of, until it is changed otherwise. */
const putAsPart = StateEffect.define<string>();

const lastPart = StateField.define<string | null>({
  create: () => null,
  update(before, { docChanged, effects }) {
    const put = effects.find((each) => each.is(putAsPart));
    return put ? (put.value as string) : docChanged ? null : before;
  },
});

/**
 * Puts another text in place of what is there: only what differs is replaced, and undo brings it back. What is put in as a
 * part of the same thing as before (one typing in a field) is one step with it.
 */
export function putText(view: TextView, given: string, sheet: number, part: string | null = null): void {
  const before = view.state.doc.toString();
  const text = withOwnEnds(given);
  const isOther = sheet !== view.state.field(sheetField);
  if (before === text && !isOther) return;
  const most = Math.min(before.length, text.length);
  let from = 0;
  while (from < most && before.charCodeAt(from) === text.charCodeAt(from)) from++;
  let same = 0;
  while (same < most - from && before.charCodeAt(before.length - 1 - same) === text.charCodeAt(text.length - 1 - same))
    same++;
  view.dispatch({
    changes: { from, to: before.length - same, insert: text.slice(from, text.length - same) },
    effects: [
      ...(isOther ? [changeSheet.of(sheet), EditorView.scrollIntoView(0)] : []),
      ...(part === null ? [] : [putAsPart.of(part)]),
    ],
    annotations: [fromOutside.of(true), Transaction.addToHistory.of(true), ...stepOf(view, part)],
  });
  // Nobody types here.
  closeCompletion(view);
}

/** Of its own, or of the step before: the history joins what it takes for the composing of one word. */
function stepOf(view: TextView, part: string | null): readonly Annotation<unknown>[] {
  const goesOn = part !== null && view.state.field(lastPart) === part;
  return [goesOn ? Transaction.userEvent.of('input.type.compose') : isolateHistory.of('full')];
}

/** Takes the last change back, the putting of another text too. */
export function undoIn(view: TextView | null): void {
  if (view) undo(view);
}

export function redoIn(view: TextView | null): void {
  if (view) redo(view);
}

/** The lines that are chosen in it; where none is, the line (from 1) that the cursor is on. */
export function chosenLines(view: TextView): {
  readonly from: number;
  readonly to: number;
  readonly isCursor: boolean;
} {
  const { doc, selection } = view.state;
  const { from, to, empty } = selection.main;
  return { from: doc.lineAt(from).number, to: doc.lineAt(to).number, isCursor: empty };
}

/**
 * Chooses the words at a line and column (both from 1; a tab counts as 4 columns), as a fault names them, so that what is
 * typed takes their place alone; the whole line without a column. Does nothing where the text has no such line.
 */
export function putCursor(view: TextView | null, line: number, column?: number): void {
  if (!view || line > view.state.doc.lines) return;
  const { from, to, text } = view.state.doc.line(line);
  const words = column === undefined ? { from: 0, to: to - from } : wordsAt(text, column);
  const anchor = from + words.from;
  view.dispatch({
    selection: { anchor, head: from + words.to },
    effects: EditorView.scrollIntoView(anchor, { y: 'start', yMargin: 3 * view.defaultLineHeight }),
  });
  view.focus();
}

/** Gives the keyboard to the text, at the start of a line (from 1), and does not scroll. */
export function giveKeyboard(view: TextView | null, line: number): void {
  if (!view) return;
  const { doc } = view.state;
  view.dispatch({ selection: { anchor: doc.line(Math.min(line, doc.lines)).from } });
  view.focus();
}

/** Scrolls so that a line (from 1) is the first in sight. */
export function showFrom(view: TextView, line: number): void {
  const { from } = view.state.doc.line(Math.min(Math.max(1, line), view.state.doc.lines));
  view.dispatch({ effects: EditorView.scrollIntoView(from, { y: 'start', yMargin: 0 }) });
}
