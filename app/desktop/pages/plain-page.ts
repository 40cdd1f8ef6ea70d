/*
 * The page of a window whose own page has ended again and again: plain words and one link, nothing in it
 * that could end.
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
    <p>It has ended several times within a minute, and is not opened by itself any more.</p>
    <p>The run goes on, and nothing of it is lost.</p>
    <p><a href="${PATHS[kind]}">Open it again</a></p>
    <p>If that does not help: end Lanecall and start it again. A run that was going goes on where it should be.</p>
  </body>
</html>
`;
}
