/*
 * How an estimate is marked, the same everywhere. A leave is none: the program sends the lane off at that reading,
 * whatever its interval was worked out from.
 */

/** Right in front of a text that is an estimate, "≈6:10", so that no line breaks behind it; '' in front of others. */
export function about(isEstimate: boolean): string {
  return isEstimate ? '≈' : '';
}
