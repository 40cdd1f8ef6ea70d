/*
 * Reads a session text: gives the session, or all its faults at once. Every line is read by itself, then put in its
 * place among parts and rounds, then spread over the lanes. A line with a fault is left out of the later steps, so
 * that one mistake is reported once.
 */

import type { Fault, Result } from '../result.ts';
import { isFlaw, FaultList } from './values/flaw.ts';
import {
  DEFAULT_POOL,
  doubtWhatItSets,
  emptyHeader,
  judgeTimes,
  lanesInForce,
  settingsInForce,
  takeSetting,
  type LanesFile,
} from './header.ts';
import type { WrittenLane } from './line/lane-line.ts';
import type { LanePrefix } from './line/lane-prefix.ts';
import { endsHeader, kindOfLine } from './line/line-kind.ts';
import { readLines, type Line } from './text/lines.ts';
import { readNote } from './line/note-line.ts';
import { readPartLine, readSwimLine } from './line/part-line.ts';
import { nameOf, PartTree, type WrittenItem } from './parts.ts';
import type { Item, Part, Session } from './session.ts';
import { settingOf, type SettingLine } from './line/setting-line.ts';
import { allOf, someOf, type SomeOfSquad } from './lanes/some-lanes.ts';
import { placeOf, spreadLine, type Spread, type Squad } from './lanes/spread.ts';

export type { LanesFile } from './header.ts';

const MOST_LEAVES = 100_000;
const NAMELESS = 'Session';
const NOTHING_TO_SWIM = 'nothing to swim: a session needs at least one set, as in 4 x 50 easy @ 1:15';

/** Whether all that is wrong is that no set stands there yet. */
export function isOnlyBegun(faults: readonly Fault[]): boolean {
  return faults.length === 1 && faults[0]!.message === NOTHING_TO_SWIM;
}

/**
 * A session from its text and, if there is one, the lanes file. Faults are in order of lines, one a line, each with
 * its column (code points from 1, a tab counts as 4). Never throws, whatever the text is.
 */
export function parseSession(text: string, lanes: LanesFile | null): Result<Session> {
  const { lines, faults: first } = readLines(text);
  const reading = new SessionReader(new FaultList(first), lanes);
  for (const line of lines) reading.take(line);
  return reading.finish();
}

/** The title of a session's text, read no further than that; null for none. */
export function titleOf(text: string): string | null {
  const { lines, faults } = readLines(text);
  const reading = new SessionReader(new FaultList(faults), null);
  for (const line of lines) {
    if (reading.knowsTitle()) break;
    reading.take(line);
  }
  return reading.titleSoFar();
}

/** A lanes file: `lane`, `pool` and `gap` lines and comments; anything else is a fault. */
export function parseLanes(text: string): Result<LanesFile> {
  const { lines, faults: first } = readLines(text);
  const faults = new FaultList(first);
  const header = emptyHeader();
  for (const line of lines) {
    const setting = settingOf(line.text);
    const belongs = setting?.flaw || ['lane', 'pool', 'gap'].includes(setting?.word ?? '');
    if (setting && belongs) takeSetting(header, line, setting, faults, []);
    else faults.add(line, { at: 0, message: 'not a line of a lanes file: it can have lane, pool and gap lines only' });
  }
  const found = faults.sorted();
  if (found.length > 0) return { ok: false, faults: found };
  const written = Array.from(header.lanes.values()).filter((lane): lane is WrittenLane => lane !== null);
  return {
    ok: true,
    value: { pool: header.pool, gap: header.gap, lanes: written.sort((a, b) => a.number - b.number) },
  };
}

/** A session half read: what the lines so far have said. */
class SessionReader {
  private readonly faults: FaultList;
  private readonly file: LanesFile | null;
  private readonly header = emptyHeader();
  private readonly tree: PartTree;
  private title: string | null = null;
  private inHeader = true;
  /** The first heading or set. */
  private firstBelow: Line | null = null;

  constructor(faults: FaultList, file: LanesFile | null) {
    this.faults = faults;
    this.file = file;
    this.tree = new PartTree(faults);
  }

  take(line: Line): void {
    const { header, faults, tree } = this;
    const found = kindOfLine(line.text, { inHeader: this.inHeader, hasTitle: this.title !== null });
    if (this.inHeader && endsHeader(found)) {
      this.inHeader = false;
      this.firstBelow = line;
    }
    switch (found.kind) {
      case 'setting':
        return takeSetting(header, line, found.setting, faults, this.file?.lanes.map((lane) => lane.number) ?? []);
      case 'setting too late':
        faults.add(line, { at: 0, message: tooLate(found.setting, this.firstBelow) });
        return doubtWhatItSets(found.setting.word, faults);
      case 'note':
        return tree.note(line, readNote(line.text));
      case 'item':
        return this.takeItem(line, found.lanes);
      case 'title':
        this.title = nameOf(line.text);
        return;
      case 'lost setting':
        faults.add(line, found.flaw);
        return doubtWhatItSets(found.word, faults);
      case 'heading':
        return tree.heading(line);
      case 'stranger':
        return this.takeStranger(line);
    }
  }

