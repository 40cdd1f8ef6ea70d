/*
 * Writes a lane into a session's text, or takes it out: changes or adds that one line, and keeps everything else as
 * the coach wrote it, the comment behind the line too.
 */

import { reading } from '../../words/time/reading.ts';
import { count } from '../../words/phrase.ts';
import { SECOND } from '../../units.ts';
import { emptyHeader, takeSetting, type Header } from '../header.ts';
import { readLane, type WrittenLane } from '../line/lane-line.ts';
import { endsHeader, kindOfLine, type LineKind } from '../line/line-kind.ts';
import { FaultList, isFlaw } from '../values/flaw.ts';
import { lineAt, lineStart, readLines, type Line } from './lines.ts';

/** A `lane` line of a text. */
export interface LaneLine {
  readonly number: number;
  readonly line: number;
  /** null where its line has a fault. */
  readonly lane: WrittenLane | null;
}

/** What the lines before the first part say, whatever the others are. */
export interface WrittenLanes extends Pick<Header, 'pool' | 'gap' | 'grid'> {
  /** By number; of two lines for a lane the first. */
  readonly lanes: readonly LaneLine[];
}

interface HeaderLine {
  readonly line: Line;
  readonly found: LineKind;
  /** The lane whose line it is; null for none. */
  readonly lane: number | null;
}

/** `lane 1 css 1:20, base 1:30, 5 swimmers`. */
export function laneText({ number, css, base, swimmers, names, gap }: WrittenLane): string {
  const values = [
    ...(css === null ? [] : [`css ${reading(css)}`]),
    ...(base === null ? [] : [`base ${reading(base)}`]),
    ...(names.length > 0 ? names : swimmers > 1 ? [count(swimmers, 'swimmer')] : []),
    ...(gap === null ? [] : [`gap ${gap / SECOND}`]),
  ];
  return `lane ${number}${values.length > 0 ? ` ${values.join(', ')}` : ''}`;
}

/** Why a lane cannot be written so that it is read as it is, in a few words; null where it can. */
export function laneFlaw(lane: WrittenLane): string | null {
  const text = laneText(lane);
  const { lines, faults } = readLines(text);
  if (faults.length > 0) return faults[0]!.message;
  const found = lines[0]?.text === text ? kindOfLine(text, { inHeader: true, hasTitle: true }) : null;
  if (found?.kind !== 'setting') return AMBIGUOUS;
  const { lane: read } = readLane(text, found.setting.value);
  if (isFlaw(read)) return read.message;
  const isSame = laneText(read) === text && read.names.length === lane.names.length;
  const differs = (['base', 'css', 'gap', 'swimmers'] as const).some((key) => read[key] !== lane[key]);
  return isSame && !differs ? null : AMBIGUOUS;
}

const AMBIGUOUS = 'this would be read as something else: write plain names with commas between, or a number';

export function lanesWritten(text: string): WrittenLanes {
  const header = emptyHeader();
  const faults = new FaultList([]);
  const lanes: LaneLine[] = [];
  for (const { line, found, lane } of headerLines(text)) {
    if (found.kind !== 'setting') continue;
    const isFirst = lane !== null && !header.lanes.has(lane);
    takeSetting(header, line, found.setting, faults, []);
    if (isFirst) lanes.push({ number: lane, line: line.number, lane: header.lanes.get(lane) ?? null });
  }
  const { pool, gap, grid } = header;
  return { pool, gap, grid, lanes: lanes.sort((a, b) => a.number - b.number) };
}

/** The text in which this lane's line says so. Throws for a lane that cannot be written. */
export function textWithLane(text: string, lane: WrittenLane): string {
  const flaw = laneFlaw(lane);
  if (flaw !== null) throw new RangeError(`lane ${lane.number}: ${flaw}`);
  const header = headerLines(text);
  const written = laneText(lane);
  const own = header.find((each) => each.lane === lane.number);
  if (own) return withLine(text, own.line, written);
  const behind = lineBefore(header, lane.number);
  const ahead = behind ? null : header.find((each) => each.lane !== null);
  if (ahead) return insertedAt(text, lineStart(text, ahead.line.number), written);
  return behind ? insertedBehind(text, behind.line.number, written) : insertedAt(text, lineStart(text, 1), written);
}

