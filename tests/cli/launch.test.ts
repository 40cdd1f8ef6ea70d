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
  readFileSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { holder, isAbandoned, withLock } from '../../app/cli/setup-lock.mjs';
import { buildIsCurrent, nodeTooOld, packagesAreCurrent, prepare, sourceStamp } from '../../app/cli/setup.mjs';

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

  test('a changed lockfile installs again', async () => {
    await prepare(clone, say, { build: false });
    write('package-lock.json', lockfile('1.0.1'));
    expect(packagesAreCurrent(clone)).toBe(false);
    await prepare(clone, say, { build: false });
    expect(installs()).toBe(2);
    expect(read('node_modules/paint/package.json')).toContain('1.0.1');
  });

  test('packages that npm installed by hand are taken as they are', async () => {
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

  test('with nothing installed, a failed install is a sentence', async () => {
    playNpm('fails');
    await expect(prepare(clone, say, { build: false })).rejects.toThrow('could not be installed');
    expect(existsSync(join(clone, 'dist/.lock'))).toBe(false);
  });

  test('an install that was killed half-way is begun again', async () => {
    install('1.0.0');
    write('dist/.packages-before/paint/package.json', '{"version":"0.9.0"}');
    rmSync(join(clone, 'node_modules/.package-lock.json'));
    await prepare(clone, say, { build: false });
    expect(installs()).toBe(1);
    expect(existsSync(join(clone, 'dist/.packages-before'))).toBe(false);
  });

  test('what was set aside survives an install that was killed and one that fails after it', async () => {
    write('node_modules/paint/package.json', '{}');
    write('dist/.packages-before/paint/package.json', '{"version":"0.9.0"}');
    playNpm('fails');
    await prepare(clone, say, { build: false });
    expect(read('node_modules/paint/package.json')).toContain('0.9.0');
  });
});

describe('[set-up] the build', () => {
  beforeEach(() => {
    install('1.0.0');
    write('app/cli/build.mjs', BUILD);
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

  test('a build that fails is a sentence, and no build', async () => {
    write('app/cli/build.mjs', 'process.exit(3);');
    await expect(prepare(clone, say, { build: true })).rejects.toThrow('The build failed');
    expect(buildIsCurrent(clone)).toBe(false);
  });
});

describe('[set-up] one at a time', () => {
  test('six commands at once on a fresh clone install once and build once', async () => {
    write('app/cli/build.mjs', BUILD);
    const script = setUpScript(true);
    const ends = await Promise.all(Array.from({ length: 6 }, () => finished(['--input-type=module', '-e', script])));
    expect(ends).toEqual([0, 0, 0, 0, 0, 0]);
    expect([installs(), builds()]).toEqual([1, 1]);
  });

  test('the lock of a process that is gone is taken over, and given up after', async () => {
    write('dist/.lock', JSON.stringify([{ pid: goneProcess(), born: null }]));
    expect(await withLock(join(clone, 'dist/.lock'), say, () => Promise.resolve('done'))).toBe('done');
    expect(existsSync(join(clone, 'dist/.lock'))).toBe(false);
  });

  test('the lock of a living process holds', () => {
    write('dist/.lock', JSON.stringify([holder(process.pid)]));
    expect(isAbandoned(join(clone, 'dist/.lock'))).toBe(false);
  });

  test('the lock holds while the program works on that its killed holder had started', () => {
    write('dist/.lock', JSON.stringify([{ pid: goneProcess(), born: null }, holder(process.pid)]));
    expect(isAbandoned(join(clone, 'dist/.lock'))).toBe(false);
  });

  test('a set-up that is killed outright is neither run beside nor run again', async () => {
    playNpm('works', 600);
    const first = spawn(process.execPath, ['--input-type=module', '-e', setUpScript(false)], { cwd: clone });
    await expect.poll(() => existsSync(join(clone, 'node_modules/paint')), { timeout: 15_000 }).toBe(true);
    first.kill('SIGKILL');
    await once(first, 'exit');
    expect(installs()).toBe(0);
    await prepare(clone, say, { build: false });
    expect(installs()).toBe(1);
    expect(packagesAreCurrent(clone)).toBe(true);
  });

  test('a later process with the same number does not hold the lock', () => {
    write('dist/.lock', JSON.stringify([{ pid: process.pid, born: 'another boot 1' }]));
    expect(isAbandoned(join(clone, 'dist/.lock'))).toBe(true);
  });

  test.runIf(process.platform === 'linux')(
    'a process that has ended but was never collected holds no lock',
    async () => {
      // The shell becomes sleep, which does not collect the child that the shell had started.
      const keeper = spawn('sh', ['-c', 'sleep 0.05 & echo $! $(cut -d" " -f22 /proc/$!/stat); exec sleep 30']);
      try {
        const [printed] = (await once(keeper.stdout, 'data')) as [Buffer];
        const [pid = '', start = ''] = printed.toString().trim().split(' ');
        const boot = readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim();
        write('dist/.lock', JSON.stringify([{ pid: Number(pid), born: `${boot} ${start}` }]));
        await expect.poll(() => readFileSync(`/proc/${pid}/stat`, 'utf8'), { timeout: 15_000 }).toContain(') Z ');
        expect(isAbandoned(join(clone, 'dist/.lock'))).toBe(true);
      } finally {
        keeper.kill();
      }
    },
  );

  test('an empty lock is being written, unless it has been empty for long', () => {
    write('dist/.lock', '');
    expect(isAbandoned(join(clone, 'dist/.lock'))).toBe(false);
    utimesSync(join(clone, 'dist/.lock'), 1_000_000_000, 1_000_000_000);
    expect(isAbandoned(join(clone, 'dist/.lock'))).toBe(true);
  });

  test('the lock is given up when the work fails', async () => {
    mkdirSync(join(clone, 'dist'));
    const work = withLock(join(clone, 'dist/.lock'), say, () => Promise.reject(new Error('no room')));
    await expect(work).rejects.toThrow('no room');
    expect(existsSync(join(clone, 'dist/.lock'))).toBe(false);
  });
});

describe('[set-up] the launcher', () => {
  const launcher = join(root, 'app/cli/launch.mjs');

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
  const setUp = pathToFileURL(join(root, 'app/cli/setup.mjs')).href;
  return `import { prepare } from ${JSON.stringify(setUp)};
    await prepare(${JSON.stringify(clone)}, () => undefined, { build: ${build} });`;
}

/** Plays npm: `ci` takes its time, counts itself and writes what the lockfile says, or dies after it has begun. */
function playNpm(how: 'works' | 'fails', takesMs = 0): void {
  const script = `const { appendFileSync, copyFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } = require('node:fs');
    if (process.argv[2] !== 'ci') process.exit(9);
    rmSync('node_modules', { recursive: true, force: true });
    mkdirSync('node_modules/paint', { recursive: true });
    if (${how === 'fails'}) process.exit(1);
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ${takesMs});
    appendFileSync('installs', 'x');
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

function goneProcess(): number {
  return spawnSync(process.execPath, ['-e', '']).pid;
}

function finished(args: readonly string[]): Promise<number | null> {
  return new Promise((resolve) => {
    spawn(process.execPath, args, { cwd: clone, stdio: 'inherit' }).on('exit', resolve);
  });
}
