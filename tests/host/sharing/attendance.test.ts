/* How many of each role may be connected at once: nobody who is there ever makes room for another. */

import { describe, expect, test } from 'vitest';
import { Attendance } from '../../../app/host/sharing/attendance.ts';
import { THIS_MACHINE, type Guest } from '../../../app/host/sharing/guest.ts';
import type { Role } from '../../../app/wire/joining.ts';

function pool() {
  const attendance = new Attendance(() => undefined);
  const dismissed: string[] = [];
  return {
    attendance,
    dismissed,
    /** It comes; the returned function says that it has gone. */
    come(guest: Guest, call = guest.device ?? ''): () => void {
      return attendance.come({
        guest: () => guest,
        listener: 'network',
        kind: () => null,
        clock: () => null,
        dismiss: () => void dismissed.push(call),
      });
    },
  };
}

const guest = (role: Role, n: number): Guest => ({ role, name: `${role} ${n}`, device: `${role}-${n}` });

describe('[sharing] room', () => {
  test.each([
    ['wall', 256],
    ['remote', 32],
    ['tablet', 8],
  ] as const)('for a %s: %i, until one goes; one that is there may connect again', (role, most) => {
    const { attendance, dismissed, come } = pool();
    const leave = Array.from({ length: most }, (_, n) => {
      expect(attendance.hasRoom(guest(role, n))).toBe(true);
      return come(guest(role, n));
    });
    expect(attendance.hasRoom(guest(role, most))).toBe(false);
    expect(attendance.hasRoom(guest(role, 0))).toBe(true);
    leave[0]!();
    expect(attendance.hasRoom(guest(role, most))).toBe(true);
    expect(dismissed).toEqual([]);
  });

  test('of one role is taken by that role alone, and never by this machine without a key', () => {
    const { attendance, come } = pool();
    for (let n = 0; n < 8; n++) come(guest('tablet', n));
    expect([attendance.hasRoom(guest('remote', 0)), attendance.hasRoom(THIS_MACHINE)]).toEqual([true, true]);
    expect(attendance.hasRoom(guest('tablet', 8))).toBe(false);
  });

  test('where all of it is taken, a device that connects again takes the place of its own oldest connection', () => {
    const { dismissed, come } = pool();
    for (let n = 0; n < 8; n++) come(guest('tablet', n));
    come(guest('tablet', 3), 'again');
    expect(dismissed).toEqual(['tablet-3']);
  });

  test('for one device: four connections; with a fifth the oldest goes', () => {
    const { dismissed, come } = pool();
    for (const call of ['1st', '2nd', '3rd', '4th']) come(guest('remote', 1), call);
    expect(dismissed).toEqual([]);
    come(guest('remote', 1), '5th');
    expect(dismissed).toEqual(['1st']);
  });
});
