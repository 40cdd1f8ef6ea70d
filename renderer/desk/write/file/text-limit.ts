/*
 * The largest session text that the notation allows.
 */

/** In bytes. */
export const TEXT_LIMIT = 256 * 1024;
