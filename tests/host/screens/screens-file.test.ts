/* The file that keeps the wall screens, on a disk that may refuse anything. */

import { describe, expect, test } from 'vitest';
import { FIRST_SETTINGS } from '../../../app/core/screen/screen-settings.ts';
import { ScreenBook } from '../../../app/host/screens/screen-book.ts';
import { keepScreens } from '../../../app/host/screens/screens-file.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';

const FILE = '/data/screens.json';
const ROOM = { width: 1920, height: 1080 };

/** A host on this disk: its book, what the coach reads, and whether it still has the folder. */
async function host(disk: FakeDisk) {
  const clock = new FakeClock();
  const book = new ScreenBook(clock.timers);
  const notices: (string | null)[] = [];
  const mine = { is: true };
  const check = (): Promise<void> => (mine.is ? Promise.resolve() : Promise.reject(new Error('taken')));
  const guard = { check, checkNow: () => undefined };
  const kept = await keepScreens(book, { disk, folder: '/data', guard, tell: (sentence) => notices.push(sentence) });
  clock.advance(1000);
  const names = (): string[] => book.latest().map(({ name }) => name);
  const join = (name: string) => book.join({ name, search: '', room: ROOM }, () => undefined);
  return { book, kept, notices, mine, names, join };
}

function holding(text: string): FakeDisk {
  const disk = new FakeDisk();
  disk.put(FILE, Buffer.from(text));
  return disk;
}

const HALL = JSON.stringify({
  version: 1,
  screens: [{ name: 'Hall', settings: { ...FIRST_SETTINGS, pushOff: 'right' }, formerly: ['Screen 1'] }],
});

describe('[screens] the file', () => {
  test('has the settings for the next host', async () => {
    const disk = new FakeDisk();
    const first = await host(disk);
    first.join('Screen 1');
    first.book.carryOut('Screen 1', { rename: 'Hall' });
    first.book.carryOut('Hall', { settings: { pushOff: 'right', lanes: [4, 1] } });
    await first.kept.written();
    const next = await host(disk);
    expect([next.kept.said, next.names()]).toEqual([null, ['Hall']]);
    expect(next.book.latest()[0]?.settings).toEqual({ ...FIRST_SETTINGS, pushOff: 'right', lanes: [1, 4] });
  });

  test('is plain JSON that a person can read', async () => {
    const disk = new FakeDisk();
    const { book, kept, join } = await host(disk);
    join('Screen 1');
    book.carryOut('Screen 1', { rename: 'Hall' });
    book.carryOut('Hall', { settings: { pushOff: 'right' } });
    await kept.written();
    expect(JSON.parse(disk.text(FILE))).toEqual(JSON.parse(HALL));
    expect(disk.text(FILE)).toContain('\n      "name": "Hall",\n');
  });

  test('is written once or twice for many changes at once, the last one included', async () => {
    const disk = new FakeDisk();
    const { book, kept, join } = await host(disk);
    join('Hall');
    let writes = 0;
    disk.beforeChange = () => void writes++;
    for (let inset = 0; inset <= 10; inset++) book.carryOut('Hall', { settings: { inset } });
    await kept.written();
    // A folder and a file each time.
    expect(writes).toBeLessThanOrEqual(4);
    expect(disk.text(FILE)).toContain('"inset": 10');
  });

  test('is the old one or the new one after a crash at any moment', async () => {
    for (let survived = 0; survived < 8; survived++) {
      const disk = holding(HALL);
      const { book, kept } = await host(disk);
      let left = survived;
      disk.beforeChange = () => {
        if (left-- <= 0) throw new Error('the power is gone');
      };
      book.carryOut('Hall', { settings: { inset: 0 } });
      await kept.written();
      book.carryOut('Hall', { settings: { inset: 1 } });
      await kept.written();
      disk.beforeChange = () => undefined;
      const next = await host(disk);
      expect(next.names()).toEqual(['Hall']);
      expect([5, 0, 1]).toContain(next.book.latest()[0]?.settings.inset);
    }
  });
});

