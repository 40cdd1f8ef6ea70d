/*
 * The two windows of the desktop program and the addresses of their pages, under a scheme of its own:
 * nothing of the program is ever loaded from the network or from `file:`.
 */

export type WindowKind = 'desk' | 'wall';

export const SCHEME = 'app';
export const HOST = 'lanecall';

/** As the host serves them. */
export const PATHS: Readonly<Record<WindowKind, string>> = { desk: '/', wall: '/display' };

/** Shown in place of a page that keeps ending. */
export const PLAIN_PATH = '/stopped';

export function pageAddress(kind: WindowKind): string {
  return `${SCHEME}://${HOST}${PATHS[kind]}`;
}

/** The page that says what to do, for a window whose own page keeps ending. */
export function plainAddress(kind: WindowKind): string {
  return `${SCHEME}://${HOST}${PLAIN_PATH}?window=${kind}`;
}

/** The parsed address if it is one of the program's own; null for any other text. */
export function ownAddress(address: string): URL | null {
  let url: URL;
  try {
    url = new URL(address);
  } catch {
    return null;
  }
  const own = url.protocol === `${SCHEME}:` && url.host === HOST && url.username === '' && url.password === '';
  return own ? url : null;
}

/** Whether an address is the page of this kind of window. */
export function isPageOf(kind: WindowKind, address: string): boolean {
  return ownAddress(address)?.pathname === PATHS[kind];
}
