/*
 * Packing the desktop program: the configuration as the packer itself reads it, and a package for Linux
 * made around a folder that only looks like the runtime, whose contents are then started. Installers, icons
 * and fuses need the real runtime and tools, and are not tried here.
 */

import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, describe, test } from 'vitest';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { DesktopProgram, LAPTOP, STAND_IN } from '../../support/desktop/desktop-program.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const builder = createRequire(createRequire(import.meta.url).resolve('electron-builder/package.json'));
const packer = builder('app-builder-lib/out/util/config/config.js') as {
  getConfig(folder: string, file: string, options: null): Promise<Configuration>;
  validateConfiguration(configuration: object, log: { isEnabled: boolean }): Promise<void>;
};
const asar = createRequire(builder.resolve('app-builder-lib/package.json'))('@electron/asar') as {
  listPackage(archive: string, options: object): string[];
  extractAll(archive: string, folder: string): void;
};

interface Configuration {
  readonly [key: string]: unknown;
  readonly directories: object;
}

const configuration = await packer.getConfig(root, join(root, 'electron-builder.yml'), null);

describe('[packaging] electron-builder.yml', () => {
  test('is in order by the schema of the packer, which a wrong key is not', async () => {
    await expect(packer.validateConfiguration(configuration, { isEnabled: false })).resolves.toBeUndefined();
    const wrong = { ...configuration, assar: true };
    await expect(packer.validateConfiguration(wrong, { isEnabled: false })).rejects.toThrow('assar');
  });

  test('packs for three systems, as an archive, with every fuse decided, and publishes nothing', () => {
    expect(configuration).toMatchObject({
      asar: true,
      publish: null,
      mac: { target: ['dmg', 'zip'] },
      win: { target: ['nsis'] },
      linux: { target: ['AppImage', 'deb'] },
      nsis: { perMachine: true },
    });
    const { definitions } = JSON.parse(readFileSync(builder.resolve('app-builder-lib/scheme.json'), 'utf8')) as {
      definitions: Record<string, { properties: object }>;
    };
    const fuses = Object.keys(definitions['FuseOptionsV1']!.properties);
    expect(Object.keys(configuration['electronFuses'] as object).sort()).toEqual(fuses.sort());
  });

  test('leaves the display server and the sandbox under Linux to the program and the packer', () => {
    expect(configuration['linux']).not.toHaveProperty('executableArgs');
    expect(configuration['appImage'] ?? {}).not.toHaveProperty('executableArgs');
  });

  test('makes session files open here, and leaves plain text files whose they were', () => {
    const own = (configuration['fileAssociations'] as { ext: string }[]).map(({ ext }) => ext);
    expect(own).toEqual(['lanecall']);
    expect(configuration['mac']).toMatchObject({ fileAssociations: [{ ext: 'txt', rank: 'Alternate' }] });
  });
});

// The packer's own hook, on a folder that only looks like the program, and a signer that only writes down its words.
test.skipIf(process.platform === 'win32')(
  '[packaging] macOS: the program is signed anew once its fuses are set',
  async () => {
    const folder = freshDataFolder();
    const app = join(folder, 'Lanecall.app');
    const framework = join(app, 'Contents', 'Frameworks', 'Electron Framework.framework');
    const file = join(framework, 'Electron Framework');
    mkdirSync(framework, { recursive: true });
    // The runtime's own mark, the version and the number of fuses, then the fuses (@electron/fuses, README).
    writeFileSync(file, Buffer.from(`dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX\x01\x08${'1'.repeat(8)}`, 'latin1'));
    writeFileSync(join(folder, 'codesign'), `#!/bin/sh\nprintf '%s\\n' "$@" > '${folder}/words'\n`);
    chmodSync(join(folder, 'codesign'), 0o755);
    const { PlatformPackager } = builder('app-builder-lib') as {
      PlatformPackager: { prototype: { doAddElectronFuses(context: object): Promise<void> } };
    };
    const packager = Object.create(PlatformPackager.prototype, {
      config: { value: configuration },
      appInfo: { value: { productFilename: 'Lanecall' } },
    }) as typeof PlatformPackager.prototype;
    const path = process.env['PATH'];
    process.env['PATH'] = `${folder}:${path}`;
    try {
      await packager.doAddElectronFuses({ appOutDir: folder, electronPlatformName: 'darwin' });
    } finally {
      process.env['PATH'] = path;
    }
    expect(readFileSync(file, 'latin1').slice(-8)).toBe('00001100');
    const words = readFileSync(join(folder, 'words'), 'utf8').trim().split('\n');
    expect(words.slice(0, 3)).toEqual(['--sign', '-', '--force']);
    expect(words.at(-1)).toBe(app);
  },
);

test('[packaging] the package holds the built program and nothing else, and opens', async () => {
  const folder = freshDataFolder();
  const archive = pack(folder);
  const files = asar.listPackage(archive, {}).filter((name) => /\.[a-z0-9]+$/.test(name));
  expect(files).toContain('/dist/desktop/main.cjs');
  expect(files).toContain('/dist/pages/wall/index.html');
  expect(files).toContain('/dist/THIRD-PARTY.txt');
  const ours = /^\/(dist\/(desktop|pages)\/|dist\/THIRD-PARTY\.txt$|package\.json$)/;
  expect(files.filter((name) => !ours.test(name))).toEqual([]);
  const unpacked = join(folder, 'unpacked');
  asar.extractAll(archive, unpacked);
  const program = await DesktopProgram.start(STAND_IN, ['--data', freshDataFolder()], [LAPTOP], unpacked);
  const desk = await program.page('/');
  await expect.poll(() => desk.getByRole('heading', { name: 'A sample session' }).count()).toBe(1);
  expect(program.complaints).toEqual([]);
  await program.close();
});

/** Packs for Linux into a folder; the path of the archive. */
function pack(folder: string): string {
  const dist = join(folder, 'runtime');
  for (const inner of ['locales', 'resources']) mkdirSync(join(dist, inner), { recursive: true });
  writeFileSync(join(dist, 'electron'), '#!/bin/sh\n');
  chmodSync(join(dist, 'electron'), 0o755);
  writeFileSync(join(dist, 'version'), String(configuration['electronVersion']));
  for (const name of ['LICENSE', 'LICENSES.chromium.html', 'locales/en-US.pak']) writeFileSync(join(dist, name), '');
  // Fuses are bits in the real runtime.
  const directories = { ...configuration.directories, output: join(folder, 'packages') };
  const file = join(folder, 'electron-builder.json');
  writeFileSync(file, JSON.stringify({ ...configuration, electronFuses: undefined, directories, electronDist: dist }));
  const cli = join(dirname(builder.resolve('electron-builder/package.json')), 'cli.js');
  const { status, stderr, stdout } = spawnSync(
    process.execPath,
    [cli, '--config', file, '--linux', 'dir', '--publish', 'never'],
    { cwd: root, encoding: 'utf8' },
  );
  expect(status, stderr + stdout).toBe(0);
  return join(folder, 'packages', 'linux-unpacked', 'resources', 'app.asar');
}
