/*
 * Shown in a window whose own page has crashed again and again: plain text and one link, and no script that could
 * crash.
 */

import { PATHS, type WindowKind } from '../windows/window-kind.ts';

const TITLES: Readonly<Record<WindowKind, string>> = {
  desk: "The coach's window has stopped",
  wall: 'The wall screen has stopped',
};

export function plainPage(kind: WindowKind): string {
  return `<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta name="color-scheme" content="light dark" />
    <title>${TITLES[kind]}</title>
  </head>
  <body>
    <h1>${TITLES[kind]}</h1>
    <p>It has crashed several times within a minute, so it is no longer opened by itself.</p>
    <p>The run goes on, and nothing of it is lost.</p>
    <p><a href="${PATHS[kind]}">Open it again</a></p>
    <p>If that does not help, quit Lanecall and start it again. A run that was going comes back at the right place.</p>
  </body>
</html>
`;
}
