/*
 * What stands large in place of the strips while nobody swims.
 */

import type { RunView } from '../../../app/core/run/view.ts';
import type { Stretch, PlannedSet } from '../../../app/core/plan/plan.ts';
import type { Part } from '../../../app/core/session/session.ts';
import { itemIndexOf } from '../../../app/core/session/item-on-line.ts';
import type { Millis } from '../../../app/core/units.ts';
import { capital } from '../../../app/core/words/phrase.ts';
import { readingLeft } from '../../../app/core/words/time/reading.ts';
import { besideWords, itemWords, itemWordsFrom } from '../../../app/core/words/set.ts';
import { kindText } from '../../../app/core/words/stretch.ts';
import { clockTime } from '../../../app/core/words/time/time-of-day.ts';
import { notesAt, notesNow } from '../../ui/notes-now.ts';
import { firstSet, swumNow } from '../../ui/current-set.ts';
import { cutsNow } from '../head/cuts-now.ts';

export interface Callout {
  readonly title: string;
  readonly lines: readonly string[];
  /** The set that the lines begin with: it need not be said again. Empty for none. */
  readonly first: string;
  /** Stands over the lanes' own shares of it; empty where no lane has one. */
  readonly lanes: string;
  /** Time left of a talk or break; empty for all else. */
  readonly left: string;
  /** Whether it stands on a hatched plate, as a lane that is stopped does. */
  readonly plate: boolean;
}

/** While the coach's word is waited for. */
export function nextFace(view: RunView): Callout {
  const { part, kind } = view.stretch;
  const { kit } = notesNow(view);
  const lines = wordsFrom(view, view.stretch, firstPlace(view));
  return {
    title: `Next: ${part}`,
    lines: [...kitLine(kit), ...lines],
    first: lines[0] ?? '',
    lanes: kind === 'swim' ? 'Each lane starts with' : '',
    left: '',
    plate: false,
  };
}

/** A talk or break that is going. */
export function pauseFace(view: RunView): Callout {
  const { words, part } = view.stretch;
  const name = capital(kindText(view.stretch));
  const { following } = view;
  const lines = following ? wordsFrom(view, following, firstOf(following)) : [];
  // Swimmers fetch it now.
  const { kit } = following ? notesAt(view.plan, following.partIndex, firstOf(following).line) : { kit: '' };
  const named = following && following.part !== part ? following.part : '';
  return {
    title: words === '' ? name : `${name}: ${words}`,
    lines: [...kitLine(kit), ...lines.map((line, index) => (index === 0 ? thenText(view.held, named) + line : line))],
    first: lines[0] ?? '',
    lanes: following?.kind === 'swim' ? 'Then each lane starts with' : '',
    left: readingLeft((view.pauseEnd ?? view.t) - view.t),
    plate: false,
  };
}

/** Beside lanes whose last swimmers still have to leave: whose turn it is stands where the lane's first set will. */
export function whileSomeLeave(callout: Callout, { phase }: RunView): Callout {
  return callout.lanes === '' || phase === 'done'
    ? callout
    : { ...callout, lanes: 'Still to leave; each lane then starts with' };
}

/** With the words of the sets left out; the kit is fetched all the same, and the coach's own words of a talk are said. */
export function withoutWords(callout: Callout, { phase }: RunView): Callout {
  if (phase === 'done') return callout;
  return { ...callout, lines: callout.lines.filter((line) => line.startsWith(KIT)) };
}

const KIT = 'kit: ';

function kitLine(kit: string): readonly string[] {
  return kit === '' ? [] : [KIT + kit];
}

/** Stands before what follows, which waits for the coach where Stop was pressed in the talk or break. `part`: empty for the same. */
function thenText(held: boolean, part: string): string {
  if (!held) return part === '' ? 'then ' : `then ${part}: `;
  return `on the coach's word${part === '' ? '' : `, ${part}`}: `;
}

export function doneFace(view: RunView, openedAt: Millis): Callout {
  return {
    title: 'Session done',
    lines: [`at ${clockTime(openedAt + view.projectedEnd)}`],
    first: '',
    lanes: 'Each lane has swum',
    left: '',
    plate: false,
  };
}

/** All lanes are stopped: the coach talks, and this is what about. */
export function stoppedFace(view: RunView): Callout {
  const swum = swumNow(view);
  const set = swum ? besideWords(swum.items, cutsNow(view)) : '';
  return { title: 'stopped', lines: set === '' ? [] : [set], first: set, lanes: '', left: '', plate: true };
}

/** Where something begins: on which line of the text, in which rounds. */
type Begins = Pick<PlannedSet, 'line' | 'rounds'>;

/** What is left of a stretch's part from a place on. */
function wordsFrom(view: RunView, stretch: Stretch, { line, rounds }: Begins): readonly string[] {
  const part = partOf(view, stretch);
  const index = part ? itemIndexOf(part, line) : -1;
  const [item, ...later] = part && index >= 0 ? part.items.slice(index) : [];
  const cuts = cutsNow(view);
  if (!item) return [];
  const first = itemWordsFrom(item, cuts, { line, round: rounds[0]?.round ?? 1 });
  return [first, ...later.map((each) => itemWords(each, cuts))];
}

/** Where the stretch that is waited for begins. */
function firstPlace(view: RunView): Begins {
  if (view.stretch.kind !== 'swim') return view.stretch;
  return firstSet(view.lanes.map(({ next }) => next?.rep.set)) ?? firstOf(view.stretch);
}

function firstOf(stretch: Stretch): Begins {
  if (stretch.kind !== 'swim') return stretch;
  return firstSet(stretch.lanes.map(({ reps }) => reps[0]?.set)) ?? stretch;
}

function partOf(view: RunView, stretch: Stretch): Part | undefined {
  return view.plan.session.parts[stretch.partIndex];
}
