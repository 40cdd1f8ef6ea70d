/*
 * How pages are built: plain files a strict content security policy lets through (no inline
 * script, no data addresses), in syntax that television browsers of 2018 read.
 */

import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

const folder = fileURLToPath(new URL('.', import.meta.url));

export default defineConfig({
  root: folder,
  base: '/',
  publicDir: false,
  logLevel: 'warn',
  plugins: [react()],
  // The oldest browsers have no globalThis; self is the same object in pages and workers.
  define: { globalThis: 'self' },
  // It knows custom media, by which the widths stand in one file (ui/widths.css); and modules.
  // Names of grid areas are not a module's own: a frame gives places to what stands in it.
  css: {
    transformer: 'lightningcss',
    lightningcss: { drafts: { customMedia: true }, cssModules: { grid: false } },
  },
  build: {
    target: ['chrome68', 'es2018'],
    cssTarget: 'chrome68',
    // Fonts and sounds stay files: the policy allows no data addresses.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    // More than one build goes into the same folder.
    emptyOutDir: false,
    reportCompressedSize: false,
  },
});
