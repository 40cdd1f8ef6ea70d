/*
 * Scenarios put together by hand, for examples that are worked out on paper: everything that is not
 * said is as the notation has it without a setting.
 */

import {
  everyItem,
  type Scenario,
  type ScenarioItem,
  type ScenarioLane,
  type ScenarioPart,
  type WrittenScenario,
} from '../scenario.ts';

export function lane(number: number, about: Partial<ScenarioLane> = {}): ScenarioLane {
  return { number, base: null, css: null, swimmers: 1, names: [], gap: null, ...about };
}

export function part(heading: string | null, ...items: ScenarioItem[]): ScenarioPart {
  return { heading, items };
}

/** `count x distance @ seconds`, or with a list of counts by lane. */
export function set(count: number | readonly number[], metres: number, seconds: number, words = 'free'): ScenarioItem {
  return {
    kind: 'set',
    line: 0,
    shape: {
      kind: 'repeat',
      counts: typeof count === 'number' ? { same: count } : { each: count },
      distances: { same: metres * 10 },
    },
    words,
    timing: { kind: 'interval', lanes: { same: { kind: 'time', ms: seconds * 1000 } }, step: 0 },
    hold: null,
  };
}

export function untimed(metres: number, words = 'easy'): ScenarioItem {
  return {
    kind: 'set',
    line: 0,
    shape: { kind: 'repeat', counts: { same: 1 }, distances: { same: metres * 10 } },
    words,
    timing: { kind: 'untimed' },
    hold: null,
  };
}

export function pause(kind: 'talk' | 'break', seconds: number): ScenarioItem {
  return { kind, line: 0, ms: seconds * 1000, words: '' };
}

export function rounds(times: number, ...items: ScenarioItem[]): ScenarioItem {
  return { kind: 'rounds', line: 0, times, items, oneLine: false };
}

/** The session, with a line of text for each heading and item; the title is line 1. */
export function plainSession(parts: readonly ScenarioPart[], about: Partial<Scenario> = {}): WrittenScenario {
  const scenario: Scenario = {
    title: 'Harbour squad',
    pool: { hundredths: 2500, unit: 'm' },
    start: null,
    finish: null,
    gap: 5,
    between: { ms: 60_000, auto: false },
    startOn: 5,
    grid: 5,
    lanes: [lane(1)],
    notes: [],
    ...about,
    parts,
  };
  let line = 1;
  const text = parts.map((one) => {
    const heading = one.heading === null ? [] : [one.heading];
    line += heading.length;
    const items = everyItem(one.items).map((item) => {
      item.line = line += 1;
      return plainText(item);
    });
    return [...heading, ...items];
  });
  return {
    scenario,
    header: ['Harbour squad'],
    parts: text,
    finishLine: null,
    lanesText: null,
    lineEnd: '\n',
    byteOrderMark: false,
  };
}

/** Nobody reads it but to see whether two lines say the same. */
function plainText(item: ScenarioItem): string {
  return JSON.stringify({ ...item, line: null, items: null });
}
