/*
 * What a set means in each lane, at a place where the pointer rests, or by F2 (and a button, for fingers) where the cursor
 * is. Any other key, and Escape, closes it.
 */

import { StateEffect, StateField, type Extension } from '@codemirror/state';
import {
  closeHoverTooltips,
  EditorView,
  hoverTooltip,
  keymap,
  showTooltip,
  type Command,
  type Rect,
  type Tooltip,
} from '@codemirror/view';
import type { LineMeaning } from '../../timetable/line-meaning.ts';
import { meaningText, meaningTable } from './meaning-table.ts';

export type Explain = (line: number) => Promise<LineMeaning | null>;

/** In ms: a pointer that only passes opens nothing. */
const RESTS = 500;

interface Shown {
  readonly pos: number;
  readonly meaning: LineMeaning;
}

const show = StateEffect.define<Shown | null>();

const shown = StateField.define<Shown | null>({
  create: () => null,
  update(before, { docChanged, selection, effects }) {
    const put = effects.find((each) => each.is(show));
    if (put) return put.value as Shown | null;
    return docChanged || selection ? null : before;
  },
  provide: (own) => showTooltip.from(own, (at) => at && tooltip(at)),
});

/** `onNothing`: there is nothing to explain where the coach asks. */
export function setMeaning(explain: Explain, onNothing: () => void): Extension {
  return [
    shown,
    hoverTooltip(
      async (view, pos) => {
        if (view.state.field(shown)) return null;
        const { number, from, to } = view.state.doc.lineAt(pos);
        const meaning = await explain(number);
        return meaning && { ...tooltip({ pos: from, meaning }), end: to };
      },
      { hoverTime: RESTS },
    ),
    keymap.of([
      { key: 'F2', run: toggle(explain, onNothing) },
      { key: 'Escape', run: close },
    ]),
  ];
}

/** Shows what the line with the cursor means, or hides it; resolves to whether there is anything to explain. */
export async function explainHere(view: EditorView | null, explain: Explain): Promise<boolean> {
  if (!view) return true;
  const before = view.state.field(shown);
  if (before) {
    view.dispatch({ effects: show.of(null) });
    return true;
  }
  const { doc, selection } = view.state;
  const { number, from } = doc.lineAt(selection.main.head);
  const meaning = await explain(number);
  if (view.state.doc !== doc) return true;
  if (!meaning) return false;
  view.dispatch({
    effects: [show.of({ pos: from, meaning }), closeHoverTooltips, EditorView.announce.of(meaningText(meaning))],
    selection: view.state.selection,
    scrollIntoView: true,
  });
  return true;
}

function toggle(explain: Explain, onNothing: () => void): Command {
  return (view) => {
    void explainHere(view, explain).then((isThere) => (isThere ? undefined : onNothing()));
    return true;
  };
}

const close: Command = (view) => {
  if (!view.state.field(shown)) return false;
  view.dispatch({ effects: show.of(null) });
  return true;
};

function tooltip({ pos, meaning }: Shown): Tooltip {
  return {
    pos,
    above: true,
    create: (view) => ({ dom: meaningTable(meaning), getCoords: (at) => wholeLine(view, at) }),
  };
}

/** All rows that a line is wrapped into: where there is no room above it, the table stands below the last. */
function wholeLine(view: EditorView, at: number): Rect {
  const { from, to } = view.state.doc.lineAt(at);
  const first = view.coordsAtPos(from, 1);
  const last = view.coordsAtPos(to, -1);
  return { left: first?.left ?? 0, right: first?.right ?? 0, top: first?.top ?? 0, bottom: last?.bottom ?? 0 };
}
