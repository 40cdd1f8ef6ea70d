/*
 * Which lanes wall screens show: as an address asks for them, on one screen, and on none.
 */

/** The lanes that are chosen for a screen; null for all. */
export type ChosenLanes = ReadonlySet<number> | null;

/** "1-4", "1,3": null where it names no lane. */
export function readLanes(text: string): ChosenLanes {
  const lanes = new Set<number>();
  for (const item of text.split(',')) {
    const range = /^\s*(\d{1,2})(?:\s*-\s*(\d{1,2}))?\s*$/.exec(item);
    if (!range) continue;
    const first = Number(range[1]);
    const last = Number(range[2] ?? range[1]);
    for (let lane = Math.min(first, last); lane <= Math.max(first, last); lane++) lanes.add(lane);
  }
  return lanes.size > 0 ? lanes : null;
}

/** The chosen ones of the lanes there are; all of them where none of those chosen is there. */
export function lanesOn(all: readonly number[], chosen: ChosenLanes): readonly number[] {
  const shown = chosen ? all.filter((lane) => chosen.has(lane)) : all;
  return shown.length > 0 ? shown : all;
}

/** The lanes that none of several screens shows. */
export function lanesOnNone(all: readonly number[], screens: readonly ChosenLanes[]): readonly number[] {
  return all.filter((lane) => !screens.some((chosen) => lanesOn(all, chosen).includes(lane)));
}
