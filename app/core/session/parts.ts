/*
 * Turns lines with their indents into a tree of parts: headings, margins and rounds. What a line says is read
 * elsewhere; this file decides where it belongs.
 */

import type { Flaw, FaultList } from './values/flaw.ts';
import { isFlaw } from './values/flaw.ts';
import type { Line } from './text/lines.ts';
import type { LanePrefix } from './line/lane-prefix.ts';
import { lostInHeading } from './line/lost-meaning.ts';
import type { NoteLine } from './line/note-line.ts';
import type { PartLine } from './line/part-line.ts';
import type { Note } from './session.ts';

export interface WrittenPart {
  readonly name: string;
  /** null for sets that come before any heading. */
  readonly heading: Line | null;
  readonly items: WrittenItem[];
}

export interface WrittenItem {
  readonly line: Line;
  readonly written: PartLine;
  /** The lanes it is for; null for all of those that what it stands under is for. */
  readonly lanes: LanePrefix | null;
  /** What stands under a rounds line, or one of some lanes; empty for all others. */
  readonly items: WrittenItem[];
}

/** Lines that stand under one heading, one rounds line, or one of some lanes. */
interface Level {
  /** Indent of the line they stand under; −1 for a part. */
  readonly owner: number;
  /** The line; null for a part, and where it is at fault. */
  readonly under: Line | null;
  readonly repeats: boolean;
  /** Whether it is for some lanes alone, or stands in what is. */
  readonly someLanes: boolean;
  /** Of its first line; null until that has come. */
  indent: number | null;
  readonly items: WrittenItem[];
}

interface NoteInPart extends NoteLine {
  readonly line: Line;
  /** In the parts so far; null where none has begun. */
  readonly partIndex: number | null;
}

const DEEPEST_ROUNDS = 4;

export class PartTree {
  readonly parts: WrittenPart[] = [];
  private readonly written: NoteInPart[] = [];
  /** The indent of each part's lines; null for one without any. */
  private readonly margins: (number | null)[] = [];
  private readonly faults: FaultList;
  private levels: Level[] = [];
  private firstHeading: number | null = null;
  /** The last heading in a place where none is allowed: what follows may belong to it or to the part before. */
  private stray: Line | null = null;

  constructor(faults: FaultList) {
    this.faults = faults;
  }

  heading(line: Line): void {
    const first = this.firstHeading ?? line.indent;
    this.firstHeading = first;
    if (line.indent !== 0 && line.indent !== first) {
      const message =
        'a line of words that is indented: put a heading at the left margin, and words on the line of their set';
      this.faults.add(line, { at: 0, message });
      this.stray = line;
      return;
    }
    const lost = lostInHeading(line.text);
    if (lost) this.faults.add(line, lost);
    this.open(nameOf(line.text), line);
  }

  /** `note:` and `kit:` lines, by line. To be read behind the last line. */
  get notes(): readonly Note[] {
    return this.written.map(({ kind, line, partIndex, words }) => {
      // In a part of notes alone there is no margin, and nothing that a note could belong to.
      const atMargin = partIndex !== null && line.indent <= (this.margins[partIndex] ?? Infinity);
      return { kind, line: line.number, partIndex, words, atMargin };
    });
  }

  /** A note or kit line: it may be indented as it likes, and sets no margin. */
  note(line: Line, read: NoteLine | Flaw): void {
    if (isFlaw(read)) this.faults.add(line, read);
    else if (this.levels.some(({ someLanes, owner }) => someLanes && owner < line.indent)) {
      const message = `a ${read.kind} under a line of some lanes: write it above that line`;
      this.faults.add(line, { at: 0, message });
    } else {
      this.written.push({ ...read, line, partIndex: this.parts.length === 0 ? null : this.parts.length - 1 });
    }
  }

