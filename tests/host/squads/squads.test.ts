/* The file that keeps the squads, on a disk that may refuse anything and hold anything. */

import { beforeEach, describe, expect, test } from 'vitest';
import { Squads } from '../../../app/host/squads/squads.ts';
import type { Squad, SquadsRequest } from '../../../app/wire/squads.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';

const FILE = '/data/squads.json';
const HARBOUR: Squad = {
  name: 'Harbour',
  lanes: ['lane 1 css 1:20, base 1:30, 5 swimmers', 'lane 2 Ana, Bram, gap 10'],
};
const JUNIORS: Squad = { name: 'Juniors', lanes: ['lane 1 base 2:10, 6 swimmers'] };
const KEPT = JSON.stringify({ version: 1, squads: [HARBOUR] });

let disk: FakeDisk;
let mine: boolean;
let squads: Squads;

beforeEach(() => {
  disk = new FakeDisk();
  mine = true;
  const check = (): Promise<void> => (mine ? Promise.resolve() : Promise.reject(new Error('taken')));
  squads = new Squads({ disk, folder: '/data', guard: { check, checkNow: () => undefined } });
});

const holding = (text: string): void => disk.put(FILE, Buffer.from(text));
const ask = (asked: SquadsRequest) => squads.ask(asked);
const keep = (squad: Squad, over = false) => ask({ do: 'keep', squad, over });

async function names(): Promise<readonly string[]> {
  const answer = await ask({ do: 'list' });
  return answer.ok ? answer.squads.map(({ name }) => name) : [answer.why];
}

describe('[squads] the file', () => {
  test('has each squad once, as plain JSON that a person can read', async () => {
    await keep(JUNIORS);
    expect(await keep(HARBOUR)).toEqual({ ok: true, squads: [HARBOUR, JUNIORS], said: null });
    expect(JSON.parse(disk.text(FILE))).toEqual({ version: 1, squads: [HARBOUR, JUNIORS] });
    expect(disk.text(FILE)).toContain('\n        "lane 2 Ana, Bram, gap 10"\n');
    expect(disk.safe.get(FILE)).toEqual(disk.files.get(FILE));
  });

  test('replaces a squad of the same name only after asking', async () => {
    await keep(HARBOUR);
    const other = { ...JUNIORS, name: 'harbour' };
    expect(await keep(other)).toEqual({ ok: false, why: expect.stringContaining('harbour already') as string });
    expect(await keep(other, true)).toMatchObject({ ok: true, squads: [other] });
  });

  test('renames and deletes squads, and says if one is no longer there', async () => {
    await keep(HARBOUR);
    await keep(JUNIORS);
    expect(await ask({ do: 'rename', name: 'Harbour', to: 'juniors' })).toEqual({
      ok: false,
      why: 'There is a squad juniors already: choose another name.',
    });
    expect(await ask({ do: 'rename', name: 'Harbour', to: 'HARBOUR' })).toMatchObject({ ok: true });
    await ask({ do: 'rename', name: 'HARBOUR', to: 'Zander' });
    expect(await names()).toEqual(['Juniors', 'Zander']);
    await ask({ do: 'delete', name: 'Juniors' });
    expect(await names()).toEqual(['Zander']);
    const gone = { ok: false, why: 'There is no squad Juniors any more.' };
    expect(await ask({ do: 'delete', name: 'Juniors' })).toEqual(gone);
    expect(await ask({ do: 'rename', name: 'Juniors', to: 'x' })).toEqual(gone);
  });

  test('lists squads by name, with numbers in order', async () => {
    for (const name of ['Squad 10', 'Squad 9', 'a squad', 'Über 60']) await keep({ ...JUNIORS, name });
    expect(await names()).toEqual(['a squad', 'Squad 9', 'Squad 10', 'Über 60']);
  });

  test('does not rename a squad to the name of another', async () => {
    for (const name of ['One', 'Two', 'Three']) await keep({ ...JUNIORS, name });
    expect(await ask({ do: 'rename', name: 'One', to: 'two' })).toMatchObject({ ok: false });
    expect(await names()).toEqual(['One', 'Three', 'Two']);
  });

  test('may be edited by hand, which counts at once', async () => {
    await keep(JUNIORS);
    holding(KEPT.replace('lane 1 css', 'Lane 1: css'));
    expect(await names()).toEqual(['Harbour']);
  });

  test('carries out wishes that come together one after the other', async () => {
    await Promise.all(Array.from({ length: 9 }, (_, n) => keep({ ...JUNIORS, name: `Squad ${n + 1}` })));
    expect(await names()).toHaveLength(9);
  });

  test('keeps at most a hundred squads', async () => {
    const all = Array.from({ length: 100 }, (_, n) => ({ ...JUNIORS, name: `Squad ${n + 1}` }));
    holding(JSON.stringify({ version: 1, squads: all }));
    expect(await keep(HARBOUR)).toEqual({
      ok: false,
      why: 'A hundred squads are kept: delete one of them first.',
    });
    expect(await keep({ ...HARBOUR, name: 'Squad 7' }, true)).toMatchObject({ ok: true });
    expect(await names()).toHaveLength(100);
  });

  test('is the old one or the new one after a crash at any moment', async () => {
    for (let survived = 0; survived < 4; survived++) {
      disk = new FakeDisk();
      holding(KEPT);
      squads = new Squads({
        disk,
        folder: '/data',
        guard: { check: () => Promise.resolve(), checkNow: () => undefined },
      });
      let left = survived;
      disk.beforeChange = () => {
        if (left-- <= 0) throw new Error('the power is gone');
      };
      const answer = await keep(JUNIORS);
      disk.beforeChange = () => undefined;
      expect(await names()).toEqual(answer.ok ? ['Harbour', 'Juniors'] : ['Harbour']);
    }
  });
});

