/*
 * Whether sharing is taken up again at a start: only where a run has come back that was cut off less than ten minutes
 * ago, and the machine has the same address.
 */

import type { FoundRun } from '../../recovery/found-run.ts';
import type { PrivateAddress } from './addresses.ts';

/** In ms. */
const CUT_OFF_WITHIN = 600_000;

export function sharesAgain(
  found: Pick<FoundRun, 'position'> | null,
  kept: string | null,
  addresses: readonly PrivateAddress[],
): kept is string {
  if (!found || kept === null || !addresses.some(({ address }) => address === kept)) return false;
  const { at, seenAt, isKnown } = found.position;
  return isKnown && at - seenAt < CUT_OFF_WITHIN;
}

/** What the coach is told then. */
export function sharingAgainText(address: string): string {
  return `Lanecall is shared again at ${address}, as it was before it was cut off: stop sharing under Screens if it is not wanted.`;
}
