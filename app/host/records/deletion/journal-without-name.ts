/*
 * A journal without a swimmer's name: its lines are written anew, each with its own checksum and that of the line before.
 * The run stays as it was: whatever would change it is not done.
 */

import type { NamePattern } from '../../../core/session/names/name-pattern.ts';
import { textWithoutName, wordsWithoutName } from '../../../core/session/names/without-name.ts';
import { MARK_LIMIT } from '../../../core/run/command/command-fields.ts';
import { leavesOf } from '../../../core/run/record.ts';
import { settle } from '../../../core/run/settle.ts';
import { lineOf, type CommandEntry, type JournalEntry, type OpenedEntry } from '../../journal/journal-line.ts';
import { readJournal, type JournalLines } from '../../journal/journal-text.ts';
import { foldJournal } from '../../recovery/found-run.ts';

export type JournalWithout =
  /** The name is not in it. */
  | { readonly kind: 'same' }
  | { readonly kind: 'changed'; readonly bytes: Uint8Array }
  /** Nothing of it is a journal that this program could read: it can only go as a whole. */
  | { readonly kind: 'no journal' }
  | { readonly kind: 'newer' }
  /** The session would be swum otherwise without it. */
  | { readonly kind: 'needed' };

export function journalWithoutName(bytes: Uint8Array, name: NamePattern): JournalWithout {
  const journal = readJournal(bytes);
  if (journal.kind !== 'journal') {
    if (!isInBytes(bytes, name)) return { kind: 'same' };
    return { kind: journal.kind === 'newer' ? 'newer' : 'no journal' };
  }
  const written = linesWithout(journal, name);
  const tail = bytes.subarray(journal.length);
  const keepsTail = !isInBytes(tail, name);
  if (written === null && keepsTail) return { kind: 'same' };
  const used = written ?? bytes.subarray(0, journal.length);
  const changed = Buffer.concat(keepsTail ? [used, tail] : [used]);
  return isSameRun(journal, readJournal(changed)) ? { kind: 'changed', bytes: changed } : { kind: 'needed' };
}

/** In bytes that may be torn, where line ends of a text stand as `\\n`. */
export function isInBytes(bytes: Uint8Array, name: NamePattern): boolean {
  return name.isIn(
    Buffer.from(bytes)
      .toString('utf8')
      .replace(/\\[bfnrt"\\/]/g, ' '),
  );
}

/** null where no line has the name. */
function linesWithout({ entries, opened }: JournalLines, name: NamePattern): Uint8Array | null {
  const without = entries.map((entry) => entryWithout(entry, name));
  if (without.every((entry, index) => entry === entries[index])) return null;
  let sum: string | null = null;
  const lines = without.map((entry) => {
    // The first form names no line before.
    const line = lineOf(entry, opened.journal === 1 ? null : sum);
    sum = line.sum;
    return line.text;
  });
  return Buffer.from(lines.join(''));
}

function entryWithout(entry: JournalEntry, name: NamePattern): JournalEntry {
  switch (entry.say) {
    case 'opened':
      return openedWithout(entry, name);
    case 'command':
      return commandWithout(entry, name);
    case 'alive':
    case 'back':
    case 'closed':
      return entry;
  }
}

function openedWithout(entry: OpenedEntry, name: NamePattern): OpenedEntry {
  const text = textWithoutName(entry.text, name);
  const lanesText = entry.lanesText === null ? null : textWithoutName(entry.lanesText, name);
  return text === entry.text && lanesText === entry.lanesText ? entry : { ...entry, text, lanesText };
}

/** The text of a rewrite, the words of a mark, and whatever else there are words in. */
function commandWithout(entry: CommandEntry, name: NamePattern): CommandEntry {
  let isSame = true;
  const without = Object.entries(entry.command).map(([field, value]) => {
    if (field === 'do' || typeof value !== 'string') return [field, value] as const;
    const words = field === 'text' ? textWithoutName(value, name) : wordsWithoutName(value, name, MARK_LIMIT);
    isSame &&= words === value;
    return [field, words] as const;
  });
  const { from } = entry;
  const device = from && wordsWithoutName(from.name, name, MARK_LIMIT);
  if (isSame && device === from?.name) return entry;
  return { ...entry, ...(from && { from: { ...from, name: device! } }), command: Object.fromEntries(without) };
}

/** Whether two journals come to the same leaves at the same times, by as many commands that were accepted. */
function isSameRun(before: JournalLines, after: ReturnType<typeof readJournal>): boolean {
  if (after.kind !== 'journal' || after.entries.length !== before.entries.length) return false;
  const [was, is] = [foldJournal(before), foldJournal(after)];
  if (!was || !is) return was === is;
  return was.commands.length === is.commands.length && summed(was) === summed(is);
}

function summed({ state, journal: { entries } }: NonNullable<ReturnType<typeof foldJournal>>): string {
  const now = settle(state, Math.ceil(entries[entries.length - 1]!.at));
  const leaves = leavesOf(now).map(({ lane, stretch, rep, at, swimmers, gap }) => {
    return [lane, stretch, rep.set.line, rep.rep, rep.of, rep.distance, rep.interval, rep.target, at, swimmers, gap];
  });
  const planned = now.plan.stretches.map(({ lanes, time }) => [
    time,
    lanes.map(({ reps }) => reps.map(({ offset, interval, target }) => [offset, interval, target])),
  ]);
  return JSON.stringify([now.phase, now.index, now.t0, now.doneAt, leaves, planned]);
}
