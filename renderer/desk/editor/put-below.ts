/*
 * Lines of another session or of the notation, put into a text.
 */

import { isolateHistory } from '@codemirror/commands';
import type { Text } from '@codemirror/state';
import { lineTokens, NOTHING_ABOVE, type Above } from '../../../app/core/session/tokens/line-tokens.ts';
import { withOwnEnds, type TextView } from './text-view.ts';

const IN_PART: Above = { ...NOTHING_ABOVE, hasTitle: true, inHeader: false };

/**
 * Puts lines in below a line (from 1), or in its place where that has nothing on it; 0: above all. A part gets an empty line
 * above it, and below it where more follows. Returns the first one's line.
 */
export function putBelow(view: TextView, number: number, text: string): number {
  if (number === 0) {
    const insert = `${text}\n`;
    view.dispatch({ changes: { from: 0, insert }, annotations: isolateHistory.of('full') });
    return 1;
  }
  const { doc } = view.state;
  const line = doc.line(Math.min(number, doc.lines));
  const isBlank = isBlankLine(doc, line.number);
  const from = isBlank ? line.from : line.to;
  const lines = withOwnEnds(text).replace(/\n+$/, '');
  const isPart = lineTokens(lines.split('\n')[0]!, IN_PART).tokens[0]?.kind === 'heading';
  const above = isBlank ? line.number - 1 : line.number;
  const before = (isBlank ? '' : '\n') + (isPart && !isBlankLine(doc, above) ? '\n' : '');
  const after = isPart && !isBlankLine(doc, line.number + 1) ? '\n' : '';
  view.dispatch({
    changes: { from, to: line.to, insert: before + lines + after },
    selection: { anchor: from + before.length + lines.length },
    scrollIntoView: true,
    userEvent: 'input.paste',
    annotations: isolateHistory.of('full'),
  });
  return line.number + before.length;
}

/** Beyond the text's ends too. */
function isBlankLine(doc: Text, number: number): boolean {
  return number < 1 || number > doc.lines || doc.line(number).text.trim() === '';
}
