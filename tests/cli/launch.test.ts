/*
 * Getting a clone ready: what counts as installed and as built, what happens when an install fails, and
 * how two commands at once keep out of each other's way. npm is played by a small script, so that no
 * network is needed; the locks and the processes are real.
 */

import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { withLock } from '../../app/cli/launcher/lock.mjs';
import { packagesAreCurrent } from '../../app/cli/launcher/packages.mjs';
import { buildIsCurrent, nodeTooOld, prepare, sourceStamp } from '../../app/cli/launcher/set-up.mjs';

interface Lockfile {
  readonly packages: Readonly<Record<string, unknown>>;
}

const root = fileURLToPath(new URL('../..', import.meta.url));
const npmPath = process.env['npm_execpath'];

let clone = '';
let said: string[] = [];
const say = (line: string) => void said.push(line);

beforeEach(() => {
  clone = mkdtempSync(join(tmpdir(), 'lanecall-launch-'));
  said = [];
  write('package.json', '{}');
  write('tsconfig.json', '{}');
  write('package-lock.json', lockfile('1.0.0'));
  playNpm('works');
});

afterEach(() => {
  rmSync(clone, { recursive: true, force: true });
  if (npmPath === undefined) delete process.env['npm_execpath'];
  else process.env['npm_execpath'] = npmPath;
});

describe('[set-up] Node', () => {
  test.each(['20.19.0', '20.20.2', '22.0.0', '24.18.1', '100.0.0'])('%s will do', (version) => {
    expect(nodeTooOld(version)).toBeNull();
  });

  test.each(['20.18.9', '18.20.4', '8.0.0'])('%s is refused in one sentence with both numbers', (version) => {
    const sentence = nodeTooOld(version);
    expect(sentence).toContain('20.19');
    expect(sentence).toContain(version);
    expect(sentence).not.toContain('\n');
  });
});

