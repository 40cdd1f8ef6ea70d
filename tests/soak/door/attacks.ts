/*
 * What somebody on the pool's network may try for the sake of harm.
 */

export const ATTACKS = ['1 000 silent sockets', '10 000 times junk', 'frames of 1 MiB', 'endless headers'] as const;
