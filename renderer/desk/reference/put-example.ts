/*
 * Where an example of the notation goes in a text: a setting among the settings, all else where the cursor is, but never
 * above the first part.
 */

import { endsHeader, kindOfLine, type LineKind } from '../../../app/core/session/line/line-kind.ts';
import { contentOf, textLines } from '../../../app/core/session/text/lines.ts';

export type Place =
  /** The text has that setting already, on this line (from 1). */
  | { readonly kind: 'there'; readonly line: number }
  /** Below this line; 0: above all. */
  | { readonly kind: 'below'; readonly line: number; readonly lines: string };

interface HeaderLine {
  readonly number: number;
  readonly found: LineKind;
  readonly text: string;
}

/** `cursor`: its line, from 1. */
export function placeFor(example: string, text: string, cursor: number): Place {
  const lines = textLines(text);
  const header = headerOf(lines);
  const setting = settingName(example);
  if (setting === null) return { kind: 'below', line: placeInParts(text, cursor), lines: example };
  const isLane = setting === 'lane';
  const there = isLane ? undefined : header.find((line) => settingName(line.text) === setting);
  if (there) return { kind: 'there', line: there.number };
  const behind = header.filter(({ found }) => found.kind === 'setting' || found.kind === 'title').pop();
  const written = isLane ? example.replace(/\d+/, `${nextLane(header)}`) : example;
  return { kind: 'below', line: behind?.number ?? 0, lines: written };
}

/** The line below which a part or set goes: the cursor's, and the last where that stands among the settings, which would end there. */
export function placeInParts(text: string, cursor: number): number {
  const lines = textLines(text);
  const last = headerOf(lines).pop()?.number ?? 0;
  return cursor > last ? cursor : lines.length;
}

function headerOf(lines: readonly string[]): HeaderLine[] {
  const header: HeaderLine[] = [];
  let hasTitle = false;
  for (const [index, raw] of lines.entries()) {
    const text = contentOf(raw).trim();
    if (text === '') continue;
    const found = kindOfLine(text, { inHeader: true, hasTitle });
    if (endsHeader(found)) break;
    hasTitle = hasTitle || found.kind === 'title';
    header.push({ number: index + 1, found, text });
  }
  return header;
}

/** "start", "start on": each may stand once; null for a line that is no setting. */
function settingName(text: string): string | null {
  const found = kindOfLine(text, { inHeader: true, hasTitle: true });
  if (found.kind !== 'setting') return null;
  const { word, value } = found.setting;
  return word === 'start' && /^on\b/i.test(text.slice(value)) ? 'start on' : word;
}

function nextLane(header: readonly HeaderLine[]): number {
  const numbers = header.map(({ text }) => Number(/^lane\s+(\d+)/i.exec(text)?.[1] ?? 0));
  return Math.max(0, ...numbers) + 1;
}