describe('[set-up] packages', () => {
  test('a fresh clone installs once and then never again', async () => {
    await prepare(clone, say, { build: false });
    await prepare(clone, say, { build: false });
    expect(installs()).toBe(1);
    expect(packagesAreCurrent(clone)).toBe(true);
  });

  test('a changed lockfile makes it install again', async () => {
    await prepare(clone, say, { build: false });
    write('package-lock.json', lockfile('1.0.1'));
    expect(packagesAreCurrent(clone)).toBe(false);
    await prepare(clone, say, { build: false });
    expect(installs()).toBe(2);
    expect(read('node_modules/paint/package.json')).toContain('1.0.1');
  });

  test('packages that somebody installed with npm are used as they are', async () => {
    install('1.0.0');
    await prepare(clone, say, { build: false });
    expect(installs()).toBe(0);
  });

  test('a package missing from the folder is noticed though npm has it on record', async () => {
    install('1.0.0');
    rmSync(join(clone, 'node_modules/paint'), { recursive: true });
    await prepare(clone, say, { build: false });
    expect(installs()).toBe(1);
  });

  test('an optional package of another platform may be absent, one of this platform may not', () => {
    install('1.0.0');
    const extra = (os: string) => ({ 'node_modules/native': { version: '1.0.0', optional: true, os: [os] } });
    write('package-lock.json', lockfile('1.0.0', extra(process.platform === 'win32' ? 'linux' : 'win32')));
    expect(packagesAreCurrent(clone)).toBe(true);
    write('package-lock.json', lockfile('1.0.0', extra(process.platform)));
    expect(packagesAreCurrent(clone)).toBe(false);
    const forAny = { 'node_modules/helping-native': { version: '1.0.0', optional: true } };
    write('package-lock.json', lockfile('1.0.0', forAny));
    expect(packagesAreCurrent(clone)).toBe(true);
  });

  test("the repository's own lockfile agrees with what npm makes of it", () => {
    // Stands in for a fresh install: the packages beside these tests, looked at from a folder without a stamp.
    symlinkSync(join(root, 'node_modules'), join(clone, 'installed'));
    write('node_modules/.package-lock.json', read('installed/.package-lock.json'));
    write('package-lock.json', readFileSync(join(root, 'package-lock.json'), 'utf8'));
    for (const place of Object.keys((JSON.parse(read('installed/.package-lock.json')) as Lockfile).packages)) {
      write(`${place}/package.json`, '{}');
    }
    expect(packagesAreCurrent(clone)).toBe(true);
  });

  test('when an update cannot be had, what was installed before is back and the work goes on', async () => {
    install('1.0.0');
    write('package-lock.json', lockfile('1.0.1'));
    playNpm('fails');
    await prepare(clone, say, { build: false });
    expect(read('node_modules/paint/package.json')).toContain('1.0.0');
    expect(said.at(-1)).toContain('going on with those installed before');
    playNpm('works');
    await prepare(clone, say, { build: false });
    expect(read('node_modules/paint/package.json')).toContain('1.0.1');
  });

  test('with nothing installed, a failed install ends with a sentence that says so', async () => {
    playNpm('fails');
    await expect(prepare(clone, say, { build: false })).rejects.toThrow('could not be installed');
    expect(existsSync(join(clone, 'dist/.lock'))).toBe(false);
  });

  test('the leftovers of an install that was killed are removed, and the install starts over', async () => {
    write('dist/.new-killed/node_modules/paint/package.json', '{}');
    await prepare(clone, say, { build: false });
    expect(installs()).toBe(1);
    expect(readdirSync(join(clone, 'dist'))).toEqual([]);
  });

  test('the old packages stay in place until the new ones are complete', async () => {
    install('1.0.0');
    write('package-lock.json', lockfile('1.0.1'));
    playNpm('works', 300);
    const done = prepare(clone, say, { build: false });
    await expect.poll(() => existsSync(join(clone, 'dist/.lock'))).toBe(true);
    expect(read('node_modules/paint/package.json')).toContain('1.0.0');
    await done;
    expect(read('node_modules/paint/package.json')).toContain('1.0.1');
  });

  test.runIf(process.platform === 'linux' && process.getuid?.() === 0)(
    'a folder of packages that is a mount of its own is filled where it is',
    async () => {
      mkdirSync(join(clone, 'node_modules'));
      const mounted = spawnSync('mount', ['-t', 'tmpfs', 'none', join(clone, 'node_modules')]).status === 0;
      try {
        await prepare(clone, say, { build: false });
        expect(packagesAreCurrent(clone)).toBe(true);
      } finally {
        if (mounted) spawnSync('umount', [join(clone, 'node_modules')]);
      }
    },
  );
});

describe('[set-up] the build', () => {
  beforeEach(() => {
    install('1.0.0');
    write('app/cli/build/build.mjs', BUILD);
    write('app/core/plan.ts', 'export const plan = 1;');
  });

  test('a build is made where there is none, and left alone while the sources stay the same', async () => {
    await prepare(clone, say, { build: true });
    expect(buildIsCurrent(clone)).toBe(true);
    utimesSync(join(clone, 'app/core/plan.ts'), 4_000_000_000, 4_000_000_000);
    await prepare(clone, say, { build: true });
    expect(builds()).toBe(1);
  });

  test.each([
    ['a changed source', () => write('app/core/plan.ts', 'export const plan = 2;')],
    ['a new source', () => write('renderer/wall/strip.ts', '')],
    ['a renamed source', () => write('app/core/plans.ts', take('app/core/plan.ts'))],
    ['a changed sound', () => write('assets/tone.wav', 'louder')],
  ])('%s is built again', async (_, change) => {
    await prepare(clone, say, { build: true });
    change();
    expect(buildIsCurrent(clone)).toBe(false);
    await prepare(clone, say, { build: true });
    expect(builds()).toBe(2);
  });

  test('a changed test is no reason to build', async () => {
    const before = sourceStamp(clone);
    write('tests/core/plan.test.ts', 'changed');
    expect(sourceStamp(clone)).toBe(before);
  });

  test('a build that fails ends with a sentence that says so, and does not count as built', async () => {
    write('app/cli/build/build.mjs', 'process.exit(3);');
    await expect(prepare(clone, say, { build: true })).rejects.toThrow('The build failed');
    expect(buildIsCurrent(clone)).toBe(false);
  });
});

