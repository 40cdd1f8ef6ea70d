/*
 * Has a browser show the naive wall at the wall's own address: the host's page and style sheet, with another script.
 */

import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import type { BrowserContext } from 'playwright';

export async function serveNaive(context: BrowserContext): Promise<void> {
  const { outputFiles } = await build({
    entryPoints: [fileURLToPath(new URL('naive.tsx', import.meta.url))],
    bundle: true,
    minify: true,
    write: false,
    format: 'iife',
    jsx: 'automatic',
    target: 'chrome100',
    define: { 'process.env.NODE_ENV': '"production"' },
  });
  const body = outputFiles[0]!.text;
  await context.route(/\/assets\/wall-[^/]*\.js$/, (route) => route.fulfill({ contentType: 'text/javascript', body }));
}
