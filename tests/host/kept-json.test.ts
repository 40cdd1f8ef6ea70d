/* A file of the data folder that is kept as JSON: read, judged, and moved out of the way. */

import { describe, expect, test } from 'vitest';
import { jsonIn, keptBytes, readKept, setAside, type KeptForm } from '../../app/host/kept-json.ts';
import { FakeDisk } from '../support/host/folders/fake-disk.ts';

const PATH = '/data/kept.json';
const MOST = 40;

/** Of version 2, with one word in it. */
const FORM: KeptForm<string> = {
  version: 2,
  mostBytes: MOST,
  read: (json) => (Object(json) as { readonly word?: string }).word ?? null,
};

function holding(content: string | Uint8Array): FakeDisk {
  const disk = new FakeDisk();
  disk.put(PATH, typeof content === 'string' ? Buffer.from(content) : content);
  return disk;
}

const read = (content: string | Uint8Array) => readKept(holding(content), PATH, FORM);

describe('[kept files] reading one', () => {
  test('gives the value in it', async () => {
    expect(await read('{"version":2,"word":"Gym"}')).toEqual({ kind: 'kept', value: 'Gym' });
  });

  test('one of an earlier version is for the form to judge', async () => {
    expect(await read('{"version":1,"word":"Gym"}')).toEqual({ kind: 'kept', value: 'Gym' });
    expect(await read('{"word":"Gym"}')).toEqual({ kind: 'kept', value: 'Gym' });
  });

  test('one of a newer version is newer, whatever else it holds', async () => {
    expect(await read('{"version":3,"word":"Gym"}')).toEqual({ kind: 'newer' });
  });

  test.each(['{"version":2.5}', '{"version":"3"}', '{"version":1e300}', '"3"', 'null', '[3]', '', 'Gym'])(
    '%j is not ours',
    async (content) => {
      expect(await read(content)).toEqual({ kind: 'not ours' });
    },
  );

  test('bytes that are not UTF-8 are not ours', async () => {
    const bytes = Buffer.concat([Buffer.from('{"word":"'), Buffer.from([0xff]), Buffer.from('"}')]);
    expect(await read(bytes)).toEqual({ kind: 'not ours' });
  });

  test('the JSON in bytes that have none is null', () => {
    expect(jsonIn(Buffer.from('{'))).toBeNull();
  });

  test('it may be as long as the form says, and not a byte longer', async () => {
    const whole = '{"version":3,"word":"Gym"}';
    expect(await read(whole.padEnd(MOST))).toEqual({ kind: 'newer' });
    expect(await read(whole.padEnd(MOST + 1))).toEqual({ kind: 'not ours' });
  });

  test('no file is no fault', async () => {
    expect(await readKept(new FakeDisk(), PATH, FORM)).toEqual({ kind: 'none' });
  });

  test('one that the disk does not give says why', async () => {
    const disk = holding('{"word":"Gym"}');
    disk.unreadable.set(PATH, 'EIO');
    expect(await readKept(disk, PATH, FORM)).toEqual({ kind: 'unreadable', reason: 'the disk is failing' });
  });
});

describe('[kept files] moving one out of the way', () => {
  const guard = (isMine: boolean) => ({
    check: () => (isMine ? Promise.resolve() : Promise.reject(new Error('taken'))),
    checkNow: () => undefined,
  });

  test('gives it the first free number, and says its new name', async () => {
    const disk = holding('first');
    expect(await setAside(disk, guard(true), PATH)).toBe(`${PATH}.aside-1`);
    disk.put(PATH, Buffer.from('second'));
    expect(await setAside(disk, guard(true), PATH)).toBe(`${PATH}.aside-2`);
    expect([...disk.files.keys()].map((path) => [path, disk.text(path)])).toEqual([
      [`${PATH}.aside-1`, 'first'],
      [`${PATH}.aside-2`, 'second'],
    ]);
  });

  test('a host that has lost the folder moves nothing', async () => {
    const disk = holding('first');
    await expect(setAside(disk, guard(false), PATH)).rejects.toThrow('taken');
    expect([...disk.files.keys()]).toEqual([PATH]);
  });

  test('rejects where the disk refuses', async () => {
    const disk = holding('first');
    disk.refuses = 'EROFS';
    await expect(setAside(disk, guard(true), PATH)).rejects.toThrow('EROFS');
  });
});

test('[kept files] what is kept is written so that people can read it, and ends its last line', () => {
  expect(Buffer.from(keptBytes({ version: 2, word: 'Gym' })).toString()).toBe(
    '{\n  "version": 2,\n  "word": "Gym"\n}\n',
  );
});