  /**
   * A line of a part, or what is wrong with it; `partName` is for a line that stands before any heading, `lanes` for
   * whom it is.
   */
  item(line: Line, read: PartLine | Flaw, partName: string, lanes: LanePrefix | null): void {
    if (this.levels.length === 0) this.open(partName, null);
    const misplaced = this.place(line);
    const level = this.levels[this.levels.length - 1]!;
    // The line's own fault comes first: it is often why the line is in the wrong place.
    if (isFlaw(read)) this.faults.add(line, read);
    if (misplaced) this.faults.add(line, misplaced);
    const { indent: owner } = line;
    const someLanes = level.someLanes || lanes !== null;
    if (isFlaw(read)) {
      const begun = { owner, under: null, repeats: true, someLanes, indent: null, items: [] };
      if (read.opens) this.levels.push(begun);
      return;
    }
    const within = level.someLanes ? foreignUnderLanes(read, lanes) : null;
    if (within) this.faults.add(line, within);
    const depth = this.levels.filter(({ repeats }) => repeats).length + 1;
    if (isRounds(read) && depth > DEEPEST_ROUNDS) {
      this.faults.add(line, {
        at: 0,
        message: `rounds in rounds, ${depth} deep: write them at most ${DEEPEST_ROUNDS} deep`,
      });
    }
    const item: WrittenItem = { line, written: read, lanes, items: [] };
    level.items.push(item);
    if (read.kind !== 'rounds' && read.kind !== 'lanes') return;
    this.levels.push({
      owner,
      under: line,
      repeats: read.kind === 'rounds',
      someLanes,
      indent: null,
      items: item.items,
    });
  }

  /** Call this after the last line. */
  close(): void {
    while (this.levels.length > 0) this.closeLevel();
  }

  private open(name: string, heading: Line | null): void {
    this.close();
    const part: WrittenPart = { name, heading, items: [] };
    this.parts.push(part);
    this.levels = [{ owner: -1, under: null, repeats: false, someLanes: false, indent: null, items: part.items }];
    this.margins.push(null);
    this.stray = null;
  }

  /** Finds the level that a line belongs to. Gives what is wrong with its indent, or null. */
  private place(line: Line): Flaw | null {
    while (this.levels[this.levels.length - 1]!.owner >= line.indent) this.closeLevel();
    const level = this.levels[this.levels.length - 1]!;
    if (level.indent === null) this.setMargin(level, line.indent);
    const stray = this.stray;
    this.stray = null;
    if (line.indent === level.indent) return null;
    if (stray) {
      this.open(nameOf(stray.text), stray);
      this.setMargin(this.levels[0]!, line.indent);
      return null;
    }
    return { at: 0, message: misplaced(line.indent, level) };
  }

  private setMargin(level: Level, indent: number): void {
    level.indent = indent;
    if (level.owner < 0) this.margins[this.margins.length - 1] = indent;
  }

  private closeLevel(): void {
    const { under, repeats, indent } = this.levels.pop()!;
    if (!under || indent !== null) return;
    const message = repeats
      ? 'there is nothing under these rounds: write the sets that repeat below, indented deeper'
      : 'there is nothing under these lanes: write a set after the colon, or sets below, indented deeper';
    this.faults.add(under, { at: 0, message });
  }
}

/** A heading or title without its one trailing colon. */
export function nameOf(text: string): string {
  return (text.endsWith(':') ? text.slice(0, -1) : text).replace(/\s+/g, ' ').trim();
}

/** What may not stand under a line of some lanes. */
function foreignUnderLanes({ kind }: PartLine, lanes: LanePrefix | null): Flaw | null {
  if (lanes) return { at: 0, message: 'lanes under lanes: what stands under a line of some lanes is for all of those' };
  if (kind !== 'talk' && kind !== 'break') return null;
  return {
    at: 0,
    message: `a ${kind} for some lanes: everyone comes together for it, so write it at the part's margin`,
  };
}

function isRounds(line: PartLine): boolean {
  return line.kind === 'rounds' || (line.kind === 'set' && line.rounds !== null);
}

function misplaced(indent: number, level: Level): string {
  if (indent > level.indent!)
    return 'this line is indented deeper than the one above: only the lines under rounds or lanes may be';
  if (level.owner < 0) return 'this line is indented less than the first line of its part: give both the same indent';
  return `this line is indented less than the first under its ${level.repeats ? 'rounds' : 'lanes'}: give both the same indent`;
}
