/*
 * Turns lines with their indents into a tree of parts: headings, margins and rounds. What a line says is read
 * elsewhere; this file decides where it belongs.
 */

import type { Flaw, FaultList } from './flaw.ts';
import { isFlaw } from './flaw.ts';
import type { Line } from './lines.ts';
import { lostInHeading } from './lost-meaning.ts';
import type { PartLine } from './part-line.ts';

export interface WrittenPart {
  readonly name: string;
  /** null for sets that come before any heading. */
  readonly heading: Line | null;
  readonly items: WrittenItem[];
}

export interface WrittenItem {
  readonly line: Line;
  readonly written: PartLine;
  /** What repeats under a rounds line; empty for all other lines. */
  readonly items: WrittenItem[];
}

/** The lines under one heading or one rounds line. */
interface Level {
  /** Indent of the rounds line; −1 for a part. */
  readonly owner: number;
  readonly rounds: Line | null;
  /** The indent of its first line; null before there is one. */
  indent: number | null;
  readonly items: WrittenItem[];
}

const DEEPEST_ROUNDS = 4;

export class PartTree {
  readonly parts: WrittenPart[] = [];
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

  /** Takes a line of a part, or its flaw. `partName` is for a line before any heading. */
  item(line: Line, read: PartLine | Flaw, partName: string): void {
    if (this.levels.length === 0) this.open(partName, null);
    const misplaced = this.place(line);
    const level = this.levels[this.levels.length - 1]!;
    // The line's own fault comes first: it is often why the line is in the wrong place.
    if (isFlaw(read)) this.faults.add(line, read);
    if (misplaced) this.faults.add(line, misplaced);
    if (isFlaw(read)) {
      if (read.opens) this.levels.push({ owner: line.indent, rounds: null, indent: null, items: [] });
      return;
    }
    const depth = this.levels.length;
    if (isRounds(read) && depth > DEEPEST_ROUNDS) {
      this.faults.add(line, {
        at: 0,
        message: `rounds in rounds, ${depth} deep: write them at most ${DEEPEST_ROUNDS} deep`,
      });
    }
    const item: WrittenItem = { line, written: read, items: [] };
    level.items.push(item);
    if (read.kind === 'rounds') this.levels.push({ owner: line.indent, rounds: line, indent: null, items: item.items });
  }

  /** Call this after the last line. */
  close(): void {
    while (this.levels.length > 0) this.closeLevel();
  }

  private open(name: string, heading: Line | null): void {
    this.close();
    const part: WrittenPart = { name, heading, items: [] };
    this.parts.push(part);
    this.levels = [{ owner: -1, rounds: null, indent: null, items: part.items }];
    this.stray = null;
  }

  /** Finds the level that a line belongs to. Gives what is wrong with its indent, or null. */
  private place(line: Line): Flaw | null {
    while (this.levels[this.levels.length - 1]!.owner >= line.indent) this.closeLevel();
    const level = this.levels[this.levels.length - 1]!;
    if (level.indent === null) level.indent = line.indent;
    const stray = this.stray;
    this.stray = null;
    if (line.indent === level.indent) return null;
    if (stray) {
      this.open(nameOf(stray.text), stray);
      this.levels[0]!.indent = line.indent;
      return null;
    }
    return { at: 0, message: misplaced(line.indent, level) };
  }

  private closeLevel(): void {
    const level = this.levels.pop()!;
    if (level.rounds && level.indent === null) {
      const message = 'there is nothing under these rounds: write the sets that repeat below, indented deeper';
      this.faults.add(level.rounds, { at: 0, message });
    }
  }
}

/** A heading or title without its one trailing colon. */
export function nameOf(text: string): string {
  return (text.endsWith(':') ? text.slice(0, -1) : text).replace(/\s+/g, ' ').trim();
}

function isRounds(line: PartLine): boolean {
  return line.kind === 'rounds' || (line.kind === 'set' && line.rounds !== null);
}

function misplaced(indent: number, level: Level): string {
  if (indent > level.indent!)
    return 'this line is indented deeper than the one above: only the lines under rounds may be';
  if (level.owner < 0) return 'this line is indented less than the first line of its part: give both the same indent';
  return 'this line is indented less than the first line under its rounds: give both the same indent';
}
