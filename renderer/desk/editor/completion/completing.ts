/*
 * Offers what could come next, once typing has paused. Enter makes a new line unless one was chosen with the arrows; Tab
 * takes the chosen one, or the first, while the list is open, and goes on to the next control otherwise. Ctrl+Space asks.
 */

import {
  acceptCompletion,
  autocompletion,
  closeCompletion,
  completionStatus,
  moveCompletionSelection,
  selectedCompletionIndex,
  setSelectedCompletion,
  startCompletion,
  type CompletionContext,
  type CompletionResult,
} from '@codemirror/autocomplete';
import { EditorState, Prec, type Extension, type Text } from '@codemirror/state';
import { keymap, type Command } from '@codemirror/view';
import { NOTHING_ABOVE } from '../../../../app/core/session/tokens/line-tokens.ts';
import { aboveLine, readLine } from '../lines/read-line.ts';
import { KnownWords } from './known-words.ts';
import { MOST_OFFERED, offeredAt, type Known } from './offered-words.ts';

/** In ms: longer than from key to key while one types a line that one knows. */
const PAUSE = 300;

/** Around the cursor; more would cost more than it tells. */
const LINES_READ = 300;

/** What earlier sessions and squads say. */
export type KnownBefore = () => KnownWords;

export const NOTHING_KNOWN = new KnownWords();

export function completing(before: KnownBefore = () => NOTHING_KNOWN): Extension {
  const source = (context: CompletionContext): CompletionResult | null => {
    const { doc } = context.state;
    const known = knownIn(doc, doc.lineAt(context.pos).number, before());
    return resultAt(context, known);
  };
  return [
    autocompletion({
      override: [source],
      selectOnOpen: false,
      defaultKeymap: false,
      icons: false,
      activateOnTypingDelay: PAUSE,
      maxRenderedOptions: MOST_OFFERED,
    }),
    EditorState.phrases.of({ Completions: 'What could come next' }),
    Prec.highest(
      keymap.of([
        { key: 'ArrowDown', run: moveCompletionSelection(true) },
        { key: 'ArrowUp', run: moveCompletionSelection(false) },
        { key: 'Enter', run: acceptCompletion },
        { key: 'Tab', run: takeChosenOrFirst },
        { key: 'Escape', run: closeCompletion },
        { key: 'Ctrl-Space', run: startCompletion },
      ]),
    ),
  ];
}

/** Goes on with the same words as long as the list is open: no key waits until they are gathered again. */
function resultAt(context: CompletionContext, known: Known): CompletionResult | null {
  const { state, pos, explicit } = context;
  const line = state.doc.lineAt(pos);
  const [typed, behind] = [line.text.slice(0, pos - line.from), line.text.slice(pos - line.from)];
  // In the midst of a word or a value there is nothing to go on with.
  if (/^[\p{L}\d:.]/u.test(behind)) return null;
  const offered = offeredAt(typed, aboveLine(state.doc, line.number), known, explicit);
  if (!offered) return null;
  return {
    from: line.from + offered.from,
    options: offered.texts.map((label) => ({ label, displayLabel: breakable(label) })),
    filter: false,
    update: (_, __, ___, later) => resultAt(later, known),
  };
}

/** What a lane has each, of ten lanes wider than a phone, may go on in a row below behind any slash. */
function breakable(text: string): string {
  return text.replaceAll('/', '/\u200b');
}

const takeChosenOrFirst: Command = (view) => {
  if (completionStatus(view.state) !== 'active') return false;
  if (selectedCompletionIndex(view.state) === null) view.dispatch({ effects: setSelectedCompletion(0) });
  return acceptCompletion(view);
};

function knownIn(doc: Text, around: number, kept: KnownWords): Known {
  const own = new KnownWords();
  const lines: string[] = [];
  const last = Math.min(doc.lines, around + LINES_READ / 2);
  for (let number = Math.max(1, around - LINES_READ / 2); number <= last; number++) {
    if (number !== around) lines.push(doc.line(number).text);
  }
  own.read(lines);
  const squad = lanesIn(doc);
  return { own, kept, lanes: Math.max(1, squad.length), hasCss: squad.some((line) => /\bcss\b/i.test(line)) };
}

/** The lines of lanes above the first part. */
function lanesIn(doc: Text): readonly string[] {
  const lanes: string[] = [];
  let above = NOTHING_ABOVE;
  for (let number = 1; number <= doc.lines && above.inHeader; number++) {
    const { text } = doc.line(number);
    above = readLine(text, above).above;
    if (above.inHeader && /^\s*lane\s+\d/i.test(text)) lanes.push(text);
  }
  return lanes;
}
