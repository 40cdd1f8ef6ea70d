/*
 * The words in the head: the part, the set as written, its round if all lanes are in the same one, and what comes next.
 */

import type { RunView } from '../../../app/core/run/view.ts';
import type { Round } from '../../../app/core/plan/plan.ts';
import { firstSet, swumNow, type SwumNow } from '../../ui/current-set.ts';
import { notesNow } from '../../ui/notes-now.ts';
import { itemIndexOf, setOnLine } from '../../../app/core/session/item-on-line.ts';
import { capital } from '../../../app/core/words/phrase.ts';
import { besideWords, itemWords, itemWordsFrom, type Cuts } from '../../../app/core/words/set.ts';
import { pauseText } from '../../../app/core/words/stretch.ts';

export interface HeadText {
  readonly part: string;
  readonly set: string;
  readonly then: string;
  /** null if lanes are in different rounds, or in none. */
  readonly rounds: readonly Round[] | null;
}

export function headText(view: RunView): HeadText {
  const text = setText(view);
  const { kit, note } = notesNow(view);
  // Of which part: without it the kit and what comes next read as one after the other.
  const kitOf = view.stretch.part === '' ? 'Kit' : `Kit for ${view.stretch.part}`;
  const said = [kit === '' ? '' : `${kitOf}: ${kit}`, note === '' ? '' : `Note: ${note}`].filter(
    (words) => words !== '',
  );
  return { ...text, then: [...said, text.then].filter((words) => words !== '').join('. ') };
}

function setText(view: RunView): HeadText {
  const { stretch, phase } = view;
  const now = swumNow(view);
  const { part } = stretch;
  if (stretch.kind !== 'swim')
    return { part, set: capital(pauseText(stretch)), then: thenAfterPause(view, now), rounds: null };
  const { cuts } = view;
  const set = now ? besideWords(now.items, cuts) : '';
  return {
    part,
    set: phase === 'waiting' ? `Next: ${now ? nextWords(view, now) : ''}` : set,
    then: thenText(now, cuts),
    rounds: now && now.rounds.length > 0 ? now.rounds : null,
  };
}

/** What waits, of rounds that are gone on with what is left: "round 2 of 2: 4 x 25 fast". */
function nextWords({ lanes, cuts }: RunView, { items }: SwumNow): string {
  const begins = firstSet(lanes.map(({ next }) => next?.rep.set));
  const from = { line: begins?.line ?? 0, round: begins?.rounds[0]?.round ?? 1 };
  return items.map((item) => itemWordsFrom(item, cuts, from)).join('; ');
}

/** What comes next, with its part's name if that is a new one. */
function thenText(now: SwumNow | null, cuts: Cuts): string {
  if (!now) return '';
  if (!now.after) return 'The last of the session';
  const { part, items } = now.after;
  return `Then ${part === now.part ? '' : `${part.name}: `}${besideWords(items, cuts)}`;
}

/** After a talk or break inside rounds, the next set of those rounds comes next, not what follows them. */
function thenAfterPause({ following, stretch, cuts }: RunView, now: SwumNow | null): string {
  if (!now || !following || following.kind !== 'swim' || following.partIndex !== stretch.partIndex)
    return thenText(now, cuts);
  const line = following.lanes.map(({ reps }) => reps[0]).find((rep) => rep !== undefined)?.set.line ?? 0;
  const set = now.items.includes(now.part.items[itemIndexOf(now.part, line)]!) ? setOnLine(now.part, line) : null;
  return set ? `Then ${itemWords(set, cuts)}` : thenText(now, cuts);
}
