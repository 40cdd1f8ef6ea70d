/*
 * The twenty points of Electron's list for programs that are to be safe (its documentation, "Security",
 * in that order), each as the program answers it. What only a real runtime can enforce is not tried here.
 */

import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ESLint } from 'eslint';
import { describe, expect, test, vi } from 'vitest';
import type { Framing } from '../../app/host/web/replies.ts';
import {
  guardNavigation,
  guardRequests,
  mayFrame,
  mayNavigate,
  mayRequest,
} from '../../app/desktop/pages/address-rules.ts';
import { headersOf, pageReply, registerScheme } from '../../app/desktop/pages/app-pages.ts';
import { guardPermissions, mayHave } from '../../app/desktop/pages/permissions.ts';
import { mayUse } from '../../app/desktop/messages/sender.ts';
import { webPreferences } from '../../app/desktop/windows/web-preferences.ts';
import { pageAddress, plainAddress } from '../../app/desktop/windows/window-kind.ts';
import type { Page } from '../../app/host/web/pages.ts';
import { CHANNELS } from '../../app/wire/window-bridge.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const desktop = join(root, 'app/desktop');
const sources = readdirSync(desktop, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .map((name) => ({ name, text: readFileSync(join(desktop, name), 'utf8') }));
const pages = new Map<string, Page>([
  ['/', { body: Buffer.from('<html>'), type: 'text/html; charset=utf-8', lasting: false }],
]);

const registered = vi.hoisted(() => [] as unknown[]);
vi.mock('electron', () => ({
  protocol: { registerSchemesAsPrivileged: (schemes: unknown[]) => registered.push(...schemes) },
}));

const ELSEWHERE = [
  'https://example.org/',
  'http://127.0.0.1:7525/',
  'file:///etc/passwd',
  'app://elsewhere/',
  'app://lanecall.example.org/',
  'app://lanecall@example.org/',
  'app://user@lanecall/',
  'apps://lanecall/',
  'javascript:alert(1)',
  'about:blank',
  '',
];

describe('[security]', () => {
  test('1: only content of the program itself is loaded', () => {
    for (const kind of ['desk', 'wall'] as const) {
      expect([pageAddress(kind), plainAddress(kind)].every((address) => address.startsWith('app://lanecall/'))).toBe(
        true,
      );
    }
    expect(ELSEWHERE.filter(mayRequest)).toEqual([]);
    expect(mayRequest('app://lanecall/assets/leave.wav')).toBe(true);
    expect(
      ['blob:https://example.org/1', 'ws://example.org/', 'wss://lanecall/', 'http://example.org/data:'].filter(
        mayRequest,
      ),
    ).toEqual([]);
    let cancelled: unknown[] = [];
    guardRequests({
      webRequest: {
        onBeforeRequest: (listener: (details: { url: string }, answer: (said: unknown) => void) => void) =>
          ELSEWHERE.forEach((url) => listener({ url }, (said) => (cancelled = [...cancelled, said]))),
      },
    } as never);
    expect(cancelled).toEqual(ELSEWHERE.map(() => ({ cancel: true })));
  });

  test.each([
    ['2', 'nodeIntegration', false],
    ['2', 'nodeIntegrationInWorker', false],
    ['2', 'nodeIntegrationInSubFrames', false],
    ['3', 'contextIsolation', true],
    ['4', 'sandbox', true],
    ['6', 'webSecurity', true],
    ['8', 'allowRunningInsecureContent', false],
    ['9', 'experimentalFeatures', false],
    ['11', 'webviewTag', false],
    ['13', 'navigateOnDragDrop', false],
    ['Besides, no word list is fetched', 'spellcheck', false],
    ['Besides, clock and cues run on behind other windows', 'backgroundThrottling', false],
  ] as const)('%s: %s is %s in every window', (_, name, value) => {
    expect(webPreferences('/preload.cjs')[name]).toBe(value);
  });

  test('2 to 12: windows are made in one place, with these preferences alone', async () => {
    const makers = sources.filter(({ text }) => text.includes('new BrowserWindow('));
    expect(makers.map(({ name }) => name)).toEqual([join('windows', 'program-window.ts')]);
    expect(makers[0]!.text.match(/webPreferences:/g)).toHaveLength(1);
    expect(makers[0]!.text).toMatch(/webPreferences: webPreferences\(/);
    const syntax = await ruleFor('menu.ts', 'no-restricted-syntax');
    expect(JSON.stringify(syntax)).toContain("NewExpression[callee.name='BrowserWindow']");
  });

  test('4: the whole program is sandboxed before it is ready', () => {
    expect(sources.find(({ name }) => name === 'main.ts')!.text).toContain('app.enableSandbox()');
  });

  test('5: permissions are denied unless they are named, when asked for and when looked up', () => {
    const own = pageAddress('desk');
    const asked = [
      'media',
      'geolocation',
      'notifications',
      'midi',
      'clipboard-read',
      'openExternal',
      'hid',
      'usb',
      'unknown',
    ];
    expect(asked.filter((permission) => mayHave(permission, own))).toEqual([]);
    expect(mayHave('fullscreen', own)).toBe(true);
    expect(ELSEWHERE.filter((address) => mayHave('fullscreen', address))).toEqual([]);
    const handlers: Record<string, (...words: never[]) => unknown> = {};
    const keep = (name: string) => (handler: (...words: never[]) => unknown) => void (handlers[name] = handler);
    guardPermissions({
      setPermissionRequestHandler: keep('request'),
      setPermissionCheckHandler: keep('check'),
      setDevicePermissionHandler: keep('device'),
    } as never);
    const answers: boolean[] = [];
    const answer = (said: boolean) => answers.push(said);
    handlers['request']!(...([{}, 'media', answer, { requestingUrl: own }] as never[]));
    handlers['request']!(...([{}, 'fullscreen', answer, { requestingUrl: own }] as never[]));
    expect(answers).toEqual([false, true]);
    const checked = (permission: string, origin: string, requestingUrl?: string) =>
      handlers['check']!(...([{}, permission, origin, { requestingUrl }] as never[]));
    expect([checked('media', own), checked('fullscreen', own)]).toEqual([false, true]);
    expect([checked('fullscreen', 'null', own), checked('fullscreen', own, ELSEWHERE[0])]).toEqual([true, false]);
    expect(handlers['device']!()).toBe(false);
  });

  test('7: every page has a strict content security policy', () => {
    const policy = headersOf('text/html')['Content-Security-Policy'] ?? '';
    expect(policy).toMatch(/^default-src 'none'; script-src 'self'; style-src 'self';/);
    expect(policy).toContain("connect-src 'self';");
    for (const word of ["frame-ancestors 'none'", "base-uri 'none'", "form-action 'none'"])
      expect(policy).toContain(word);
    expect(policy).not.toMatch(/unsafe|http|ws:|\*/);
  });

  test('7: the coach’s page may add the style sheet of its editor, by a word that is new each time', () => {
    const page = Buffer.from('<meta name="style-nonce" nonce="word-for-style-sheets-" />');
    const ask = () =>
      pageReply(new Map([['/', { body: page, type: 'text/html', lasting: false }]]), 'GET', 'app://lanecall/');
    const [one, two] = [ask(), ask()];
    expect(Buffer.from(one.body as Uint8Array).toString()).toBe(`<meta name="style-nonce" nonce="${one.nonce}" />`);
    expect(one.nonce).toMatch(/^[\w-]{22}$/);
    expect(two.nonce).not.toBe(one.nonce);
    const policy = headersOf('text/html', one.nonce)['Content-Security-Policy'];
    expect(policy).toContain(`; style-src 'self' 'nonce-${one.nonce}';`);
  });

  test('10: no features of the engine are switched on by name', () => {
    expect(webPreferences('/preload.cjs')).not.toHaveProperty('enableBlinkFeatures');
    expect(sources.filter(({ text }) => /enableBlinkFeatures|enable-features|enable-blink/.test(text))).toEqual([]);
  });

  test('12, 13, 14: no web view, no navigation, no new window, whoever asks for it', () => {
    const listeners = new Map<string, (details: object) => void>();
    let open: () => unknown = () => null;
    guardNavigation(
      {
        on: (event: string, listener: (details: object) => void) => listeners.set(event, listener),
        setWindowOpenHandler: (handler: () => unknown) => (open = handler),
      } as never,
      'wall',
    );
    const isRefused = (event: string, details: object): boolean => {
      let refused = false;
      listeners.get(event)!({ ...details, preventDefault: () => (refused = true) });
      return refused;
    };
    expect(isRefused('will-attach-webview', {})).toBe(true);
    expect(isRefused('will-redirect', { url: pageAddress('wall') })).toBe(true);
    for (const url of [...ELSEWHERE, pageAddress('desk')]) {
      expect(isRefused('will-navigate', { url }), url).toBe(true);
      expect(isRefused('will-frame-navigate', { url, isMainFrame: true }), url).toBe(true);
    }
    for (const url of [pageAddress('wall'), 'app://lanecall/display?preview=Wall'])
      expect(isRefused('will-frame-navigate', { url, isMainFrame: false }), url).toBe(true);
    expect(isRefused('will-navigate', { url: pageAddress('wall') })).toBe(false);
    expect(isRefused('will-frame-navigate', { url: pageAddress('wall'), isMainFrame: true })).toBe(false);
    expect(mayNavigate('wall', 'app://lanecall/display?lanes=1-3')).toBe(true);
    expect(mayNavigate('wall', 'app://lanecall/display/../')).toBe(false);
    expect(open()).toEqual({ action: 'deny' });
  });

  test.each([
    ['desk', 'app://lanecall/display?preview=Hall&lanes=1-3', true],
    ['desk', 'app://lanecall/display', false],
    ['desk', 'app://lanecall/?preview=Hall', false],
    ['desk', 'app://lanecall/remote?preview=Hall', false],
    ['desk', 'https://example.org/display?preview=Hall', false],
    ['desk', 'about:srcdoc?preview=Hall', false],
    ['wall', 'app://lanecall/display?preview=Hall', false],
  ] as const)(
    "[screens] 13: a frame shows a wall screen small, in the coach's window alone: %s, %s",
    (kind, url, may) => {
      expect(mayFrame(kind, url)).toBe(may);
    },
  );

  test('[screens] 7: the pages that frame and are framed say so, and no other', () => {
    const policyOf = (framing?: Framing): string =>
      headersOf('text/html', null, framing)['Content-Security-Policy'] ?? '';
    expect(policyOf('frames walls')).toContain("frame-src 'self'; frame-ancestors 'none'");
    expect(policyOf('framed')).toContain("frame-ancestors 'self'");
    expect(policyOf()).not.toContain('frame-src');
  });

  test('15: nothing is ever opened in another program', async () => {
    expect(sources.filter(({ text }) => /openExternal|openPath|\bshell\b/.test(text))).toEqual([]);
    const imports = JSON.stringify(await ruleFor('menu.ts', 'no-restricted-imports'));
    for (const name of ['shell', 'net', 'autoUpdater', 'globalShortcut', 'node:http']) {
      expect(imports).toContain(`"${name}"`);
    }
  });

  test('16: one exact version of Electron is wanted, installed and packed', () => {
    const json = (path: string) => JSON.parse(readFileSync(join(root, path), 'utf8')) as Record<string, never>;
    const wanted = json('package.json')['devDependencies']!['electron'];
    expect(wanted).toMatch(/^\d+\.\d+\.\d+$/);
    expect(json('node_modules/electron/package.json')['version']).toBe(wanted);
    expect(readFileSync(join(root, 'electron-builder.yml'), 'utf8')).toContain(
      `\nelectronVersion: ${String(wanted)}\n`,
    );
  });

  test('17: a message counts only from the right window, its own frame and its own page', () => {
    const desk = { kind: 'desk', address: pageAddress('desk'), isTop: true } as const;
    const wall = { kind: 'wall', address: pageAddress('wall'), isTop: true } as const;
    const channels = [CHANNELS.connect, CHANNELS.say, CHANNELS.hangUp, CHANNELS.painted, CHANNELS.ask];
    expect(channels.filter((channel) => mayUse(channel, desk))).toEqual(channels);
    expect(channels.filter((channel) => mayUse(channel, wall))).toEqual(channels.slice(0, 4));
    const strangers = [
      { ...desk, kind: null },
      { ...desk, address: null },
      { ...desk, isTop: false },
      { ...desk, address: pageAddress('wall') },
      { ...wall, address: pageAddress('desk') },
      ...ELSEWHERE.map((address) => ({ ...desk, address })),
      // A window that is none of ours has no page of ours, whatever it shows, or nothing.
      ...[...ELSEWHERE, null].map((address) => ({ ...desk, kind: null, address })),
    ];
    for (const channel of channels) expect(strangers.filter((sender) => mayUse(channel, sender))).toEqual([]);
    const own = [CHANNELS.heard, CHANNELS.closed, CHANNELS.woken, CHANNELS.sessionFile, 'unknown'];
    expect(own.filter((channel) => mayUse(channel, desk))).toEqual([]);
  });

  test('18: pages come by a scheme of the program, and only those that were built', () => {
    registerScheme();
    expect(registered).toEqual([
      {
        scheme: 'app',
        privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true, codeCache: true },
      },
    ]);
    expect(pageReply(pages, 'GET', 'app://lanecall/').status).toBe(200);
    const spelt = [
      '/../../etc/passwd',
      '/%2e%2e/%2e%2e/etc/passwd',
      '//etc/passwd',
      '/..%5c..%5cx',
      '/%00',
      '/dist/main.cjs',
    ];
    for (const path of spelt) expect(pageReply(pages, 'GET', `app://lanecall${path}`).status, path).toBe(404);
    for (const address of ELSEWHERE) expect(pageReply(pages, 'GET', address).status, address).toBe(403);
    for (const method of ['PUT', 'POST', 'DELETE'])
      expect(pageReply(pages, method, 'app://lanecall/').status).toBe(405);
    expect(sources.filter(({ text }) => /loadFile\(|file:\/\//.test(text))).toEqual([]);
  });

  test('19: the fuses that shut what the program does not use are set', () => {
    const text = readFileSync(join(root, 'electron-builder.yml'), 'utf8');
    for (const fuse of [
      'runAsNode: false',
      'enableNodeOptionsEnvironmentVariable: false',
      'enableNodeCliInspectArguments: false',
      'enableEmbeddedAsarIntegrityValidation: true',
      'onlyLoadAppFromAsar: true',
      'grantFileProtocolExtraPrivileges: false',
    ]) {
      expect(text).toContain(`\n  ${fuse}\n`);
    }
  });

  test('20: a page finds named functions and nothing of Electron', async () => {
    const preloads = sources.filter(({ name }) => name.startsWith('preload'));
    expect(preloads.length).toBeGreaterThanOrEqual(3);
    const exposed = preloads.flatMap(({ text }) => text.match(/exposeInMainWorld\([^;]*;/g) ?? []);
    expect(exposed).toEqual(['exposeInMainWorld(BRIDGE, coachBridge());', 'exposeInMainWorld(BRIDGE, deckBridge());']);
    const imports = JSON.stringify(await ruleFor('preload/desk.ts', 'no-restricted-imports'));
    expect(imports).toContain('"allowImportNames":["contextBridge","ipcRenderer"]');
  });
});

/** What the linter holds a file to. */
async function ruleFor(file: string, rule: string): Promise<unknown> {
  const eslint = new ESLint({ cwd: root, overrideConfigFile: join(root, 'tests/support/eslint.config.mjs') });
  const config = (await eslint.calculateConfigForFile(join(desktop, file))) as { rules: Record<string, unknown> };
  return config.rules[rule];
}
