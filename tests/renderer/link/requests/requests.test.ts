import { afterEach, expect, test, vi } from 'vitest';
import { askBy, type AskHost } from '../../../../renderer/link/connection/own-window.ts';
import { readLicences } from '../../../../renderer/link/requests/licences.ts';
import { askLibrary } from '../../../../renderer/link/requests/library.ts';
import { askRecords } from '../../../../renderer/link/requests/records.ts';
import { askSquads } from '../../../../renderer/link/requests/squads.ts';

const UNHEARD = 'The program does not answer: check that it is running, then try again.';

afterEach(() => {
  askBy(null);
  vi.restoreAllMocks();
});

/** What is asked for at each place, and what it says where nobody answers. */
const PLACES = [
  ['/squads', () => askSquads({ do: 'list' }), { do: 'list' }, UNHEARD],
  ['/records', () => askRecords({ do: 'never-started' }), { do: 'never-started' }, UNHEARD],
  [
    '/library',
    () => askLibrary({ do: 'bin' }),
    { do: 'bin' },
    'The program does not answer: check that it is running. What you typed is kept in this window.',
  ],
] as const;

test.each(PLACES)('[requests] %s is asked in JSON, and answers with what the host says', async (path, ask, asked) => {
  const heard: unknown[] = [];
  askBy((...given) => {
    heard.push(given);
    return Promise.resolve({ status: 200, body: '{"ok":false,"why":"Not now."}' });
  });
  expect(await ask()).toEqual({ ok: false, why: 'Not now.' });
  expect(heard).toEqual([['POST', path, JSON.stringify(asked)]]);
});

test.each(PLACES)(
  '[requests] %s of a host that does not answer, or not with an answer, is refused',
  async (...place) => {
    const [, ask, , why] = place;
    const hosts: readonly AskHost[] = [
      () => Promise.reject(new Error('gone')),
      ...['<html>', 'null', '{}', '{"ok":"yes"}'].map((body) => () => Promise.resolve({ status: 200, body })),
    ];
    for (const host of hosts) {
      askBy(host);
      expect(await ask()).toEqual({ ok: false, why });
    }
  },
);

test('[requests] the licences are the text of their page, or are said not to be there', async () => {
  const fetched = vi.spyOn(globalThis, 'fetch');
  fetched.mockResolvedValueOnce(new Response('MIT'));
  expect(await readLicences()).toBe('MIT');
  expect(fetched).toHaveBeenCalledWith('/licences');
  fetched.mockResolvedValueOnce(new Response('no such page', { status: 404 }));
  await expect(readLicences()).rejects.toThrow('404');
});
