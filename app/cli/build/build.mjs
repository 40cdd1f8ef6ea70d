/*
 * Builds dist/: the program in one file for Node, the desktop program's few files, and the pages. Run by set-up.mjs,
 * with the packages in place and the lock held. The new build is made beside the old one and then moved into its
 * place, so that a program that is running never sees half a build. The same sources give the same bytes.
 */

import { cpSync, existsSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build as bundle } from 'esbuild';
import { build as buildPages } from 'vite';
import { UNFINISHED } from '../launcher/lock.mjs';
import { thirdPartyText } from './third-party.mjs';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const [stamp, dist = join(root, 'dist')] = process.argv.slice(2);
if (stamp === undefined)
  throw new Error('build.mjs takes the stamp of the sources it builds, and a folder if not dist/.');
const NODE_BUNDLE = /** @type {const} */ ({
  absWorkingDir: root,
  bundle: true,
  platform: 'node',
  // Electron's own Node is newer; the tests run the desktop program's files on this one.
  target: 'node20.19',
  charset: 'utf8',
  // The licences are in THIRD-PARTY.txt, in full.
  legalComments: 'none',
  metafile: true,
  logLevel: 'warning',
});
const fresh = mkdtempSync(join(dist, UNFINISHED));

// The environment of whoever asks first, a test run for one, must not decide which React goes into the pages.
process.env['NODE_ENV'] = 'production';

const bundled = [
  ...(await buildProgram(join(fresh, 'lanecall.mjs'))),
  ...(await buildDesktop(join(fresh, 'desktop'))),
  // The wall by itself: old televisions load it, and files that it shared would bring what only a coach reads.
  ...(await buildPagesInto(join(fresh, 'pages'), ['wall'])),
  ...(await buildPagesInto(join(fresh, 'pages'), ['desk', 'remote'])),
];
// For a phone's home screen, under names that stay.
cpSync(join(root, 'assets', 'home'), join(fresh, 'pages', 'home'), { recursive: true });
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
writeFileSync(join(fresh, 'THIRD-PARTY.txt'), thirdPartyText(version, bundled));
rmSync(join(dist, '.stamp'), { force: true });
for (const name of ['lanecall.mjs', 'desktop', 'pages', 'THIRD-PARTY.txt']) {
  if (existsSync(join(dist, name))) renameSync(join(dist, name), join(fresh, `${name}-before`));
  renameSync(join(fresh, name), join(dist, name));
}
rmSync(fresh, { recursive: true });
// Last, so that a build that was interrupted counts as none.
writeFileSync(join(dist, '.stamp'), stamp);

/** @param {string} outfile */
async function buildProgram(outfile) {
  const { metafile } = await bundle({
    ...NODE_BUNDLE,
    entryPoints: [join(root, 'app', 'cli', 'main.ts')],
    outfile,
    format: 'esm',
    // Packages written as CommonJS ask for Node's own modules by require, which a module file has not.
    banner: {
      js: "import { createRequire as requireFrom } from 'node:module';\nconst require = requireFrom(import.meta.url);",
    },
    // Optional native speed-ups of ws, which it looks for and does without.
    external: ['bufferutil', 'utf-8-validate'],
  });
  return filesIn(metafile);
}

/**
 * The main process, and for each window a preload script that needs no other file, because a sandboxed one
 * can load none.
 * @param {string} outdir
 */
async function buildDesktop(outdir) {
  const desktop = join(root, 'app', 'desktop');
  const { metafile } = await bundle({
    ...NODE_BUNDLE,
    entryPoints: {
      main: join(desktop, 'main.ts'),
      'preload-desk': join(desktop, 'preload', 'desk.ts'),
      'preload-wall': join(desktop, 'preload', 'wall.ts'),
    },
    outdir,
    outExtension: { '.js': '.cjs' },
    format: 'cjs',
    external: ['electron'],
  });
  return filesIn(metafile);
}

/**
 * The files of which something is left in the bundle.
 * @param {import('esbuild').Metafile} metafile
 */
function filesIn({ outputs }) {
  return Object.values(outputs).flatMap(({ inputs }) =>
    Object.entries(inputs).flatMap(([file, { bytesInOutput }]) => (bytesInOutput > 0 ? [join(root, file)] : [])),
  );
}

/**
 * The server maps `/` to desk, `/display` to wall and `/remote` to remote.
 * @param {string} outDir
 * @param {string[]} pages with what they share in files of its own
 */
async function buildPagesInto(outDir, pages) {
  const folder = join(root, 'renderer');
  const input = Object.fromEntries(pages.map((page) => [page, join(folder, page, 'index.html')]));
  /** @type {string[]} */
  const files = [];
  const collect = {
    name: 'what-went-in',
    /**
     * @param {unknown} _
     * @param {import('vite').Rolldown.OutputBundle} outputs
     */
    generateBundle(_, outputs) {
      for (const output of Object.values(outputs)) {
        if (output.type === 'asset') files.push(...output.originalFileNames.map((name) => join(folder, name)));
        else files.push(...Object.entries(output.modules).flatMap(([id, { code }]) => (code ? [id] : [])));
      }
    },
  };
  await buildPages({
    configFile: join(folder, 'vite.config.ts'),
    plugins: [collect],
    // How long plugins take says how busy the machine is, and nothing of the build.
    build: {
      outDir,
      rolldownOptions: { input, checks: { pluginTimings: false } },
      // In kB, of the coach's window with its text editor: it comes from the same machine. The wall has a bound of its own in the tests.
      chunkSizeWarningLimit: 700,
    },
  });
  return files;
}
