/*
 * The walls between the folders hold: what the core must not know does not compile there, chance and
 * dates do not pass the linter, and an import across a wall is found. Each wall is tried with the very
 * configuration that `npm test` uses.
 */

import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { cruise, type ICruiseResult } from 'dependency-cruiser';
import { ESLint } from 'eslint';
import ts from 'typescript';
import { afterAll, describe, expect, test } from 'vitest';
import rules from '../support/dependency-rules.mjs';

const PLAIN = 'export const sum = (a: number, b: number): number => a + b;';
const UNUSED = 'every file is used by something that starts';
const root = fileURLToPath(new URL('../..', import.meta.url));

describe('[walls] the compiler', () => {
  const outside = [
    'setTimeout(() => undefined, 1);',
    'console.log(1);',
    'document.title;',
    'window;',
    'process.exit();',
    'performance.now();',
    'fetch("x");',
    'structuredClone({});',
    'BigInt(1);',
    '1n;',
    '[[1]].flat();',
    '[1].flatMap((one) => [one]);',
    '[1].at(-1);',
    'Object.fromEntries([]);',
    '"a".replaceAll("a", "b");',
    'globalThis.process;',
  ];

  describe.each(['app/core', 'app/wire'])('in %s', (folder) => {
    const faults = faultsOf(folder, [PLAIN, ...outside.map((line) => `export const probe = () => {\n  ${line}\n};`)]);

    test('plain sums compile', () => {
      expect(faults[0]).toEqual([]);
    });

    test.each(outside.map((line, index) => [line, faults[index + 1]] as const))('there is no: %s', (_, found) => {
      expect(found).not.toEqual([]);
    });
  });

  test.each([
    ['the pages have a document and no Node', 'renderer', 'document.title = "x";', 'process.exit();'],
    [
      'the desktop program has Node and no document',
      'app/desktop',
      "import { app } from 'electron';\nprocess.exit(app.isReady() ? 0 : 1);",
      'document.title;',
    ],
    ['the host has Node and no document', 'app/host', 'setTimeout(() => process.exit(), 1);', 'document.title;'],
  ])('%s', (_, folder, inside, over) => {
    const [own, strange] = faultsOf(folder, [`${inside}\nexport {};`, `${over}\nexport {};`]);
    expect(own).toEqual([]);
    expect(strange).not.toEqual([]);
  });
});

describe('[walls] the linter', () => {
  const eslint = new ESLint({ cwd: root, overrideConfigFile: join(root, 'tests/support/eslint.config.mjs') });

  // Only the given text is looked at.
  async function ruleNames(file: string, code: string): Promise<readonly (string | null)[]> {
    const [result] = await eslint.lintText(code, { filePath: join(root, file) });
    return result?.messages.map((message) => message.ruleId) ?? [];
  }

  test.each([
    'export const now = () => Date.now();',
    'export const today = () => new Date();',
    'export const again = (at: Date) => at;',
    'export const now = () => globalThis.Date.now();',
    'export const dice = () => Math.random();',
    "export const dice = () => Math['random']();",
    'export const { random } = Math;',
  ])('the core may not: %s', async (code) => {
    const names = await ruleNames('app/core/units.ts', code);
    expect(names.filter((name) => name?.startsWith('no-restricted-'))).not.toEqual([]);
  });

  test('the core may do sums', async () => {
    expect(await ruleNames('app/core/units.ts', 'export const half = (a: number) => Math.floor(a / 2);\n')).toEqual([]);
  });

  test('a comment cannot switch a rule off', async () => {
    const code = '// eslint-disable-next-line\nexport const dice = () => Math.random();\n';
    expect(await ruleNames('app/core/units.ts', code)).toContain('no-restricted-properties');
  });
});

