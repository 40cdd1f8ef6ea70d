/*
 * Holds the leaves that somebody was told of against those that happened: each exactly once, and no other.
 */

/** A leave by its lane and its time since the run was opened, in ms. */
export interface CalledLeave {
  readonly lane: number;
  readonly at: number;
}

/** What is wrong, a sentence each, none where every leave was called exactly once; `who` begins each of them. */
export function wronglyCalled(
  who: string,
  happened: readonly CalledLeave[],
  called: readonly CalledLeave[],
): readonly string[] {
  const times = new Map<string, { happened: number; called: number }>();
  const countOf = (leave: CalledLeave): { happened: number; called: number } => {
    const name = `lane ${leave.lane} at ${leave.at} ms`;
    const count = times.get(name) ?? { happened: 0, called: 0 };
    times.set(name, count);
    return count;
  };
  for (const leave of happened) countOf(leave).happened++;
  for (const leave of called) countOf(leave).called++;
  return [...times].flatMap(([name, count]) => {
    if (count.happened === count.called) return [];
    if (count.called === 0) return [`${who}: ${name} was never called`];
    if (count.happened === 0) return [`${who}: ${name} was called and did not happen`];
    return [`${who}: ${name} happened ${count.happened} times and was called ${count.called} times`];
  });
}
