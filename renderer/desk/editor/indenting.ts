/*
 * Indents as the notation wants them: Enter behind rounds, or lanes alone on a line, begins a line below that stands
 * deeper, else one as deep as the line before, and on a line that is still empty goes back out. Tab and Shift+Tab indent
 * the line, or the lines chosen, more or less. Escape takes the keyboard out of the text, so that the next Tab leaves it.
 */

import { indentLess, indentMore } from '@codemirror/commands';
import type { EditorState } from '@codemirror/state';
import { keymap, type Command } from '@codemirror/view';
import { lanePrefixOf } from '../../../app/core/session/line/lane-prefix.ts';
import { readPartLine } from '../../../app/core/session/line/part-line.ts';
import { contentOf } from '../../../app/core/session/text/lines.ts';
import { isFlaw } from '../../../app/core/session/values/flaw.ts';
import { DEFAULT_POOL } from '../../../app/core/session/header.ts';

/** What stands under a line is so much deeper. */
const DEEPER = '  ';

/** What the editor says of its Tab to who cannot see the notation's reference. */
export const TAB_SAID = 'Tab indents the line; Escape, then Tab, goes on to the next control.';

const newLine: Command = (view) => {
  const { state } = view;
  if (state.readOnly) return false;
  const { from, to, empty } = state.selection.main;
  const line = state.doc.lineAt(from);
  const indent = indentOf(line.text);
  if (empty && indent !== '' && line.text.trim() === '') {
    const insert = outerIndent(state, line.number, indent);
    view.dispatch({
      changes: { from: line.from, to: line.to, insert },
      selection: { anchor: line.from + insert.length },
      userEvent: 'input.indent',
    });
    return true;
  }
  const before = line.text.slice(0, from - line.from);
  const insert = `\n${before.trim() === '' ? before : indent}${opensLines(before) ? DEEPER : ''}`;
  const behind = state.doc.lineAt(to);
  const spaces = indentOf(behind.text.slice(to - behind.from)).length;
  view.dispatch({
    changes: { from, to: to + spaces, insert },
    selection: { anchor: from + insert.length },
    scrollIntoView: true,
    userEvent: 'input',
  });
  return true;
};

export const indenting = keymap.of([
  { key: 'Enter', run: newLine },
  { key: 'Tab', run: indentMore, shift: indentLess },
]);

/** Whether what stands deeper below belongs to it: rounds, or lanes alone. */
function opensLines(raw: string): boolean {
  const text = contentOf(raw).trim();
  if (text === '') return false;
  const read = readPartLine(text, lanePrefixOf(text), DEFAULT_POOL);
  return !isFlaw(read) && (read.kind === 'rounds' || read.kind === 'lanes');
}

function indentOf(raw: string): string {
  return /^[ \t]*/.exec(raw)![0];
}

/** Of the nearest line above that stands less deep; '' where there is none. */
function outerIndent({ doc }: EditorState, number: number, indent: string): string {
  for (let above = number - 1; above > 0; above--) {
    const { text } = doc.line(above);
    if (text.trim() !== '' && indentOf(text).length < indent.length) return indentOf(text);
  }
  return '';
}