describe('[screens] a file that is not ours', () => {
  test.each([
    ['not JSON', 'Squad\n8 x 50 @ 1:00\n'],
    ['cut short', HALL.slice(0, 100)],
    ['empty', ''],
    ['of something else', '{"windows": []}'],
    ['with a setting out of its range', HALL.replace('"inset":5', '"inset":50')],
    ['not an object', '7'],
    ['too large', `${HALL}${' '.repeat(1024 * 1024)}`],
  ])('(%s) is set aside, and a sentence says where', async (_, text) => {
    const disk = holding(text);
    const { kept, names, join } = await host(disk);
    expect(kept.said).toContain('/data/screens.json.aside-1');
    expect(disk.text('/data/screens.json.aside-1')).toBe(text);
    expect(names()).toEqual([]);
    join('Gym');
    await kept.written();
    expect(disk.text(FILE)).toContain('Gym');
  });

  test('is set aside beside an earlier one', async () => {
    const disk = holding('first');
    await host(disk);
    disk.put(FILE, Buffer.from('second'));
    expect((await host(disk)).kept.said).toContain('.aside-2');
    expect(['1', '2'].map((n) => disk.text(`/data/screens.json.aside-${n}`))).toEqual(['first', 'second']);
  });

  test('but of a newer version is left as it is, whatever is set meanwhile', async () => {
    const newer = JSON.stringify({ version: 2, screens: { hall: {} } });
    const disk = holding(newer);
    const { kept, join, book } = await host(disk);
    expect(kept.said).toContain('newer Lanecall');
    join('Gym');
    expect(book.carryOut('Gym', { settings: { inset: 0 } })).toBeNull();
    await kept.written();
    expect([...disk.files.keys()]).toEqual([FILE]);
    expect(disk.text(FILE)).toBe(newer);
  });

  test('and cannot be read is left as it is', async () => {
    const disk = holding(HALL);
    disk.unreadable.set(FILE, 'EACCES');
    const { kept, join } = await host(disk);
    expect(kept.said).toContain('this user may not read');
    join('Gym');
    await kept.written();
    expect(disk.text(FILE)).toBe(HALL);
  });

  test('and cannot be set aside is left as it is', async () => {
    const disk = holding('nothing of ours');
    disk.refuses = 'EROFS';
    const { kept, join } = await host(disk);
    expect(kept.said).toContain('the disk is read-only');
    disk.refuses = null;
    join('Gym');
    await kept.written();
    expect(disk.text(FILE)).toBe('nothing of ours');
  });
});

describe('[screens] a disk that refuses', () => {
  test('is reported until something could be written, and settings hold meanwhile', async () => {
    const disk = new FakeDisk();
    const { book, kept, notices, join } = await host(disk);
    disk.refuses = 'ENOSPC';
    join('Hall');
    book.carryOut('Hall', { settings: { inset: 0 } });
    await kept.written();
    expect(notices.at(-1)).toContain('the disk is full');
    disk.refuses = null;
    book.carryOut('Hall', { settings: { inset: 1 } });
    await kept.written();
    expect(notices.at(-1)).toBeNull();
    expect(disk.text(FILE)).toContain('"inset": 1');
  });

  test('writes nothing more once the host has lost the folder', async () => {
    const disk = holding(HALL);
    const { book, kept, mine } = await host(disk);
    mine.is = false;
    book.carryOut('Hall', { settings: { inset: 0 } });
    await kept.written();
    expect(disk.text(FILE)).toBe(HALL);
  });
});

describe('[screens] what the coach reads about the file', () => {
  const notKept = 'the screens have their first settings, and changes last until Lanecall ends.';

  test.each([
    ['EACCES', `${FILE} cannot be read (this user may not read or write it): ${notKept}`],
    ['ENOENT', null],
  ])('if it cannot be read (%s): %s', async (code, said) => {
    const disk = holding(HALL);
    disk.unreadable.set(FILE, code);
    expect((await host(disk)).kept.said).toBe(said);
  });

  test('if a newer Lanecall wrote it', async () => {
    const { kept } = await host(holding('{"version":2}'));
    expect(kept.said).toBe(`${FILE} is of a newer Lanecall and left as it is: ${notKept}`);
  });

  test.each(['{"version":1.5,"screens":[]}', '{"version":"2","screens":[]}', 'null', '\u00ff'])(
    'where it is not ours: %j',
    async (text) => {
      const { kept } = await host(holding(text));
      expect(kept.said).toBe(
        `${FILE} does not hold the settings of screens: it is kept as ${FILE}.aside-1, and the screens have their ` +
          'first settings.',
      );
    },
  );

  test('if it is not text', async () => {
    const disk = new FakeDisk();
    disk.put(FILE, Uint8Array.from([0xff, 0xfe]));
    expect((await host(disk)).kept.said).toContain('does not hold the settings of screens');
  });

  test('if it is not ours and cannot be moved', async () => {
    const disk = holding('nothing of ours');
    disk.refuses = 'EROFS';
    expect((await host(disk)).kept.said).toBe(
      `${FILE} does not hold the settings of screens and cannot be moved (the disk is read-only): ${notKept}`,
    );
  });

  test('if it cannot be written', async () => {
    const disk = new FakeDisk();
    const { kept, notices, join } = await host(disk);
    disk.refuses = 'ENOSPC';
    join('Hall');
    await kept.written();
    expect(notices).toEqual([
      `The screens' settings cannot be kept in ${FILE} (the disk is full): they hold until Lanecall ends. ` +
        'They are written with the next change.',
    ]);
  });

  test('not if it is ours, up to a whole MiB: then it is read', async () => {
    const { names } = await host(holding(HALL.padEnd(1024 * 1024, ' ')));
    expect(names()).toEqual(['Hall']);
  });
});
