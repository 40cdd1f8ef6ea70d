/*
 * A session as the model knows it: what the coach means, with the text beside it. The model never
 * reads text; it invents a meaning, writes it down in one of the many ways that the notation allows,
 * and keeps both, so that whatever reads the text can be held against the meaning.
 */

export type LengthUnit = 'm' | 'yd';

export interface Scenario {
  readonly title: string | null;
  /** The length in hundredths of the unit. */
  readonly pool: { readonly hundredths: number; readonly unit: LengthUnit };
  /** Minutes after midnight. */
  readonly start: number | null;
  readonly finish: number | null;
  /** Seconds, for lanes that name none. */
  readonly gap: number;
  readonly between: { readonly ms: number; readonly auto: boolean };
  /** Seconds. */
  readonly startOn: number;
  /** Seconds. */
  readonly grid: number;
  /** By rising number; at least one. */
  readonly lanes: readonly ScenarioLane[];
  /** Those above the first heading or set: they belong to the whole session. */
  readonly notes: readonly ScenarioNote[];
  readonly parts: readonly ScenarioPart[];
}

export interface ScenarioLane {
  readonly number: number;
  /** Milliseconds a 100, null where the lane has none of its own. */
  readonly base: number | null;
  readonly css: number | null;
  readonly swimmers: number;
  /** Empty where the swimmers were only counted. */
  readonly names: readonly string[];
  /** Seconds, null where the session's counts. */
  readonly gap: number | null;
}

export interface ScenarioPart {
  /** null for sets that stand before any heading. */
  readonly heading: string | null;
  readonly items: readonly ScenarioItem[];
}

/** The line of each is 0 until the text is written. */
export type ScenarioItem =
  ScenarioSet | ScenarioBlock | ScenarioTimedSwim | ScenarioRounds | ScenarioLanes | ScenarioPause | ScenarioNote;

/** One value for all lanes, or one a lane in lane order: of the lanes that the line is for. */
export type PerLane<Value> = { readonly same: Value } | { readonly each: readonly Value[] };

/** One for all reps, or one a rep. */
export type PerRep<Value> = Value | { readonly reps: readonly Value[] };

export interface ScenarioSet {
  readonly kind: 'set';
  line: number;
  readonly shape: SetShape;
  readonly words: string;
  readonly timing: ScenarioTiming;
  /** Of a set of odds and evens: for both, where neither has its own. */
  readonly hold: PerRep<PerLane<HoldWord>> | null;
}

/** Distances are in tenths of the unit. */
export type SetShape =
  | { readonly kind: 'repeat'; readonly counts: PerLane<number>; readonly distances: PerLane<number> }
  | { readonly kind: 'ladder'; readonly rungs: readonly number[] };

/** As many reps as fit into the time. */
export interface ScenarioBlock {
  readonly kind: 'block';
  line: number;
  readonly ms: number;
  readonly distances: PerLane<number>;
  readonly words: string;
  readonly timing: PlainTiming;
  readonly hold: PerLane<HoldWord> | null;
}

export interface ScenarioTimedSwim {
  readonly kind: 'timed-swim';
  line: number;
  readonly ms: number;
  readonly words: string;
}

export interface ScenarioRounds {
  readonly kind: 'rounds';
  line: number;
  readonly times: number;
  readonly items: readonly ScenarioItem[];
  /** `3 x 4 x 50`: the rounds and their only set stand on one line. */
  readonly oneLine: boolean;
}

/** Lines for some lanes alone. Lists in them have one value for each of these lanes. */
export interface ScenarioLanes {
  readonly kind: 'lanes';
  line: number;
  /** Indexes among the session's lanes, rising. */
  readonly lanes: readonly number[];
  readonly items: readonly ScenarioItem[];
  /** `lanes 1-3: 4 x 50`: the lanes and what they swim, or its rounds, stand on one line. */
  readonly oneLine: boolean;
}

export interface ScenarioPause {
  readonly kind: 'talk' | 'break';
  line: number;
  readonly ms: number;
  readonly words: string;
}

export interface ScenarioNote {
  readonly kind: 'note' | 'kit';
  line: number;
  readonly words: string;
}

export type PlainTiming =
  /** step: milliseconds that each rep's interval is longer than the one before; negative for `drop`. */
  | { readonly kind: 'interval'; readonly lanes: PerLane<IntervalWord>; readonly step: number }
  | { readonly kind: 'rest'; readonly lanes: PerLane<number> };

