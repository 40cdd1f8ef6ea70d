/*
 * Warnings as a coach reads them. Those of the same kind on the same line make one sentence with their lanes named, and
 * a few words to show beside the line.
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

/** `warnings` as the plan gives them; each group where its first one was. */
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

/** What follows the words that all the sentences begin with; null if they do not. */
function figuresOf({ lane, message }: Warning, { one }: WarningWords): string | null {
  const start = `Lane ${lane}${one}`;
  if (lane === null || !message.startsWith(start) || !message.endsWith('.')) return null;
  return message
    .slice(start.length, -1)
    .replace(/^\((.*)\)$/, '$1')
    .replace(': it is ', ', ');
}
