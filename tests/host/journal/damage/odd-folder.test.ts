/* Start-up on a folder in which much has gone wrong: it ends soon, and says what is so and what to do. */

import { execFileSync } from 'node:child_process';
import { mkdirSync, symlinkSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runsFolder } from '../../../../app/host/lock/data-folder.ts';
import { systemDisk } from '../../../../app/host/journal/disk.ts';
import { recover } from '../../../../app/host/recovery/recovery.ts';
import { readSettings } from '../../../../app/desktop/settings.ts';
import { freshDataFolder } from '../../../support/host/folders/data-folder.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';
import { FOLDER, goingDeck, restarted } from '../../../support/host/deck/journalled-deck.ts';

const NAME = '2999-01-01T00-00-00Z-odd.jsonl';

describe('[recovery] a journal that is not an ordinary file', () => {
  /** What recovery says of a folder with something in it. */
  async function said(make: (path: string) => unknown): Promise<readonly string[]> {
    const data = freshDataFolder();
    mkdirSync(runsFolder(data));
    await make(join(runsFolder(data), NAME));
    const moment = new FakeClock().instant();
    return (await recover({ disk: systemDisk, folder: runsFolder(data), boot: 'b', moment })).said;
  }

  test.each<readonly [string, (path: string) => unknown, string]>([
    ['a named pipe', (path) => execFileSync('mkfifo', [path]), 'it is not an ordinary file'],
    ['a link to a device', (path) => symlinkSync('/dev/zero', path), 'it is not an ordinary file'],
    ['a folder', (path) => mkdirSync(path), 'it is a folder'],
    ['a link in a circle', (path) => symlinkSync(path, path), 'its links form a circle'],
    ['a link to nothing', (path) => symlinkSync(`${path}.nothing`, path), 'it does not exist any more'],
  ])('%s: the coach is told what to do, and the start is not held up', async (_, make, why) => {
    expect(await said(make)).toEqual([
      `The record ${NAME} cannot be read (${why}): it is left unchanged. ` +
        'Repair it and start Lanecall again, or move it out of the folder.',
    ]);
  });

  test('a socket is reported too', async () => {
    const server = createServer();
    const sentences = await said((path) => new Promise<void>((resolve) => server.listen(path, resolve)));
    server.close();
    expect(sentences[0]).toContain('it is not an ordinary file');
  });

  test('a pipe in place of the window settings counts as no settings', async () => {
    const data = freshDataFolder();
    execFileSync('mkfifo', [join(data, 'windows.json')]);
    expect(await readSettings(data)).toMatchObject({ desk: null });
  });

  test('nothing is written to a pipe in place of a journal', async () => {
    const path = join(freshDataFolder(), NAME);
    execFileSync('mkfifo', [path]);
    await expect(systemDisk.open(path)).rejects.toMatchObject({ code: 'NOT_ORDINARY' });
  });
});

describe('[recovery] thousands of damaged journals', () => {
  const MANY = 3000;

  test('that are useless: they are put aside together, a few are named, and the run in a good one comes back', async () => {
    const deck = await goingDeck();
    deck.kill();
    for (let index = 0; index < MANY; index++) {
      deck.disk.put(`${FOLDER}/2999-01-01T00-00-00Z-${index}.jsonl`, new Uint8Array(30).fill(65));
    }
    const { recovery } = await restarted(deck);
    expect(recovery.found?.run).toBe('run-1');
    expect(recovery.said).toHaveLength(7);
    expect(recovery.said[6]).toBe(
      `${MANY - 6} more records in ${FOLDER} cannot be used completely: look in that folder after the session.`,
    );
    expect([...deck.disk.files.keys()].filter((path) => path.endsWith('.jsonl'))).toHaveLength(1);
    const { bytesRead } = deck.disk;
    expect((await restarted(deck)).recovery.said).toEqual([]);
    // What a rename has marked is not read again.
    expect(deck.disk.bytesRead - bytesRead).toBeLessThan(30 * MANY);
  });

  test('of unfinished runs: each start mends and closes a few, the newest comes back, none is lost', async () => {
    const deck = await goingDeck();
    const whole = deck.disk.files.get(deck.path())!;
    deck.kill();
    const paths = Array.from({ length: MANY }, (_, index) => `${FOLDER}/1960-01-01T00-00-00Z-${index}.jsonl`);
    for (const path of paths) deck.disk.put(path, Buffer.concat([whole, Buffer.from('{"half')]));
    const { syncs } = deck.disk;
    const { recovery } = await restarted(deck);
    expect(recovery.found?.file.path).not.toContain('1960');
    expect(recovery.said[recovery.said.length - 1]).toMatch(
      new RegExp(`^${MANY - 19} older records of unfinished runs in .+ are left for the next start\\. Move them out`),
    );
    expect(deck.disk.syncs - syncs).toBeLessThan(50);
    for (const path of paths) expect(deck.disk.files.get(path)!.length).toBeGreaterThanOrEqual(whole.length);
  });
});
