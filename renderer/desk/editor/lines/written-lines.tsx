/*
 * Lines of a session outside the editor, with the looks that their pieces have in it.
 */

import type { ReactElement, ReactNode } from 'react';
import { lineTokens, NOTHING_ABOVE, type Above } from '../../../../app/core/session/tokens/line-tokens.ts';
import { lookOf } from '../notation.ts';

/** As if they stood below a title: settings are settings, and all else is a line of a part. */
const BELOW_TITLE: Above = { ...NOTHING_ABOVE, hasTitle: true };

export function WrittenLines({ text }: { readonly text: string }): ReactElement {
  let above = BELOW_TITLE;
  const drawn: ReactNode[] = [];
  text.split('\n').forEach((line, index) => {
    const read = lineTokens(line, above);
    above = read.above;
    if (index > 0) drawn.push('\n');
    let at = 0;
    for (const { kind, from, to } of read.tokens) {
      if (from > at) drawn.push(line.slice(at, from));
      drawn.push(
        <span key={`${index} ${from}`} className={lookOf(kind)}>
          {line.slice(from, to)}
        </span>,
      );
      at = to;
    }
    drawn.push(line.slice(at));
  });
  return <span>{drawn}</span>;
}
