/*
 * What is said of lines in the text itself: the words that cause a fault are underlined, and below the line stands
 * what would be right, or a warning. The marks go along with the text until it has been read again.
 */

import { RangeSet, StateEffect, StateField, type Extension, type Range, type Text } from '@codemirror/state';
import {
  Decoration,
  EditorView,
  GutterMarker,
  WidgetType,
  gutterLineClass,
  type DecorationSet,
} from '@codemirror/view';
import type { Fault } from '../../../app/core/result.ts';
import type { WarningGroup } from '../timetable/warning-groups.ts';
import { FAULTS_SHOWN, wordsAt } from './fault-place.ts';
import styles from './session-editor.module.css';

export interface LineMarks {
  readonly faults: readonly Fault[];
  readonly warnings: readonly WarningGroup[];
}

/** Of the text as it is when this comes. */
export const markLines = StateEffect.define<LineMarks>();

interface Marks {
  readonly drawn: DecorationSet;
  readonly numbers: RangeSet<GutterMarker>;
}

class FaultyNumber extends GutterMarker {
  override readonly elementClass = styles.isFaulty ?? '';
}

const faultyNumber = new FaultyNumber();
const underline = Decoration.mark({ tagName: 'u' });

const field = StateField.define<Marks>({
  create: () => ({ drawn: Decoration.none, numbers: RangeSet.empty }),
  update({ drawn, numbers }, { changes, effects, state }) {
    for (const effect of effects) if (effect.is(markLines)) return marksIn(state.doc, effect.value);
    return { drawn: drawn.map(changes), numbers: numbers.map(changes) };
  },
  provide: (own) => [
    EditorView.decorations.from(own, ({ drawn }) => drawn),
    gutterLineClass.from(own, ({ numbers }) => numbers),
  ],
});

export const lineMarks: Extension = field;

function marksIn(doc: Text, { faults, warnings }: LineMarks): Marks {
  const drawn: Range<Decoration>[] = [];
  const numbers: Range<GutterMarker>[] = [];
  for (const { line: number, column } of faults.slice(0, FAULTS_SHOWN)) {
    if (number > doc.lines) continue;
    const line = doc.line(number);
    const { from, to } = wordsAt(line.text, column);
    numbers.push(faultyNumber.range(line.from));
    // Where something is missing at the end there is nothing to underline but room for it.
    if (from < to) drawn.push(underline.range(line.from + from, line.from + to));
    else drawn.push(Decoration.widget({ widget: new Missing(), side: 1 }).range(line.from + from));
  }
  for (const [number, { kind, words }] of notesOf(faults, warnings)) {
    if (number > doc.lines) continue;
    const widget = new Note(kind, words);
    drawn.push(Decoration.widget({ widget, block: true, side: 2 }).range(doc.line(number).to));
  }
  return { drawn: Decoration.set(drawn, true), numbers: RangeSet.of(numbers, true) };
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

  constructor(kind: NoteWords['kind'], words: string) {
    super();
    this.kind = kind;
    this.words = words;
  }

  override eq(other: Note): boolean {
    return other.kind === this.kind && other.words === this.words;
  }

  override toDOM(): HTMLElement {
    const note = document.createElement('div');
    note.className = styles.note ?? '';
    note.dataset['kind'] = this.kind;
    // It is said in full beside the text, for who hears it rather than sees it.
    note.setAttribute('aria-hidden', 'true');
    note.textContent = this.words;
    return note;
  }
}
