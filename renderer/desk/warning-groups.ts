/*
 * Warnings as a coach reads them: those of one line and code in one sentence with their lanes named, and in a few
 * words for the line itself.
 */

import type { Warning, WarningCode } from '../../app/core/plan/warning.ts';
import { lanesNamed } from '../ui/coach/words.ts';

export interface WarningGroup {
  readonly code: WarningCode;
  readonly line: number;
  readonly sentence: string;
  /** A few words to stand beside the line: "lanes 1 and 3: hardly any rest". */
  readonly short: string;
}

/** How the sentence of one lane goes on behind "Lane 3", and what is said of several. */
interface Words {
  /** Up to the lane's own figures. */
  readonly one: string;
  readonly several: string;
  readonly short: string;
}

const WORDS: { readonly [code in WarningCode]?: Words } = {
  'cannot-make': { one: ' cannot make ', several: 'cannot make their interval', short: 'cannot make it' },
  'rest-short': { one: ' has only ', several: 'have hardly any rest', short: 'hardly any rest' },
  'lane-full': {
    one: ' is too full to swim in a circle: ',
    several: 'are too full to swim in a circle',
    short: 'too full',
  },
  'tail-late': {
    one: ': ',
    several: 'are to leave again before their last swimmer has left',
    short: 'the tail leaves late',
  },
  'part-lengths': {
    one: ': ',
    several: 'have a distance that is no whole number of lengths',
    short: 'no whole lengths',
  },
  'far-end': {
    one: ' ends this set at the far end, away from the screen ',
    several: 'end this set at the far end, away from the screen',
    short: 'ends at the far end',
  },
  'over-time': { one: '', several: '', short: 'past the finish' },
  'empty-part': { one: '', several: '', short: 'nothing under it' },
  'assumed-base': {
    one: ' has neither base nor css: its ',
    several: 'have neither base nor css',
    short: 'base assumed',
  },
};

/** In the order of the first of each; `warnings` as the plan gives them. */
export function warningGroups(warnings: readonly Warning[]): readonly WarningGroup[] {
  const groups = new Map<string, Warning[]>();
  for (const warning of warnings) {
    const key = `${warning.line} ${warning.code}`;
    const group = groups.get(key);
    if (group) group.push(warning);
    else groups.set(key, [warning]);
  }
  return Array.from(groups.values(), groupOf);
}

function groupOf(group: readonly Warning[]): WarningGroup {
  const { code, line } = group[0]!;
  const lanes = group.map(({ lane }) => lane).filter((lane) => lane !== null);
  const what = WORDS[code]?.short ?? group[0]!.message;
  const short = lanes.length > 0 ? `${lanesNamed(lanes)}: ${what}` : what;
  return { code, line, sentence: sentenceOf(group, lanes), short };
}

function sentenceOf(group: readonly Warning[], lanes: readonly number[]): string {
  const words = WORDS[group[0]!.code];
  const own = group.map((warning) => (words ? figuresOf(warning, words) : null));
  if (group.length === 1 || !words || own.includes(null)) return group.map(({ message }) => message).join(' ');
  const head = `Lanes ${lanesNamed(lanes).replace(/^lanes? /, '')} ${words.several}`;
  const same = own.every((each) => each === own[0]);
  return same
    ? `${head}: ${own[0]}.`
    : `${head}: ${own.map((each, index) => `lane ${lanes[index]} ${each}`).join('; ')}.`;
}

/** What is behind the words that all lanes have in common; null where the sentence is not of that kind. */
function figuresOf({ lane, message }: Warning, { one }: Words): string | null {
  const start = `Lane ${lane}${one}`;
  if (lane === null || !message.startsWith(start) || !message.endsWith('.')) return null;
  return message
    .slice(start.length, -1)
    .replace(/^\((.*)\)$/, '$1')
    .replace(': it is ', ', ');
}
