/*
 * Which folder may import what, for dependency-cruiser: each folder has one list of what it may reach,
 * and everything else is a fault. Imports of types count. The linter and the compiler hold the rest.
 */

const CORE = '^app/core/';
const WIRE = '^app/wire/';
const HOST = '^app/host/';
const LINK = '^renderer/link/';
const UI = '^renderer/ui/';
const SOUND = '^renderer/sound/';
const ASSETS = '^assets/';

const VALIDATOR = packages('zod');
// Only for what is sealed: no wall loads it.
const CIPHERS = packages('@noble/.+');
const SEALING = '^app/wire/sealing/';
// Only for the code that the coach's window shows.
const QR_CODES = packages('uqr');
const SHARING_PANEL = '^renderer/desk/sharing/';
const SERVER_LIBRARIES = packages('ws');
// What the launcher uses of the packages, once they are there.
const BUILD_TOOLS = packages('esbuild', 'vite', 'undici');
const LAUNCHER = '^app/cli/(launcher|build|start)/[^/]+[.]mjs$';
const AFTER_SET_UP = '^app/cli/(build/build|start/download-network)[.]mjs$';
const ELECTRON = ['^electron$', ...packages('electron')];
const PAGE_LIBRARIES = packages('react', 'react-dom', 'zustand', 'howler', '@fontsource/.+');
// Only for the parts of the coach's screens: old televisions do not carry it.
const ARIA = packages('react-aria-components', 'react-aria');
const PARTS = '^renderer/ui/parts/';
// Only for the text editor of the coach's window.
const TEXT_EDITOR = packages('@codemirror/.+');
const EDITOR = '^renderer/desk/editor/';
// Only for the drawings of the coach's window, which are loaded when they are wanted.
const CHARTS = packages('@observablehq/plot');
const DRAWINGS = '^renderer/desk/drawings/';

// Screens know a run by its view, and what they say and ask by the commands; the state behind it they do not see.
const RUN = '^app/core/run/';
const SCREENS_KNOW = [
  `${RUN}view[.]ts$`,
  `${RUN}view/`,
  `${RUN}(align|readings|first-start|record)[.]ts$`,
  `${RUN}hour/(booked-finish|fit)[.]ts$`,
  `${RUN}feedback/(command-record|cut-words|feedback)[.]ts$`,
  `${RUN}command/(command|commands|command-words|command-label|command-fields|expected-reps|overtaken)[.]ts$`,
];
// What folds the run.
const FOLDS = '^renderer/link/(store|follow-run)[.]ts$';

// Where commands, windows, pages, workers and builds start.
const STARTS = [
  '^app/cli/main[.]ts$',
  '^app/cli/(build/build|launcher/(lanecall|launch)|start/download-network)[.]mjs$',
  '^app/desktop/(main|preload/(desk|wall))[.]ts$',
  '^renderer/(desk|wall|remote)/main[.]tsx?$',
  '-worker[.]ts$',
  '^renderer/vite[.]config[.]ts$',
];

// Every folder with sources; `nodeToo` where Node's own modules are at hand at run time.
const WALLS = [
  wall('app/core', { may: [] }),
  wall('app/wire', { may: [CORE, ...VALIDATOR], except: SEALING }),
  wall('app/wire/sealing', { may: [WIRE, ...VALIDATOR, ...CIPHERS] }),
  wall('app/host', { may: [CORE, WIRE, ...SERVER_LIBRARIES], nodeToo: true }),
  wall('app/cli', { may: [CORE, WIRE, HOST, ...SERVER_LIBRARIES], nodeToo: true, except: LAUNCHER }),
  {
    name: 'the launcher runs before any package is there',
    severity: /** @type {const} */ ('error'),
    from: { path: LAUNCHER, pathNot: AFTER_SET_UP },
    to: { pathNot: LAUNCHER, dependencyTypesNot: [/** @type {const} */ ('core')] },
  },
  {
    name: 'its tools come after',
    severity: /** @type {const} */ ('error'),
    from: { path: AFTER_SET_UP },
    to: { pathNot: [LAUNCHER, ...BUILD_TOOLS], dependencyTypesNot: [/** @type {const} */ ('core')] },
  },
  wall('app/desktop', { may: [CORE, WIRE, HOST, ...ELECTRON], nodeToo: true, except: '^app/desktop/preload' }),
  wall('app/desktop/preload', { may: [WIRE, ...ELECTRON] }),
  wall('renderer/link', { may: [CORE, WIRE, ...PAGE_LIBRARIES] }),
  wall('renderer/ui', { may: [CORE, LINK, ASSETS, ...PAGE_LIBRARIES], except: PARTS }),
  wall('renderer/ui/parts', { may: [UI, ...PAGE_LIBRARIES, ...ARIA] }),
  wall('renderer/sound', { may: [CORE, LINK, ASSETS, ...PAGE_LIBRARIES] }),
  wall('renderer/wall', { may: [CORE, LINK, UI, SOUND, ASSETS, ...PAGE_LIBRARIES] }),
  wall('renderer/desk', {
    may: [CORE, LINK, UI, SOUND, ASSETS, ...PAGE_LIBRARIES],
    except: `${EDITOR}|${DRAWINGS}|${SHARING_PANEL}`,
  }),
  wall('renderer/desk/editor', { may: ['^renderer/desk/', CORE, LINK, UI, ...PAGE_LIBRARIES, ...TEXT_EDITOR] }),
  wall('renderer/desk/drawings', { may: [CORE, ...PAGE_LIBRARIES, ...CHARTS] }),
  wall('renderer/desk/sharing', { may: ['^renderer/desk/', CORE, LINK, UI, ASSETS, ...PAGE_LIBRARIES, ...QR_CODES] }),
  wall('renderer/remote', { may: [CORE, LINK, UI, SOUND, ASSETS, ...PAGE_LIBRARIES] }),
];