describe('[walls] the dependency rules', () => {
  const clone = realpathSync(mkdtempSync(join(tmpdir(), 'lanecall-walls-')));
  symlinkSync(join(root, 'node_modules'), join(clone, 'node_modules'));
  afterAll(() => rmSync(clone, { recursive: true, force: true }));

  const targets = {
    'app/core/ratio.ts': '',
    'app/wire/message.ts': '',
    'app/host/journal/journal.ts': '',
    'app/cli/usage.ts': '',
    'app/cli/launcher/lock.mjs': '',
    'app/desktop/windows.ts': '',
    'renderer/link/link.ts': '',
    'renderer/ui/digits/digits.ts': '',
    'renderer/sound/player.ts': '',
    'renderer/wall/strip.ts': '',
    'renderer/desk/queue.ts': '',
    'tests/support/clock.ts': '',
  };

  async function brokenRules(file: string, code: string): Promise<readonly string[]> {
    for (const folder of ['app', 'renderer', 'tests']) rmSync(join(clone, folder), { recursive: true, force: true });
    for (const [path, text] of Object.entries({ ...targets, [file]: code })) {
      mkdirSync(dirname(join(clone, path)), { recursive: true });
      writeFileSync(join(clone, path), `${text}\nexport const one = 1;\nexport type One = 1;\n`);
    }
    const { output } = await cruise(['app', 'renderer', 'tests'], {
      ...rules.options,
      baseDir: clone,
      validate: true,
      ruleSet: { forbidden: rules.forbidden ?? [] },
    });
    return (output as ICruiseResult).summary.violations.map((violation) => violation.rule.name);
  }

  test.each([
    ['app/core/plan.ts', "import { one as two } from './ratio.ts';"],
    ['app/wire/codec.ts', "import { z } from 'zod'; import { one as two } from '../core/ratio.ts';"],
    [
      'app/host/web/server.ts',
      "import { WebSocketServer } from 'ws'; import 'node:http'; import '../../wire/message.ts';",
    ],
    ['app/cli/serve.ts', "import '../host/journal/journal.ts'; import 'node:fs';"],
    ['app/cli/build/build.mjs', "import 'esbuild'; import 'vite';"],
    ['app/cli/launcher/launch.mjs', "import 'node:fs'; import './lock.mjs';"],
    ['app/cli/start/start.ts', "import '../usage.ts'; import '../launcher/lock.mjs';"],
    ['app/desktop/main.ts', "import 'electron'; import '../host/journal/journal.ts';"],
    ['app/desktop/preload.ts', "import 'electron'; import '../wire/message.ts';"],
    ['tests/support/electron-stand-in/app.ts', "import type { App } from 'electron';"],
    ['renderer/link/socket.ts', "import '../../app/wire/message.ts';"],
    ['renderer/wall/main.tsx', "import 'react'; import '../ui/digits/digits.ts'; import '../sound/player.ts';"],
    ['tests/core/plan.test.ts', "import 'vitest'; import '../../app/core/ratio.ts';"],
  ])('%s may: %s', async (file, code) => {
    expect((await brokenRules(file, code)).filter((rule) => rule !== UNUSED)).toEqual([]);
  });

  test.each([
    ['app/core/plan.ts', "import '../wire/message.ts';"],
    ['app/core/plan.ts', "import type { One as Two } from '../wire/message.ts';"],
    ['app/core/plan.ts', "import 'zod';"],
    ['app/core/plan.ts', "import 'node:fs';"],
    ['app/core/plan.ts', "import '../../tests/support/clock.ts';"],
    ['app/core/plan.ts', "export const later = () => import('../host/journal/journal.ts');"],
    ['app/wire/codec.ts', "import '../host/journal/journal.ts';"],
    ['app/wire/codec.ts', "import 'node:buffer';"],
    ['app/wire/codec.ts', "import 'ws';"],
    ['app/host/web/server.ts', "import '../../cli/usage.ts';"],
    ['app/host/web/server.ts', "import 'electron';"],
    ['app/host/web/server.ts', "import 'react';"],
    ['app/cli/serve.ts', "import '../../renderer/link/link.ts';"],
    ['app/cli/serve.ts', "import 'vite';"],
    ['app/cli/launcher/launch.mjs', "import 'ws';"],
    ['app/cli/launcher/launch.mjs', "import '../usage.ts';"],
    ['app/desktop/preload.ts', "import '../core/ratio.ts';"],
    ['app/desktop/preload.ts', "import 'node:fs';"],
    ['app/desktop/main.ts', "import '../cli/usage.ts';"],
    ['app/desktop/main.ts', "import 'zod';"],
    ['app/desktop/preload/desk.ts', "import '../../host/journal.ts';"],
    ['app/desktop/preload/desk.ts', "import '../windows.ts';"],
    ['renderer/link/socket.ts', "import '../ui/digits/digits.ts';"],
    ['renderer/wall/main.tsx', "import '../desk/queue.ts';"],
    ['renderer/wall/main.tsx', "import '../../app/wire/message.ts';"],
    ['renderer/desk/main.tsx', "import 'node:path';"],
    ['renderer/ui/row.tsx', "import '../wall/strip.ts';"],
    ['renderer/sound/mixer.ts', "import '../ui/digits/digits.ts';"],
    ['renderer/clock/main.ts', "import '../ui/digits/digits.ts';"],
    ['tests/e2e/coach/desk.test.ts', "import 'electron';"],
  ])('%s may not: %s', async (file, code) => {
    expect((await brokenRules(file, code)).filter((rule) => rule !== UNUSED)).not.toEqual([]);
  });

  test('a file that only tests import is found', async () => {
    const code = "import '../host/journal/journal.ts';";
    targets['tests/support/clock.ts'] = "import '../../app/core/ratio.ts';";
    const broken = await brokenRules('app/cli/main.ts', code);
    targets['tests/support/clock.ts'] = '';
    expect(broken).toContain(UNUSED);
  });

  test('a circle is found, of types too', async () => {
    const code = "import type { One as Two } from './ratio.ts';";
    targets['app/core/ratio.ts'] = "import type { One as Three } from './plan.ts';";
    const broken = await brokenRules('app/core/plan.ts', code);
    targets['app/core/ratio.ts'] = '';
    expect(broken).toContain('no cycles');
  });
});

/** What the compiler says of files with these texts in a folder, of each by itself, under the folder's own configuration. */
function faultsOf(folder: string, codes: readonly string[]): readonly (readonly string[])[] {
  const configuration = ts.getParsedCommandLineOfConfigFile(
    join(root, folder, 'tsconfig.json'),
    {},
    {
      ...ts.sys,
      onUnRecoverableConfigFileDiagnostic: (fault) => {
        throw new Error(ts.flattenDiagnosticMessageText(fault.messageText, '\n'));
      },
    },
  );
  if (configuration === undefined) throw new Error(`${folder} has no tsconfig.json`);
  const probes = new Map(codes.map((code, index) => [join(root, folder, `probe-${index}.ts`), code]));
  const host = ts.createCompilerHost(configuration.options);
  const { getSourceFile, fileExists } = host;
  host.fileExists = (path) => probes.has(path) || fileExists(path);
  host.getSourceFile = (path, options) => {
    const code = probes.get(path);
    return code === undefined ? getSourceFile(path, options) : ts.createSourceFile(path, code, options);
  };
  const program = ts.createProgram([...probes.keys()], configuration.options, host);
  return Array.from(probes.keys(), (path) =>
    ts
      .getPreEmitDiagnostics(program, program.getSourceFile(path))
      .map((fault) => ts.flattenDiagnosticMessageText(fault.messageText, '\n')),
  );
}
