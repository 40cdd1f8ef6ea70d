/* One line of what the benches print. */

export interface Row {
  readonly what: string;
  readonly result: string;
}

export function row(what: string, result: string): Row {
  return { what, result };
}

/** Aligned columns, as text. */
export function tableText(rows: readonly Row[]): string {
  const width = Math.max(...rows.map(({ what }) => what.length));
  return rows.map(({ what, result }) => `${what.padEnd(width)}   ${result}\n`).join('');
}

/** The median time of a call, in ms, over so many calls after a tenth as many to warm up. */
export function medianTime(calls: number, call: (index: number) => void): number {
  const times: number[] = [];
  for (let index = -Math.ceil(calls / 10); index < calls; index++) {
    const begun = performance.now();
    call(Math.max(0, index));
    if (index >= 0) times.push(performance.now() - begun);
  }
  return times.sort((a, b) => a - b)[Math.floor(times.length / 2)]!;
}
