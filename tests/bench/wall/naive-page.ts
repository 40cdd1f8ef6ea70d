/*
 * Gives a browser the naive wall at `/naive` of the host, with the wall's own style sheet.
 */

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import type { BrowserContext } from 'playwright';

const fileAt = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

export async function serveNaive(context: BrowserContext, origin: string): Promise<void> {
  const { outputFiles } = await build({
    entryPoints: [fileAt('naive.tsx')],
    bundle: true,
    minify: true,
    write: false,
    format: 'iife',
    jsx: 'automatic',
    target: 'chrome100',
    define: { 'process.env.NODE_ENV': '"production"' },
    loader: { '.css': 'empty' },
  });
  const page = readFileSync(fileAt('../../../dist/pages/wall/index.html'), 'utf8');
  const sheets = page.match(/<link rel="stylesheet"[^>]*>/g) ?? [];
  const body = `<!doctype html><html lang="en"><title>naive</title>${sheets.join('')}<body><div id="root"></div><script src="/naive.js"></script>`;
  await context.route(`${origin}/naive`, (route) => route.fulfill({ contentType: 'text/html', body }));
  await context.route(`${origin}/naive.js`, (route) =>
    route.fulfill({ contentType: 'text/javascript', body: outputFiles[0]!.text }),
  );
}
