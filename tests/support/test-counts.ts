/*
 * Adds up what the test runner reports in its JSON files, for the one line at the end of `npm test`.
 */

/** Tests, not files. */
export interface Counts {
  readonly passed: number;
  readonly failed: number;
  /** Tests that were not run: marked so, or because what they need is not on this machine. */
  readonly skipped: number;
}

/**
 * @param report the text of one report
 * @returns its counts; a file that failed before any of its tests could run counts as one failure.
 * Throws on a text that is no report.
 */
export function countsOf(report: string): Counts {
  const read: unknown = JSON.parse(report);
  const file = read as { testResults?: readonly { status: string; assertionResults: readonly { status: string }[] }[] };
  if (!Array.isArray(file.testResults)) throw new Error('No report of the test runner.');
  let [passed, failed, skipped] = [0, 0, 0];
  for (const result of file.testResults) {
    const before = failed;
    for (const { status } of result.assertionResults) {
      if (status === 'passed') passed += 1;
      else if (status === 'failed') failed += 1;
      else skipped += 1;
    }
    if (result.status === 'failed' && failed === before) failed += 1;
  }
  return { passed, failed, skipped };
}

/** @returns for example `812 passed, 0 failed` or `812 passed, 0 failed, 2 skipped` */
export function summaryLine(runs: readonly Counts[]): string {
  const sum = (of: keyof Counts) => runs.reduce((total, run) => total + run[of], 0);
  const skipped = sum('skipped');
  return `${sum('passed')} passed, ${sum('failed')} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`;
}
