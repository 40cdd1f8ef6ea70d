/*
 * How the three pages are built: plain files a strict content security policy lets through (no inline
 * script, no data addresses), in syntax that television browsers of 2018 read.
 */

import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

// The server maps `/` to desk, `/display` to wall and `/remote` to remote.
const PAGES = ['desk', 'wall', 'remote'];

const folder = fileURLToPath(new URL('.', import.meta.url));

export default defineConfig({
  root: folder,
  base: '/',
  publicDir: false,
  logLevel: 'warn',
  plugins: [react()],
  // The oldest browsers have no globalThis; self is the same object in pages and workers.
  define: { globalThis: 'self' },
  build: {
    target: ['chrome68', 'es2018'],
    cssTarget: 'chrome68',
    // Fonts and sounds stay files: the policy allows no data addresses.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    emptyOutDir: true,
    reportCompressedSize: false,
    rolldownOptions: { input: pages() },
  },
});

function pages(): Record<string, string> {
  const there = PAGES.filter((page) => existsSync(`${folder}${page}/index.html`));
  const missing = PAGES.filter((page) => !there.includes(page));
  if (missing.length > 0) process.stderr.write(`Pages without an index.html are not built: ${missing.join(', ')}.\n`);
  return Object.fromEntries(there.map((page) => [page, `${folder}${page}/index.html`]));
}
