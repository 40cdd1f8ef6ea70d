/*
 * What each piece of a line is, for an editor's colours: told by the same reading that makes a session of it, so that
 * what looks like a count is one. Of a line that cannot be read, what stands before the fault is told as if it were
 * all, and the fault as such; faults that only the whole session shows are not a line's own.
 */

import { DEFAULT_POOL } from '../header.ts';
import { endsHeader, kindOfLine, type LineKind } from '../line/line-kind.ts';
import type { LanePrefix } from '../line/lane-prefix.ts';
import { lostInHeading } from '../line/lost-meaning.ts';
import { readNote } from '../line/note-line.ts';
import { readPartLine, type PartLine } from '../line/part-line.ts';
import type { Pool, WrittenSet } from '../line/set-line.ts';
import { readPool, type SettingLine } from '../line/setting-line.ts';
import { commentStart, lineAt } from '../text/lines.ts';
import { isFlaw, type Flaw } from '../values/flaw.ts';
import { numberAt, type Read, type WrittenNumber } from '../values/values.ts';
import { clauseTokens, endBefore, valuesIn, wordTokens } from './clause-tokens.ts';
import { settingTokens } from './setting-tokens.ts';
import type { Token } from './token.ts';

/** What the lines above say of the next. */
export interface Above {
  readonly inHeader: boolean;
  readonly hasTitle: boolean;
  readonly pool: Pool;
}

export const NOTHING_ABOVE: Above = { inHeader: true, hasTitle: false, pool: DEFAULT_POOL };

export interface LineTokens {
  /** In order, none over another. */
  readonly tokens: readonly Token[];
  /** What this line and those above it say of the next. */
  readonly above: Above;
}

/** Of a line without its line end. */
export function lineTokens(raw: string, above: Above): LineTokens {
  const line = lineAt(raw, 1);
  const behind = commentStart(raw);
  const comment: Token[] = behind < raw.length ? [{ kind: 'comment', from: behind, to: raw.length }] : [];
  if (!line) return { tokens: comment, above };
  const { text, start } = line;
  const margin = raw.search(/\S/);
  const bullet: Token[] = margin < start ? [{ kind: 'bullet', from: margin, to: start }] : [];
  const found = kindOfLine(text, above);
  const own = tokensOf(text, found, above).map(({ kind, from, to }) => ({ kind, from: from + start, to: to + start }));
  return { tokens: [...bullet, ...own, ...comment], above: behindLine(text, found, above) };
}

function behindLine(text: string, found: LineKind, above: Above): Above {
  if (endsHeader(found)) return above.inHeader ? { ...above, inHeader: false } : above;
  if (found.kind === 'title') return { ...above, hasTitle: true };
  if (found.kind !== 'setting' || found.setting.word !== 'pool' || found.setting.flaw) return above;
  const pool = readPool(text, found.setting.value);
  return isFlaw(pool) ? above : { ...above, pool };
}

function tokensOf(text: string, found: LineKind, { pool }: Above): Token[] {
  switch (found.kind) {
    case 'setting':
      return settingOrFault(text, found.setting);
    case 'setting too late':
    case 'stranger':
      return withFault(text, 0, []);
    case 'note':
      return noteTokens(text);
    case 'item':
      return itemTokens(text, found.lanes, pool);
    case 'title':
      return [{ kind: 'title', from: 0, to: text.length }];
    case 'lost setting':
      return withFault(text, found.flaw.at, []);
    case 'heading':
      return headingTokens(text);
  }
}

function settingOrFault(text: string, setting: SettingLine): Token[] {
  return setting.flaw ? withFault(text, setting.flaw.at, []) : settingTokens(text, setting);
}

function noteTokens(text: string): Token[] {
  const read = readNote(text);
  if (isFlaw(read)) return withFault(text, read.at, []);
  const end = read.kind.length + 1;
  return [{ kind: read.kind, from: 0, to: end }, ...wordTokens(text, end, text.length)];
}

function headingTokens(text: string): Token[] {
  const lost = lostInHeading(text);
  return lost ? withFault(text, lost.at, []) : [{ kind: 'heading', from: 0, to: text.length }];
}

