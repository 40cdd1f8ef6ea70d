/*
 * Whether there is an X server to speak to under Linux. The variable alone does not say: it may have outlived the
 * server that it names, and a program that is told to use that one ends before it has shown anything.
 */

import { existsSync } from 'node:fs';

/** isThere: whether there is such a file. A server on another machine is taken at its word. */
export function hasXServer(env: Readonly<Record<string, string | undefined>>, isThere = existsSync): boolean {
  const name = env['DISPLAY'] ?? '';
  const [, local] = /^(?:unix)?:(\d+)/.exec(name) ?? [];
  return local === undefined ? name !== '' : isThere(`/tmp/.X11-unix/X${local}`);
}