/** The text without a line for this lane; the same text where it has none. */
export function textWithoutLane(text: string, number: number): string {
  const own = headerLines(text).find(({ lane }) => lane === number);
  if (!own) return text;
  const from = lineStart(text, own.line.number);
  return text.slice(0, from) + text.slice(lineEnd(text, from));
}

/** The text whose lanes are these and no others. */
export function textWithLanes(text: string, lanes: readonly WrittenLane[]): string {
  const numbers = new Set(lanes.map(({ number }) => number));
  const gone = headerLines(text).filter(({ lane }) => lane !== null && !numbers.has(lane));
  const kept = lanes.reduce(textWithLane, text);
  return gone.reduce((left, { lane }) => textWithoutLane(left, lane!), kept);
}

/** What another session of the same squad begins with: the settings as they are written, a line each, without the title. */
export function settingsIn(text: string): string {
  return headerLines(text)
    .filter(({ found }) => found.kind === 'setting')
    .map(({ line }) => `${line.raw.trim()}\n`)
    .join('');
}

/** The line behind which a new lane stands: of the lane before it, else the last setting or the title where no lane is written. */
function lineBefore(header: readonly HeaderLine[], number: number): HeaderLine | null {
  const lanes = header.filter(({ lane }) => lane !== null);
  const lower = lanes.filter(({ lane }) => lane! < number);
  if (lower.length > 0) return lower.reduce((a, b) => (b.lane! > a.lane! ? b : a));
  if (lanes.length > 0) return null;
  const settings = header.filter(({ found }) => found.kind === 'setting');
  return settings[settings.length - 1] ?? header.find(({ found }) => found.kind === 'title') ?? null;
}

/** The lines before the first heading or line of a part. No more of the text is read, which a field waits for. */
function headerLines(text: string): readonly HeaderLine[] {
  const header: HeaderLine[] = [];
  let hasTitle = false;
  for (const line of linesOneByOne(text)) {
    const found = kindOfLine(line.text, { inHeader: true, hasTitle });
    if (endsHeader(found)) break;
    const isLane = found.kind === 'setting' && found.setting.word === 'lane' && found.setting.flaw === null;
    const lane = isLane ? readLane(line.text, found.setting.value).number : null;
    header.push({ line, found, lane });
    if (found.kind === 'title') hasTitle = true;
  }
  return header;
}

function* linesOneByOne(text: string): Generator<Line> {
  let number = 1;
  for (let from = lineStart(text, 1); from < text.length; number++) {
    const end = lineEnd(text, from);
    const line = lineAt(text.slice(from, end).replace(/\r?\n$/, ''), number);
    if (line) yield line;
    from = end;
  }
}

function withLine(text: string, line: Line, written: string): string {
  const from = lineStart(text, line.number) + line.start;
  return text.slice(0, from) + written + text.slice(from + line.text.length);
}

function insertedBehind(text: string, line: number, written: string): string {
  const at = lineEnd(text, lineStart(text, line));
  const isEnded = text.charAt(at - 1) === '\n';
  return isEnded ? insertedAt(text, at, written) : `${text}${endsWith(text)}${written}`;
}

function insertedAt(text: string, at: number, written: string): string {
  return `${text.slice(0, at)}${written}${endsWith(text)}${text.slice(at)}`;
}

/** How lines end in this text. */
function endsWith(text: string): string {
  return /\r\n/.test(text) ? '\r\n' : '\n';
}

/** Behind a line and its end. */
function lineEnd(text: string, from: number): number {
  const end = text.indexOf('\n', from);
  return end < 0 ? text.length : end + 1;
}
