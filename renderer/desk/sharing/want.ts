/*
 * How parts of sharing ask the host for something.
 */

import type { SharingWish } from '../../link/store.ts';

/** Resolves with why it was not done; null where it was. */
export type Want = (wish: SharingWish) => Promise<string | null>;