describe('[squads] a file that is not ours', () => {
  const withLanes = (...lanes: readonly unknown[]): string =>
    JSON.stringify({ version: 1, squads: [{ name: 'Harbour', lanes }] });
  test.each([
    ['no JSON', 'lane 1 base 1:30\n'],
    ['no text', '\u0000\ufffd'],
    ['cut short', KEPT.slice(0, 60)],
    ['empty', ''],
    ['no object', '7'],
    ['null', 'null'],
    ['a list', '[]'],
    ['of something else', '{"version": 1, "screens": []}'],
    ['with a field too many', KEPT.replace('"squads"', '"by": "somebody", "squads"')],
    ['of no version', KEPT.replace('"version":1,', '')],
    ['with a name of nothing', KEPT.replace('"Harbour"', '" "')],
    ['with a name that turns letters around', KEPT.replace('"Harbour"', '"\u202eruobraH"')],
    ['with two of a name', JSON.stringify({ version: 1, squads: [HARBOUR, { ...JUNIORS, name: 'HARBOUR' }] })],
    ['with no lane', withLanes()],
    ['with a lane that is no text', withLanes(1)],
    ['with a line that is no lane', withLanes('pool 25 m')],
    ['with a set among its lanes', withLanes('lane 1', '4 x 50 @ 1:00')],
    ['with two lines in one', withLanes('lane 1\nlane 2')],
    ['with a lane twice', withLanes('lane 1', 'lane 1')],
    ['with a fault in a lane', withLanes('lane 1 base 0:01')],
    ['with a line that is empty', withLanes('lane 1', '')],
    ['with a line without end', withLanes(`lane 1 ${'x'.repeat(600)}`)],
    ['with too many lanes', withLanes(...Array.from({ length: 21 }, (_, n) => `lane ${n}`))],
    ['with a __proto__ field alone', '{"__proto__": {"version": 1, "squads": []}}'],
    ['too large', `${KEPT}${' '.repeat(2 * 1024 * 1024)}`],
  ])('(%s) is set aside, a sentence says where, and squads can be kept again', async (_, text) => {
    holding(text);
    const listed = await ask({ do: 'list' });
    const said = `${FILE} does not hold squads: it is kept as ${FILE}.aside-1.`;
    expect(listed).toEqual({ ok: true, squads: [], said });
    expect(disk.text(`${FILE}.aside-1`)).toBe(text);
    expect(await keep(JUNIORS)).toEqual({ ok: true, squads: [JUNIORS], said: null });
  });

  test('and broke after it was read is set aside at the next change', async () => {
    holding('first');
    await ask({ do: 'list' });
    holding('second');
    expect(await keep(JUNIORS)).toMatchObject({ ok: true, said: expect.stringContaining('.aside-2') as string });
    expect(['1', '2'].map((n) => disk.text(`${FILE}.aside-${n}`))).toEqual(['first', 'second']);
  });

  test('but of a newer version is left as it is, whatever is wished', async () => {
    const newer = JSON.stringify({ version: 2, squads: { harbour: {} } });
    holding(newer);
    const why = `${FILE} is of a newer Lanecall and left as it is: squads cannot be kept here.`;
    expect(await ask({ do: 'list' })).toEqual({ ok: true, squads: [], said: why });
    expect(await keep(JUNIORS)).toEqual({ ok: false, why });
    expect(await ask({ do: 'delete', name: 'Harbour' })).toMatchObject({ ok: false });
    expect([[...disk.files.keys()], disk.text(FILE)]).toEqual([[FILE], newer]);
  });

  test('and cannot be read or moved is left as it is', async () => {
    holding(KEPT);
    disk.unreadable.set(FILE, 'EACCES');
    const why = `${FILE} cannot be read (this user may not read or write it): squads cannot be kept until it can.`;
    expect(await ask({ do: 'list' })).toEqual({ ok: true, squads: [], said: why });
    expect(await keep(JUNIORS)).toEqual({ ok: false, why });
    expect(disk.text(FILE)).toBe(KEPT);
    disk.unreadable.clear();
    holding('nothing of ours');
    disk.refuses = 'EROFS';
    expect(await keep(JUNIORS)).toEqual({
      ok: false,
      why: `${FILE} does not hold squads and cannot be moved (the disk is read-only): move it away yourself.`,
    });
    expect(disk.text(FILE)).toBe('nothing of ours');
  });
});

test('[squads] if the disk refuses, nothing changes and a sentence says so', async () => {
  holding(KEPT);
  disk.refuses = 'ENOSPC';
  const why = `The squad is not kept in ${FILE} (the disk is full): see to that, then again.`;
  expect(await keep(JUNIORS)).toEqual({ ok: false, why });
  disk.refuses = null;
  expect(await names()).toEqual(['Harbour']);
});

test('[squads] a host that has lost the folder writes nothing more', async () => {
  holding(KEPT);
  mine = false;
  expect(await keep(JUNIORS)).toMatchObject({ ok: false });
  expect(disk.text(FILE)).toBe(KEPT);
});