  /** Whether the title has come, or can come no more. */
  knowsTitle(): boolean {
    return this.title !== null || !this.inHeader;
  }

  titleSoFar(): string | null {
    return this.title;
  }

  finish(): Result<Session> {
    this.tree.close();
    const { header, faults, file } = this;
    judgeTimes(header, faults);
    const certain = !faults.doubts('lanes');
    const lanes = lanesInForce(header, file);
    const settings = settingsInForce(header, file);
    const squad = { lanes, certain, grid: settings.grid };
    const parts = spreadParts(this.tree, squad, faults);
    const found = faults.sorted();
    const swims = parts.some((part) => part.items.some(hasSwim));
    // Any other fault may be in the line that was meant as the set, or is mended first anyway.
    if (!swims && found.length === 0) found.push({ line: 1, column: 1, message: NOTHING_TO_SWIM });
    if (found.length > 0) return { ok: false, faults: found };
    const { title, tree } = this;
    return { ok: true, value: { title, ...settings, lanes: lanes.map(({ lane }) => lane), parts, notes: tree.notes } };
  }

  private takeItem(line: Line, lanes: LanePrefix | null): void {
    const pool = this.header.pool ?? this.file?.pool ?? DEFAULT_POOL;
    this.tree.item(line, readPartLine(line.text, lanes, pool), this.title ?? NAMELESS, lanes);
  }

  /** A line of the header that begins with neither a letter nor a number. */
  private takeStranger(line: Line): void {
    const read = readSwimLine(line.text, DEFAULT_POOL);
    if (isFlaw(read)) this.faults.add(line, read);
  }
}

function spreadParts(tree: PartTree, squad: Squad, faults: FaultList): readonly Part[] {
  let leaves = 0;
  return tree.parts.map(({ name, heading, items }) => {
    const spread: Item[] = [];
    for (const item of items) {
      const done = spreadItem(item, name, allOf(squad), faults);
      if (!done) continue;
      spread.push(done.item);
      const before = leaves;
      leaves += done.leaves;
      if (before <= MOST_LEAVES && leaves > MOST_LEAVES) {
        const message = `with this line all lanes together have more than ${MOST_LEAVES} leaves: write fewer reps or rounds`;
        faults.add(item.line, { at: 0, message });
      }
    }
    return { name, line: heading?.number ?? null, items: spread };
  });
}

/** A line with what stands under it, counted, not written out; null where it is at fault. */
function spreadItem(
  { line, written, lanes, items }: WrittenItem,
  partName: string,
  among: SomeOfSquad,
  faults: FaultList,
): Spread | null {
  const some = lanes ? someOf(among.squad, lanes) : among;
  if (isFlaw(some)) {
    faults.add(line, some);
    return null;
  }
  if (written.kind !== 'rounds' && written.kind !== 'lanes') {
    const spread = spreadLine(line, written, partName, some.squad);
    if (!isFlaw(spread)) return { ...spread, item: some.widen(spread.item) };
    faults.add(line, spread);
    return null;
  }
  const spread: Item[] = [];
  let leaves = 0;
  for (const item of items) {
    const done = spreadItem(item, partName, some, faults);
    if (!done) continue;
    spread.push(done.item);
    leaves += done.leaves;
  }
  const place = placeOf(line, 0);
  if (written.kind === 'lanes') return { item: { kind: 'lanes', ...place, lanes: some.lanes, items: spread }, leaves };
  const { times } = written;
  return { item: { kind: 'rounds', ...place, times, items: spread }, leaves: leaves * times };
}

function hasSwim(item: Item): boolean {
  if (item.kind === 'rounds' || item.kind === 'lanes') return item.items.some(hasSwim);
  return item.kind !== 'talk' && item.kind !== 'break';
}

/** The pool's length without its word, which is a set then. */
const BARE_POOL = /^\d+(?:\.\d+)?\s*(?:m|yd)$/i;

/** Why a setting below the first heading or set is a fault. `first`: that heading or set. */
function tooLate({ word, flaw }: SettingLine, first: Line | null): string {
  if (word === 'lanes') return flaw!.message;
  if (first && BARE_POOL.test(first.text))
    return `${word} is below ${first.text} on line ${first.number}, which is a swim: if that is the pool, write pool ${first.text} there`;
  return word === 'lane'
    ? 'lane is a setting: move it to the top, or for a set of one lane write lane 4: and then the set'
    : `${word} is a setting: move it to the top, before the first heading or set`;
}