describe('[set-up] one at a time', () => {
  test('six commands at once on a fresh clone install once and build once', async () => {
    write('app/cli/build/build.mjs', BUILD);
    const script = setUpScript(true);
    const ends = await Promise.all(Array.from({ length: 6 }, () => finished(['--input-type=module', '-e', script])));
    expect(ends).toEqual([0, 0, 0, 0, 0, 0]);
    expect([installs(), builds()]).toEqual([1, 1]);
  });

  test('a lock that nobody has touched for five seconds is taken over, and released afterwards', async () => {
    write('dist/.lock', '');
    let inside = 0;
    const work = async (): Promise<number> => {
      inside += 1;
      await pause(300);
      return inside--;
    };
    const takers = Array.from({ length: 3 }, () => withLock(clone, say, work));
    expect(await Promise.all(takers)).toEqual([1, 1, 1]);
    expect(said).toContainEqual(expect.stringContaining('Waiting for another'));
    expect(existsSync(join(clone, 'dist/.lock'))).toBe(false);
  }, 15_000);

  test('a lock whose holder keeps touching it is waited for, however long that takes', async () => {
    const done: string[] = [];
    const work = async (): Promise<void> => {
      await expect.poll(() => said.length, { timeout: 15_000 }).toBe(1);
      await beats(6);
      done.push('first');
    };
    const first = withLock(clone, say, work);
    await expect.poll(() => existsSync(join(clone, 'dist/.lock'))).toBe(true);
    await withLock(clone, say, () => Promise.resolve(done.push('second')));
    await first;
    expect(done).toEqual(['first', 'second']);
  }, 20_000);

  test('after a set-up that was killed the next one starts over, and removes what was left behind', async () => {
    playNpm('works', 600);
    const first = spawn(process.execPath, ['--input-type=module', '-e', setUpScript(false)], { cwd: clone });
    await expect.poll(() => existsSync(join(clone, 'dist/.lock')), { timeout: 15_000 }).toBe(true);
    first.kill('SIGKILL');
    await once(first, 'exit');
    await prepare(clone, say, { build: false });
    expect(packagesAreCurrent(clone)).toBe(true);
    expect(readdirSync(join(clone, 'dist'))).toEqual([]);
  }, 20_000);

  test('Ctrl-C ends the set-up and the processes it has started at once, and releases the lock', async () => {
    playNpm('works', 60_000);
    const first = spawn(process.execPath, ['--input-type=module', '-e', setUpScript(false)], { cwd: clone });
    await expect.poll(() => existsSync(join(clone, 'npm/pid')), { timeout: 15_000 }).toBe(true);
    first.kill('SIGINT');
    expect(await once(first, 'exit')).toEqual([130, null]);
    await expect.poll(() => isAlive(Number(read('npm/pid')))).toBe(false);
    expect(existsSync(join(clone, 'dist/.lock'))).toBe(false);
  });

  test('the lock is released when the work fails', async () => {
    const work = withLock(clone, say, () => Promise.reject(new Error('no room')));
    await expect(work).rejects.toThrow('no room');
    expect(existsSync(join(clone, 'dist/.lock'))).toBe(false);
  });
});

