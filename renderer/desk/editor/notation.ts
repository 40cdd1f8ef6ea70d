/*
 * The colours of the notation: what each token is comes from the core, which reads sessions by the same rules. Only the
 * lines in sight are read, so that a long text costs a key no more than a short one.
 */

import { RangeSetBuilder, type Extension, type Text } from '@codemirror/state';
import { Decoration, ViewPlugin, type DecorationSet, type EditorView, type ViewUpdate } from '@codemirror/view';
import {
  lineTokens,
  NOTHING_ABOVE,
  type Above,
  type LineTokens,
} from '../../../app/core/session/tokens/line-tokens.ts';
import type { TokenKind } from '../../../app/core/session/tokens/token.ts';
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

/** So many lines are kept as they were read. */
const MOST_KEPT = 2000;

class Colours {
  drawn: DecorationSet;
  private readonly kept = new Map<string, LineTokens>();

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
      for (let above = this.aboveOf(doc, number); number <= last; number++) {
        const line = doc.line(number);
        const read = this.read(line.text, above);
        above = read.above;
        for (const token of read.tokens) {
          const look = DRAWN[token.kind];
          if (look) drawn.add(line.from + token.from, line.from + token.to, look);
        }
      }
    }
    return drawn.finish();
  }

  /** What the lines above one say of it: behind the header nothing more is said. */
  private aboveOf(doc: Text, number: number): Above {
    let above = NOTHING_ABOVE;
    for (let each = 1; each < number && above.inHeader; each++) above = this.read(doc.line(each).text, above).above;
    return above;
  }

  private read(line: string, above: Above): LineTokens {
    const { inHeader, hasTitle, pool } = above;
    const key = `${inHeader} ${hasTitle} ${pool.length} ${pool.unit} ${line}`;
    const known = this.kept.get(key);
    if (known) return known;
    if (this.kept.size >= MOST_KEPT) this.kept.clear();
    const read = lineTokens(line, above);
    this.kept.set(key, read);
    return read;
  }
}

export const notation: Extension = ViewPlugin.fromClass(Colours, { decorations: ({ drawn }) => drawn });