export type ScenarioTiming =
  | PlainTiming
  /** One interval a rep. */
  | { readonly kind: 'listed'; readonly reps: readonly PerLane<IntervalWord>[] }
  | { readonly kind: 'halves'; readonly odds: ScenarioHalf; readonly evens: ScenarioHalf }
  | { readonly kind: 'untimed' };

/** The odd reps of a set, or the even ones: their own words, beside the line's, and their own timing. */
export interface ScenarioHalf {
  readonly words: string;
  readonly timing: PlainTiming;
  readonly hold: PerLane<HoldWord> | null;
}

/** plus: milliseconds a rep. */
export type IntervalWord =
  { readonly kind: 'time'; readonly ms: number } | { readonly kind: 'base' | 'css'; readonly plus: number };

/** plus: milliseconds a 100. */
export type HoldWord = { readonly kind: 'time'; readonly ms: number } | { readonly kind: 'css'; readonly plus: number };

/** A scenario with a text that means it. The text's lines are kept by part, because a rewrite keeps some of them. */
export interface WrittenScenario {
  readonly scenario: Scenario;
  /** All lines before the first part. */
  readonly header: readonly string[];
  /** A part's first line is its heading, or its first set where it has none. */
  readonly parts: readonly (readonly string[])[];
  readonly finishLine: number | null;
  /** What stands in the lanes file; null without one. */
  readonly lanesText: string | null;
  readonly lineEnd: '\n' | '\r\n';
  readonly byteOrderMark: boolean;
}

export function valueFor<Value>(list: PerLane<Value>, laneIndex: number): Value {
  if ('same' in list) return list.same;
  const value = list.each[laneIndex];
  if (value === undefined)
    throw new RangeError(`a list of ${list.each.length} has no value for lane index ${laneIndex}`);
  return value;
}

export function textOf(written: WrittenScenario): string {
  const lines = linesOf(written);
  return (written.byteOrderMark ? '\uFEFF' : '') + lines.map((line) => line + written.lineEnd).join('');
}

export function linesOf(written: WrittenScenario): string[] {
  return [...written.header, ...written.parts.flat()];
}

/** The number of the last line before part `index`; of the last line of all where there is no such part. */
export function lastLineBefore(written: WrittenScenario, index: number): number {
  return written.header.length + written.parts.slice(0, index).flat().length;
}

/** How many reps the line has in a lane, as written. */
export function repsWritten(shape: SetShape, laneIndex: number): number {
  return shape.kind === 'ladder' ? shape.rungs.length : valueFor(shape.counts, laneIndex);
}

/** Every item of the items given and of what they hold, in the order of the text. */
export function everyItem(items: readonly ScenarioItem[]): ScenarioItem[] {
  return items.flatMap((item) => (hasItems(item) ? [item, ...everyItem(item.items)] : [item]));
}

/** The same, each with the session as it is for the lanes that swim the item. */
export function everyItemInLanes(
  items: readonly ScenarioItem[],
  scenario: Scenario,
): { item: ScenarioItem; own: Scenario }[] {
  return items.flatMap((item) => {
    const inner = item.kind === 'lanes' ? ofLanes(scenario, item.lanes) : scenario;
    const under = hasItems(item) ? everyItemInLanes(item.items, inner) : [];
    return [{ item, own: inner }, ...under];
  });
}

/** The session with no lanes but these: in lines for them alone, they are all the lanes there are. */
export function ofLanes(scenario: Scenario, indexes: readonly number[]): Scenario {
  return { ...scenario, lanes: scenario.lanes.filter((_lane, index) => indexes.includes(index)) };
}

export function hasItems(item: ScenarioItem): item is ScenarioRounds | ScenarioLanes {
  return item.kind === 'rounds' || item.kind === 'lanes';
}

export function isNote(item: ScenarioItem): item is ScenarioNote {
  return item.kind === 'note' || item.kind === 'kit';
}

/** A line that somebody swims, as it stands. */
export function isSwum(item: ScenarioItem): item is ScenarioSet | ScenarioBlock | ScenarioTimedSwim {
  return item.kind === 'set' || item.kind === 'block' || item.kind === 'timed-swim';
}