/** What stands before a fault, the fault to the end of its word, and what is left as words. */
function withFault(text: string, at: number, before: readonly Token[]): Token[] {
  const word = /\s*\S+/.exec(text.slice(at));
  const to = at + (word?.[0].length ?? 0);
  const fault: Token[] = word ? [{ kind: 'fault', from: at + word[0].search(/\S/), to }] : [];
  const own = before.length > 0 ? before : wordTokens(text, 0, at);
  return [...own, ...fault, ...wordTokens(text, to, text.length)];
}

function itemTokens(text: string, lanes: LanePrefix | null, pool: Pool): Token[] {
  const prefix: Token[] = lanes ? [{ kind: 'lanes', from: 0, to: endBefore(text, lanes.end) }] : [];
  const from = lanes?.end ?? 0;
  const read = readPartLine(text, lanes, pool);
  if (!isFlaw(read)) return [...prefix, ...tokensRead(text, from, read)];
  return withFault(text, read.at, [...prefix, ...tokensBefore(text, from, lanes, pool, read)]);
}

/** What stands before a fault, read again up to the fault in it, until it has none: each time less of it. */
function tokensBefore(text: string, from: number, lanes: LanePrefix | null, pool: Pool, flaw: Flaw): Token[] {
  let { at } = flaw;
  for (;;) {
    const before = text.slice(0, endBefore(text, at));
    const read = readPartLine(before, lanes, pool);
    if (!isFlaw(read)) return [...tokensRead(before, from, read), ...wordTokens(text, before.length, flaw.at)];
    if (read.at >= at) return wordTokens(text, from, flaw.at);
    at = read.at;
  }
}

function tokensRead(text: string, from: number, line: PartLine): Token[] {
  switch (line.kind) {
    case 'lanes':
      return [];
    case 'talk':
    case 'break':
      return [
        { kind: 'keyword', from, to: endBefore(text, line.timeAt) },
        { kind: 'time', from: line.timeAt, to: line.timeEnd },
        ...wordTokens(text, line.timeEnd, text.length),
      ];
    case 'rounds':
      return [
        { kind: 'count', from, to: line.timesEnd },
        ...wordTokens(text, line.timesEnd, text.length).map((token): Token => ({ ...token, kind: 'keyword' })),
      ];
    case 'timed-swim':
      return [{ kind: 'time', from, to: line.timeEnd }, ...wordTokens(text, line.timeEnd, text.length)];
    case 'block': {
      const at = line.distances.at[0]!;
      const of: Token = { ...wordTokens(text, line.timeEnd, at)[0]!, kind: 'keyword' };
      return [
        { kind: 'time', from, to: line.timeEnd },
        of,
        ...distanceTokens(text, line.distances.at),
        ...clauseTokens(text, line.distances.end, line.clauses),
      ];
    }
    case 'set':
      return setTokens(text, from, line);
  }
}

function setTokens(text: string, from: number, { rounds, at, counts, distances, clauses }: WrittenSet): Token[] {
  const first = distances.at[0]!;
  const tokens: Token[] = [];
  if (rounds !== null) {
    const to = numberEnd(text, from);
    tokens.push({ kind: 'count', from, to }, ...timesSign(text, to, at));
  }
  if (counts) tokens.push(...valuesIn(text, counts.at[0]!, counts.end, 'count'), ...timesSign(text, counts.end, first));
  return [...tokens, ...distanceTokens(text, distances.at), ...clauseTokens(text, distances.end, clauses)];
}

function timesSign(text: string, from: number, to: number): Token[] {
  return wordTokens(text, from, to).map((token) => ({ ...token, kind: 'keyword' }));
}

/** Each with its unit, and without the dash or slash behind it. */
function distanceTokens(text: string, at: readonly number[]): Token[] {
  return at.map((from) => ({ kind: 'distance', from, to: numberEnd(text, from) }));
}

/** Where a number that has been read ends. */
function numberEnd(text: string, at: number): number {
  return (numberAt(text, at) as Read<WrittenNumber>).end;
}
