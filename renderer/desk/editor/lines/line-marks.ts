/*
 * What is said of lines in the text itself: the words that cause a fault are underlined, and below the line stands
 * what would be right, or a warning. The marks go along with the text until it has been read again. The fault of the line
 * that is being written waits until it is left.
 */

import { RangeSet, StateEffect, StateField, type EditorState, type Extension, type Range } from '@codemirror/state';
import {
  Decoration,
  EditorView,
  GutterMarker,
  WidgetType,
  gutterLineClass,
  keymap,
  type Command,
  type DecorationSet,
} from '@codemirror/view';
import type { Fault } from '../../../../app/core/result.ts';
import type { WarningGroup } from '../../timetable/warning-groups.ts';
import { offeredMends, type OfferedMend } from '../faults/fault-mends.ts';
import { FAULTS_SHOWN, wordsAt } from '../faults/fault-place.ts';
import { lineInHand, writingLine } from './line-in-hand.ts';
import { changeSheet } from '../text-view.ts';
import styles from '../session-editor.module.css';

export interface LineMarks {
  readonly faults: readonly Fault[];
  readonly warnings: readonly WarningGroup[];
}

/** Of the text as it is when this comes. */
export const markLines = StateEffect.define<LineMarks>();

interface Marks {
  readonly drawn: DecorationSet;
  readonly numbers: RangeSet<GutterMarker>;
  /** In order of their places. */
  readonly mends: readonly PlacedMend[];
  /** What they were drawn from; null once the text is another. */
  readonly of: LineMarks | null;
  /** The line that is being written, where it has a fault that waits; else null. */
  readonly unfinished: number | null;
}

/** In the whole text. */
interface PlacedMend {
  readonly from: number;
  readonly to: number;
  readonly insert: string;
}

class FaultyNumber extends GutterMarker {
  override readonly elementClass = styles.isFaulty ?? '';
}

const faultyNumber = new FaultyNumber();
const underline = Decoration.mark({ tagName: 'u' });

const NO_MARKS: Marks = { drawn: Decoration.none, numbers: RangeSet.empty, mends: [], of: null, unfinished: null };

const field = StateField.define<Marks>({
  create: () => NO_MARKS,
  update(before, { changes, effects, state }) {
    for (const effect of effects) if (effect.is(markLines)) return marksIn(state, effect.value);
    if (effects.some((effect) => effect.is(changeSheet))) return NO_MARKS;
    if (changes.empty) {
      const isLeft = before.unfinished !== null && before.unfinished !== lineInHand(state);
      return isLeft && before.of ? marksIn(state, before.of) : before;
    }
    const { drawn, numbers, mends } = before;
    const still = mends.filter(({ from, to }) => !changes.touchesRange(from, to));
    const moved = still.map(({ from, to, insert }) => ({ from: changes.mapPos(from), to: changes.mapPos(to), insert }));
    return { ...before, drawn: drawn.map(changes), numbers: numbers.map(changes), mends: moved, of: null };
  },
  provide: (own) => [
    EditorView.decorations.from(own, ({ drawn }) => drawn),
    gutterLineClass.from(own, ({ numbers }) => numbers),
  ],
});

/** The line whose fault waits because it is being written; null for none. */
export function unfinishedLine(state: EditorState): number | null {
  return state.field(field).unfinished;
}

/** The mend of the line with the cursor, else of the next that has one. */
const mendHere: Command = (view) => {
  const { state } = view;
  const { mends } = state.field(field);
  const line = state.doc.lineAt(state.selection.main.head);
  return make(view, mends.find(({ from }) => from >= line.from) ?? mends[0]);
};

/** The mend of a line (from 1). */
export function mendLine(view: EditorView | null, line: number): void {
  if (!view || line > view.state.doc.lines) return;
  const { from, to } = view.state.doc.line(line);
  const { mends } = view.state.field(field);
  make(
    view,
    mends.find((mend) => mend.from >= from && mend.to <= to),
  );
}

function make(view: EditorView, mend: PlacedMend | undefined): boolean {
  if (!mend) return false;
  const { from, to, insert } = mend;
  const selection = { anchor: from + insert.length };
  view.dispatch({ changes: { from, to, insert }, selection, scrollIntoView: true, userEvent: 'input.mend' });
  return true;
}

