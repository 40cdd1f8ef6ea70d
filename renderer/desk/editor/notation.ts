/*
 * The colours of the notation: what each token is comes from the core, which reads sessions by the same rules. Only the
 * lines in sight are read, so that a long text costs a key no more than a short one.
 */

import { RangeSetBuilder, type Extension } from '@codemirror/state';
import { Decoration, ViewPlugin, type DecorationSet, type EditorView, type ViewUpdate } from '@codemirror/view';
import type { TokenKind } from '../../../app/core/session/tokens/token.ts';
import { aboveLine, readLine } from './lines/read-line.ts';
import styles from './notation.module.css';

/** What looks alike: kinds that are not here are drawn as plain words. */
const LOOKS: { readonly [kind in TokenKind]?: string | undefined } = {
  title: styles.heading,
  heading: styles.heading,
  count: styles.number,
  distance: styles.number,
  time: styles.time,
  interval: styles.time,
  rest: styles.time,
  target: styles.time,
  step: styles.time,
  value: styles.time,
  setting: styles.word,
  keyword: styles.word,
  lanes: styles.word,
  note: styles.word,
  kit: styles.word,
  comment: styles.comment,
};

/** The class of what looks so; none for plain words. */
export function lookOf(kind: TokenKind): string | undefined {
  return LOOKS[kind];
}

const DRAWN: { [kind: string]: Decoration } = {};
for (const [kind, name = ''] of Object.entries(LOOKS)) DRAWN[kind] = Decoration.mark({ class: name });

/** Behind it a list that is longer than a row goes on in the next. */
const SLASH = Decoration.mark({ class: styles.slash ?? '' });

class Colours {
  drawn: DecorationSet;

  constructor(view: EditorView) {
    this.drawn = this.draw(view);
  }

  update({ docChanged, viewportChanged, view }: ViewUpdate): void {
    if (docChanged || viewportChanged) this.drawn = this.draw(view);
  }

  private draw({ state: { doc }, visibleRanges }: EditorView): DecorationSet {
    const drawn = new RangeSetBuilder<Decoration>();
    for (const { from, to } of visibleRanges) {
      const last = doc.lineAt(to).number;
      let number = doc.lineAt(from).number;
      for (let above = aboveLine(doc, number); number <= last; number++) {
        const line = doc.line(number);
        const read = readLine(line.text, above);
        above = read.above;
        for (const token of read.tokens) {
          const [start, end] = [line.from + token.from, line.from + token.to];
          if (line.text[token.from - 1] === '/') drawn.add(start - 1, start, SLASH);
          const look = DRAWN[token.kind];
          if (look) drawn.add(start, end, look);
        }
      }
    }
    return drawn.finish();
  }
}

export const notation: Extension = ViewPlugin.fromClass(Colours, { decorations: ({ drawn }) => drawn });
