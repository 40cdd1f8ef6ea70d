/* What each kind of guest may do, one rule at a time. */

import { describe, expect, test } from 'vitest';
import {
  askerOf,
  COACH_HERE,
  commandRate,
  KEYLESS,
  mayBe,
  mayCommand,
  mayLetIn,
  THIS_MACHINE,
  undoesOwnOnly,
  whyNotThrowOut,
  type Guest,
} from '../../../../app/host/sharing/doors/guest.ts';
import type { Role } from '../../../../app/wire/sharing/joining.ts';

const of = (role: Role): Guest => ({ role, name: role, device: `${role} 1` });
const ALL: readonly Guest[] = [of('wall'), of('remote'), of('tablet'), of('coach'), THIS_MACHINE, KEYLESS];

/** The roles of those that may; the coach twice, with a key and without. */
const who = (may: (guest: Guest) => boolean): readonly Role[] => ALL.filter(may).map(({ role }) => role);

describe('[who may what] a guest', () => {
  test('of this machine goes by that name and no device', () => {
    expect([THIS_MACHINE, KEYLESS, COACH_HERE]).toEqual([
      { role: 'coach', name: 'this machine', device: null },
      { role: 'wall', name: 'this machine', device: null },
      { role: 'coach', name: 'this machine', device: null, kind: 'desk' },
    ]);
  });

  test('may be the kind of screen of its role; a page of this machine without a key any', () => {
    const kinds = (guest: Guest) => (['desk', 'wall', 'remote'] as const).filter((kind) => mayBe(guest, kind));
    expect(ALL.map(kinds)).toEqual([['wall'], ['remote'], ['desk'], ['desk'], ['desk', 'wall', 'remote'], ['wall']]);
  });

  test.each(
    'start stop resume rejoin skip sit-out repeat shift interval mark move-on undo'.split(' ').map((each) => [each]),
  )('may give %s from a remote, a tablet or as the coach', (command) => {
    expect(who((guest) => mayCommand(guest, { do: command }))).toEqual(['remote', 'tablet', 'coach', 'coach']);
  });

  test.each(['rewrite', 'finish', 'open', ''])('may not give %j from a remote', (command) => {
    expect(who((guest) => mayCommand(guest, { do: command }))).toEqual(['tablet', 'coach', 'coach']);
  });

  test('has a pace for commands, and takes back its own alone, where it is a remote', () => {
    expect(ALL.map(commandRate)).toEqual([null, { perSecond: 4, burst: 8 }, null, null, null, null]);
    expect(who(undoesOwnOnly)).toEqual(['remote']);
  });

  test('lets others in where it is the coach', () => {
    expect(who(mayLetIn)).toEqual(['coach', 'coach']);
  });

  test('throws out others, but no tablet the coach, and nobody the page that they are on', () => {
    const why = (guest: Guest, role: Role, id = 'other') => whyNotThrowOut(guest, { id, role });
    const own = 'That is the page you are on: throw it out from another one, or stop sharing.';
    expect([why(of('tablet'), 'tablet', 'tablet 1'), why(of('coach'), 'coach', 'coach 1')]).toEqual([own, own]);
    expect(why(of('tablet'), 'coach')).toBe('That is the coach’s page: a tablet does not throw it out.');
    const others = [why(of('tablet'), 'remote'), why(of('tablet'), 'tablet'), why(of('coach'), 'coach')];
    expect(others).toEqual([null, null, null]);
  });

  test('has its commands remembered by its device; all pages of the coach by what they show', () => {
    expect(askerOf({ ...of('coach'), kind: 'desk' })).toBe(askerOf({ ...THIS_MACHINE, kind: 'desk' }));
    expect(askerOf({ ...of('coach'), kind: 'desk' })).not.toBe(askerOf({ ...THIS_MACHINE, kind: 'remote' }));
    expect(askerOf({ ...of('tablet'), kind: 'desk' })).toBe('tablet 1');
    expect(askerOf({ ...of('remote'), device: null, kind: 'remote' })).toBe('remote');
  });
});
