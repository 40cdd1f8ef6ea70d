/*
 * The pages as they were built, read once when the host starts. Nothing outside this list can be fetched, however the
 * path is spelt, and a later build does not mix with this one.
 */

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { extname, join } from 'node:path';

export interface Page {
  readonly body: Buffer;
  readonly type: string;
  /** Whether its name changes with its content, so that browsers may keep it for ever. */
  readonly lasting: boolean;
}

/** Pages by their path in a request: `/`, `/display`, `/assets/…`. */
export type Pages = ReadonlyMap<string, Page>;

const ROUTES: Readonly<Record<string, string>> = {
  '/': 'desk/index.html',
  '/display': 'wall/index.html',
  '/remote': 'remote/index.html',
};

/** The folder in which the build puts files with a hash in their names. */
const HASHED = 'assets';

/** The folder with what a phone asks for that puts the remote on its home screen; its names stay. */
const HOME = 'home';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.wav': 'audio/wav',
  '.txt': 'text/plain; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
};

/** All built pages in a folder, the files that they load, and the licences beside it. */
export function readPages(folder: string): Pages {
  const pages = new Map<string, Page>();
  for (const [route, file] of Object.entries(ROUTES)) {
    const path = join(folder, file);
    if (existsSync(path)) pages.set(route, readPage(path, false));
  }
  const licences = join(folder, '..', 'THIRD-PARTY.txt');
  if (existsSync(licences)) pages.set('/licences', readPage(licences, false));
  const hashed = join(folder, HASHED);
  for (const name of existsSync(hashed) ? readdirSync(hashed) : []) {
    pages.set(`/${HASHED}/${name}`, readPage(join(hashed, name), true));
  }
  const home = join(folder, HOME);
  for (const name of existsSync(home) ? readdirSync(home) : []) {
    pages.set(`/${HOME}/${name}`, readPage(join(home, name), false));
  }
  return pages;
}

function readPage(path: string, lasting: boolean): Page {
  return { body: readFileSync(path), type: TYPES[extname(path)] ?? 'application/octet-stream', lasting };
}
