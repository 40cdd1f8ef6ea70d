/*
 * The rules of the linter that need types, tried on code that breaks each: a linter that finds no types, or not its
 * other half, would find nothing wrong.
 */

import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = join(root, 'dist', '.lint');
const OXLINT = ['node_modules/oxlint/bin/oxlint', '--type-aware', '--deny-warnings', '-f', 'json'];

afterAll(() => rmSync(folder, { recursive: true, force: true }));

test.each([
  ['no-floating-promises', 'later();'],
  ['no-misused-promises', 'if (later()) [].pop();'],
  ['await-thenable', 'await 3;'],
  ['switch-exhaustiveness-check', "switch (kind) { case 'a': break; }"],
  ['switch-exhaustiveness-check', "switch (kind) { case 'a': break; case 'b': break; default: break; }"],
])('[lint] %s finds: %s', (rule, line) => {
  expect(rulesBrokenBy(line)).toEqual([`typescript(${rule})`]);
});

test('[lint] a line in order breaks none', () => {
  expect(rulesBrokenBy("if (kind === 'a') await later();")).toEqual([]);
});

function rulesBrokenBy(line: string): readonly string[] {
  mkdirSync(folder, { recursive: true });
  writeFileSync(
    join(folder, 'tsconfig.json'),
    '{"compilerOptions":{"strict":true,"target":"es2022","module":"nodenext"}}',
  );
  const code = `declare const later: () => Promise<boolean>;\nexport async function tried(kind: 'a' | 'b'): Promise<void> {\n  await later();\n  ${line}\n  if (kind === 'b') return;\n}\n`;
  writeFileSync(join(folder, 'tried.ts'), code);
  const args = [...OXLINT, '-c', 'tests/support/oxlint.json', '--no-ignore', join('dist', '.lint', 'tried.ts')];
  const { stdout } = spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8' });
  return (JSON.parse(stdout) as { diagnostics: { code: string }[] }).diagnostics.map(({ code }) => code);
}
