/*
 * The colours of the notation: what each token is comes from the core, which reads sessions by the same rules.
 */

import { HighlightStyle, StreamLanguage, syntaxHighlighting } from '@codemirror/language';
import type { Extension } from '@codemirror/state';
import { Tag } from '@lezer/highlight';
import { lineTokens, NOTHING_ABOVE, type Above } from '../../../app/core/session/tokens/line-tokens.ts';
import type { Token, TokenKind } from '../../../app/core/session/tokens/token.ts';
import styles from './notation.module.css';

/** What looks alike: kinds that are not here are drawn as plain words. */
const LOOKS: { readonly [kind in TokenKind]?: { readonly tag: Tag; readonly class: string | undefined } } = {
  title: { tag: Tag.define(), class: styles.heading },
  heading: { tag: Tag.define(), class: styles.heading },
  count: { tag: Tag.define(), class: styles.number },
  distance: { tag: Tag.define(), class: styles.number },
  time: { tag: Tag.define(), class: styles.time },
  interval: { tag: Tag.define(), class: styles.time },
  rest: { tag: Tag.define(), class: styles.time },
  target: { tag: Tag.define(), class: styles.time },
  step: { tag: Tag.define(), class: styles.time },
  value: { tag: Tag.define(), class: styles.time },
  setting: { tag: Tag.define(), class: styles.word },
  keyword: { tag: Tag.define(), class: styles.word },
  lanes: { tag: Tag.define(), class: styles.word },
  note: { tag: Tag.define(), class: styles.word },
  kit: { tag: Tag.define(), class: styles.word },
  comment: { tag: Tag.define(), class: styles.comment },
};

/** The class of what looks so; none for plain words. */
export function lookOf(kind: TokenKind): string | undefined {
  return LOOKS[kind]?.class;
}

const TAGS: { [kind: string]: Tag } = {};
for (const [kind, { tag }] of Object.entries(LOOKS)) TAGS[kind] = tag;

interface State {
  above: Above;
  /** Of the line that is being read. */
  tokens: readonly Token[];
}

const language = StreamLanguage.define<State>({
  startState: () => ({ above: NOTHING_ABOVE, tokens: [] }),
  copyState: (state) => ({ ...state }),
  token(stream, state) {
    if (stream.sol()) {
      const read = lineTokens(stream.string, state.above);
      state.above = read.above;
      state.tokens = read.tokens;
    }
    const next = state.tokens.find(({ to }) => to > stream.pos);
    if (!next || next.from > stream.pos) {
      stream.pos = next?.from ?? stream.string.length;
      return null;
    }
    stream.pos = next.to;
    return next.kind in LOOKS ? next.kind : null;
  },
  tokenTable: TAGS,
});

const highlights = HighlightStyle.define(
  Object.values(LOOKS).map(({ tag, class: name = '' }) => ({ tag, class: name })),
);

export const notation: Extension = [language, syntaxHighlighting(highlights)];