export const lineMarks: Extension = [writingLine, field, keymap.of([{ key: 'Ctrl-.', run: mendHere }])];

function marksIn(state: EditorState, of: LineMarks): Marks {
  const { doc } = state;
  const inHand = lineInHand(state);
  const faults = of.faults.filter(({ line }) => line !== inHand);
  const drawn: Range<Decoration>[] = [];
  const numbers: Range<GutterMarker>[] = [];
  const offered = new Map<number, OfferedMend>();
  if (of.faults.length > 0) for (const mend of offeredMends(doc.toString(), of.faults)) offered.set(mend.line, mend);
  for (const { line: number, column } of faults.slice(0, FAULTS_SHOWN)) {
    if (number > doc.lines) continue;
    const line = doc.line(number);
    const { from, to } = wordsAt(line.text, column);
    numbers.push(faultyNumber.range(line.from));
    // Where something is missing at the end there is nothing to underline but room for it.
    if (from < to) drawn.push(underline.range(line.from + from, line.from + to));
    else drawn.push(Decoration.widget({ widget: new Missing(), side: 1 }).range(line.from + from));
  }
  for (const [number, { kind, words }] of notesOf(faults, of.warnings)) {
    if (number > doc.lines) continue;
    const line = doc.line(number);
    const widget = new Note(kind, words, offered.get(number)?.name ?? null);
    drawn.push(Decoration.widget({ widget, block: true, side: 2 }).range(line.to));
  }
  const mends = [...offered.values()].map(({ line, from, to, by }): PlacedMend => {
    const start = doc.line(line).from;
    return { from: start + from, to: start + to, insert: by };
  });
  const unfinished = faults.length < of.faults.length ? inHand : null;
  return { drawn: Decoration.set(drawn, true), numbers: RangeSet.of(numbers, true), mends, of, unfinished };
}

interface NoteWords {
  readonly kind: 'fault' | 'warning';
  readonly words: string;
}

/** One a line: its fault, or its warnings. */
function notesOf(faults: readonly Fault[], warnings: readonly WarningGroup[]): ReadonlyMap<number, NoteWords> {
  const notes = new Map<number, NoteWords>();
  for (const { line, short } of warnings) {
    const known = notes.get(line);
    notes.set(line, { kind: 'warning', words: known ? `${known.words}; ${short}` : short });
  }
  for (const { line, message } of faults.slice(0, FAULTS_SHOWN)) notes.set(line, { kind: 'fault', words: message });
  return notes;
}

/** Room for what is missing. */
class Missing extends WidgetType {
  override eq(): boolean {
    return true;
  }

  override toDOM(): HTMLElement {
    const room = document.createElement('u');
    room.textContent = '\u00a0\u00a0';
    return room;
  }
}

class Note extends WidgetType {
  private readonly kind: NoteWords['kind'];
  private readonly words: string;
  /** What its mend does; null without one. */
  private readonly mend: string | null;

  constructor(kind: NoteWords['kind'], words: string, mend: string | null) {
    super();
    this.kind = kind;
    this.words = words;
    this.mend = mend;
  }

  override eq(other: Note): boolean {
    return other.kind === this.kind && other.words === this.words && other.mend === this.mend;
  }

  override toDOM(view: EditorView): HTMLElement {
    const note = document.createElement('div');
    note.className = styles.note ?? '';
    // It is said in full beside the text, for who hears it rather than sees it.
    note.setAttribute('aria-hidden', 'true');
    const said = document.createElement('p');
    said.dataset['kind'] = this.kind;
    said.textContent = this.words;
    if (this.mend !== null) {
      const mend = document.createElement('b');
      mend.className = styles.mend ?? '';
      const key = document.createElement('span');
      key.textContent = ' (Ctrl+.)';
      mend.append(this.mend, key);
      // For the pointer alone: it has its button in the list.
      mend.addEventListener('click', () => mendLine(view, view.state.doc.lineAt(view.posAtDOM(note)).number));
      said.append(' ', mend);
    }
    note.append(said);
    return note;
  }
}
