/*
 * Warnings as a coach reads them: those of one line and code in one sentence with their lanes named, and in a few
 * words for the line itself.
 */

import {
  WARNINGS,
  type Warning,
  type WarningCode,
  type WarningWords,
} from '../../../app/core/plan/warnings/warning.ts';
import { lanesNamed } from '../../../app/core/words/lanes.ts';
import { capital } from '../../../app/core/words/phrase.ts';

export interface WarningGroup {
  readonly code: WarningCode;
  readonly line: number;
  readonly sentence: string;
  /** A few words to stand beside the line: "lanes 1 and 3: hardly any rest". */
  readonly short: string;
}

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
  const what = WARNINGS[code].short;
  const short = lanes.length > 0 ? `${lanesNamed(lanes)}: ${what}` : what;
  return { code, line, sentence: sentenceOf(group, lanes), short };
}

function sentenceOf(group: readonly Warning[], lanes: readonly number[]): string {
  const words = WARNINGS[group[0]!.code];
  const own = group.map((warning) => figuresOf(warning, words));
  if (group.length === 1 || own.includes(null)) return group.map(({ message }) => message).join(' ');
  const head = `${capital(lanesNamed(lanes))} ${words.several}`;
  const same = own.every((each) => each === own[0]);
  return same
    ? `${head}: ${own[0]}.`
    : `${head}: ${own.map((each, index) => `lane ${lanes[index]} ${each}`).join('; ')}.`;
}

/** What is behind the words that all lanes have in common; null where the sentence is not of that kind. */
function figuresOf({ lane, message }: Warning, { one }: WarningWords): string | null {
  const start = `Lane ${lane}${one}`;
  if (lane === null || !message.startsWith(start) || !message.endsWith('.')) return null;
  return message
    .slice(start.length, -1)
    .replace(/^\((.*)\)$/, '$1')
    .replace(': it is ', ', ');
}
