/* What is called when a session is done again. */

import { expect, test, vi } from 'vitest';
import { bringAgain } from '../../../../renderer/desk/history/bring.ts';
import type { Writing } from '../../../../renderer/desk/write/writing.ts';

/** Swum on Saturday 28 November 2026; the file's name and the first line. */
function again(title: string, day = ''): readonly (string | null | undefined)[] {
  vi.useFakeTimers({ now: new Date(2026, 10, 28, 21) });
  const put: Parameters<Writing['put']>[0][] = [];
  const writing = { put: (draft: (typeof put)[number]) => void put.push(draft) } as unknown as Writing;
  const text = `${title}\n${day}start 19:30\n4 x 50 @ 1:00\n`;
  bringAgain(writing, { title, openedAt: '2026-11-28T19:30', text, lanesText: null }, null);
  vi.useRealTimers();
  return [put[0]?.from, put[0]?.text?.split('\n')[0]];
}

test('a session done again is called by the weekday that its title is given', () => {
  expect(again('Otters, Friday')).toEqual(['Otters, Saturday 5 December.txt', 'Otters, Saturday']);
  const dated = '# for Friday 27 November 2026\n';
  expect(again('Otters, Friday', dated)).toEqual(['Otters, Saturday 5 December.txt', 'Otters, Saturday']);
  expect(again('Otters, Saturday 28 November')[0]).toBe('Otters, Saturday 5 December.txt');
});