describe('[set-up] the launcher', () => {
  const launcher = join(root, 'app/cli/launcher/launch.mjs');

  test('an unknown word is wrong usage, in one line', () => {
    const { status, stderr, stdout } = spawnSync(process.execPath, [launcher, 'swim'], { encoding: 'utf8' });
    expect([status, stdout]).toEqual([64, '']);
    expect(stderr.trim().split('\n')).toHaveLength(1);
  });

  test('on a Node that is too old it says one sentence and exits with 1', () => {
    const older = "Object.defineProperty(process.versions, 'node', { value: '18.20.4' });";
    const preload = `data:text/javascript,${encodeURIComponent(older)}`;
    const args = ['--import', preload, launcher, 'lanecall', '--help'];
    const { status, stderr, stdout } = spawnSync(process.execPath, args, { encoding: 'utf8' });
    expect([status, stdout, stderr]).toEqual([1, '', `${nodeTooOld('18.20.4')}\n`]);
  });
});

// Plays build.mjs: counts itself, and leaves the stamp it was given.
const BUILD = `import { appendFileSync, writeFileSync } from 'node:fs';
appendFileSync('dist/builds', 'x');
writeFileSync('dist/.stamp', process.argv[2]);`;

/** A program for a process of its own that sets the clone up. */
function setUpScript(build: boolean): string {
  const setUp = pathToFileURL(join(root, 'app/cli/launcher/set-up.mjs')).href;
  return `import { prepare } from ${JSON.stringify(setUp)};
    await prepare(${JSON.stringify(clone)}, () => undefined, { build: ${build} });`;
}

/** Plays npm: `ci` takes its time, counts itself and writes what the lockfile says, or dies after it has begun. */
function playNpm(how: 'works' | 'fails', takesMs = 0): void {
  const script = `const { appendFileSync, copyFileSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } = require('node:fs');
    if (process.argv[2] !== 'ci') process.exit(9);
    writeFileSync(__dirname + '/pid', String(process.pid));
    mkdirSync('node_modules', { recursive: true });
    for (const name of readdirSync('node_modules')) rmSync('node_modules/' + name, { recursive: true });
    mkdirSync('node_modules/paint');
    if (${how === 'fails'}) process.exit(1);
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ${takesMs});
    appendFileSync(__dirname + '/../installs', 'x');
    const { version } = JSON.parse(readFileSync('package-lock.json', 'utf8')).packages['node_modules/paint'];
    writeFileSync('node_modules/paint/package.json', JSON.stringify({ version }));
    copyFileSync('package-lock.json', 'node_modules/.package-lock.json');`;
  write('npm/npm-cli.js', script);
  write('npm/package.json', '{"type":"commonjs"}');
  process.env['npm_execpath'] = join(clone, 'npm/npm-cli.js');
}

function lockfile(version: string, more: Record<string, unknown> = {}): string {
  return JSON.stringify({ packages: { '': {}, 'node_modules/paint': { version }, ...more } });
}

function install(version: string): void {
  write('node_modules/.package-lock.json', lockfile(version));
  write('node_modules/paint/package.json', JSON.stringify({ version }));
}

function installs(): number {
  return existsSync(join(clone, 'installs')) ? read('installs').length : 0;
}

function builds(): number {
  return existsSync(join(clone, 'dist/builds')) ? read('dist/builds').length : 0;
}

function write(path: string, text: string): void {
  mkdirSync(dirname(join(clone, path)), { recursive: true });
  writeFileSync(join(clone, path), text);
}

function read(path: string): string {
  return readFileSync(join(clone, path), 'utf8');
}

function take(path: string): string {
  const text = read(path);
  rmSync(join(clone, path));
  return text;
}

function isAlive(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch {
    return false;
  }
}

/** Waits until the lock was touched so often. */
async function beats(count: number): Promise<void> {
  const touched = new Set<number>();
  const look = (): number => touched.add(statSync(join(clone, 'dist/.lock')).mtimeMs).size;
  await expect.poll(look, { timeout: 15_000 }).toBeGreaterThan(count);
}

function finished(args: readonly string[]): Promise<number | null> {
  return new Promise((resolve) => {
    spawn(process.execPath, args, { cwd: clone, stdio: 'inherit' }).on('exit', resolve);
  });
}