/** @type {import('dependency-cruiser').ICruiseOptions} */
const options = {
  tsPreCompilationDeps: true,
  doNotFollow: { path: 'node_modules' },
  enhancedResolveOptions: {
    extensions: ['.ts', '.tsx', '.mjs', '.js', '.json', '.css'],
    exportsFields: ['exports'],
    conditionNames: ['import', 'node', 'default', 'types'],
    mainFields: ['module', 'main', 'types'],
  },
};

/** @type {import('dependency-cruiser').IConfiguration} */
export default {
  options,
  forbidden: [
    ...WALLS,
    {
      name: 'screens know a run by its view',
      severity: 'error',
      from: { path: '^renderer/', pathNot: FOLDS },
      to: { path: RUN, pathNot: SCREENS_KNOW },
    },
    {
      name: 'nobody outside the core reaches through a view',
      severity: 'error',
      from: { path: '^(app|renderer)/', pathNot: CORE },
      to: { path: `${RUN}view/settled[.]ts$` },
    },
    {
      name: 'a folder of sources stands in the table',
      severity: 'error',
      from: {
        path: '^(app|renderer)/',
        pathNot: [...WALLS.map((each) => each.from.path), '^renderer/vite[.]config[.]ts$'],
      },
      to: {},
    },
    {
      name: 'only app/desktop imports electron, and what stands in for it its types',
      severity: 'error',
      from: { pathNot: '^(app/desktop|tests/desktop|tests/support/electron-stand-in)/' },
      to: { path: ELECTRON },
    },
    {
      name: 'every file is used by something that starts',
      severity: 'error',
      from: { path: STARTS },
      to: { path: '^(app|renderer)/', pathNot: [...STARTS, '[.]d[.]ts$'], reachable: false },
    },
    {
      name: 'the wall loads no part of the coach’s screens',
      severity: 'error',
      from: { path: '^renderer/wall/' },
      to: { path: PARTS, reachable: true },
    },
    { name: 'nothing imports tests', severity: 'error', from: { pathNot: '^tests/' }, to: { path: '^tests/' } },
    { name: 'no cycles', severity: 'error', from: {}, to: { circular: true } },
    { name: 'every import is there', severity: 'error', from: {}, to: { couldNotResolve: true, pathNot: ELECTRON } },
  ],
};

/**
 * @param {string} place a folder or, with its extension, one file
 * @param {{ may: string[], nodeToo?: boolean, except?: string }} reach what it may import besides itself
 */
function wall(place, { may, nodeToo = false, except }) {
  // `preload` is a file or a folder, so the end of a place without an extension stays open there.
  const itself = place.endsWith('.mjs') ? `^${place}$` : place.endsWith('/preload') ? `^${place}` : `^${place}/`;
  return {
    name: `${place} imports only what it may`,
    severity: /** @type {const} */ ('error'),
    from: { path: itself, ...(except === undefined ? {} : { pathNot: except }) },
    to: { pathNot: [itself, ...may], ...(nodeToo ? { dependencyTypesNot: [/** @type {const} */ ('core')] } : {}) },
  };
}

/** @param {string[]} names */
function packages(...names) {
  // A name alone is how a package shows that is not installed; its types may stand in a folder of their own.
  return names.map((name) => `^${name}$|(^|/)node_modules/(@types/)?${name}(/|$)`);
}
