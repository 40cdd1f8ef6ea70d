/*
 * Whether an X server is there, by the variable that names it and the socket that it listens on.
 */

import { expect, test } from 'vitest';
import { hasXServer } from '../../app/host/x-server.ts';

test.each([
  [':0', ['/tmp/.X11-unix/X0'], true],
  [':12.0', ['/tmp/.X11-unix/X12'], true],
  ['unix:1', ['/tmp/.X11-unix/X1'], true],
  [':1', ['/tmp/.X11-unix/X0'], false],
  ['localhost:10.0', [], true],
  ['', ['/tmp/.X11-unix/X0'], false],
  [undefined, ['/tmp/.X11-unix/X0'], false],
])('[start] DISPLAY %s, with the sockets %j: an X server is there: %s', (name, sockets, expected) => {
  const env = name === undefined ? {} : { DISPLAY: name };
  expect(hasXServer(env, (path) => sockets.includes(String(path)))).toBe(expected);
});
