/*
 * The pages as they were built, read once when the host starts: what is not in this list cannot be
 * asked for, however a path is spelt, and a new build made meanwhile does not mix with the old one.
 */

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { extname, join } from 'node:path';

export interface Page {
  readonly body: Buffer;
  readonly type: string;
  /** Whether its name changes with its content, so that it may be kept for ever. */
  readonly lasting: boolean;
}

/** By path as in a request: `/`, `/display`, `/assets/…`. */
export type Pages = ReadonlyMap<string, Page>;

const ROUTES: Readonly<Record<string, string>> = {
  '/': 'desk/index.html',
  '/display': 'wall/index.html',
  '/remote': 'remote/index.html',
};

/** Where the build puts what has a hash in its name. */
const HASHED = 'assets';

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
};

/** All pages in a folder and what they load, and the licences beside it; what is not built is not there. */
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
  return pages;
}

function readPage(path: string, lasting: boolean): Page {
  return { body: readFileSync(path), type: TYPES[extname(path)] ?? 'application/octet-stream', lasting };
}
