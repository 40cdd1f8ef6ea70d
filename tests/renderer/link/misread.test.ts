// A page under which the program has become another one: it says so, and loads itself anew where nobody types.

import { describe, expect, test } from 'vitest';
import { WIRE_VERSION } from '../../../app/wire/messages.ts';
import { reloadOnce } from '../../../renderer/link/misread.ts';
import { FakeHost } from './fake-host.ts';

const OLDER = 'This page is older than the program: reload it.';
const NEWER = 'This page is newer than the program: reload it.';

/** A live link with a run, to which a host says something. */
function told(message: object | string, screen: 'desk' | 'wall' | 'remote' = 'wall') {
  const host = new FakeHost();
  const link = host.open(screen);
  host.pass(1000);
  host.openRun();
  host.pass(100);
  host.sendRaw(typeof message === 'string' ? message : JSON.stringify(message));
  host.pass(10);
  return { host, link, state: () => link.store.getState() };
}

describe('[wire] what a page cannot read', () => {
  test.each([
    [OLDER, { say: 'snapshot', version: WIRE_VERSION + 1 }],
    [OLDER, { say: 'snapshot', version: WIRE_VERSION + 1, run: { lanes: [] }, squads: { open: 2 } }],
    [OLDER, { say: 'plan', version: WIRE_VERSION + 1, stretches: [] }],
    [OLDER, { say: 'bye', version: WIRE_VERSION + 1, reason: 7 }],
    [NEWER, { say: 'snapshot', version: WIRE_VERSION - 1 }],
    [NEWER, { say: 'bye', version: WIRE_VERSION - 1, why: 'Another version.' }],
  ])('of another version: it says "%s", and shows nothing it may have wrong: %o', (sentence, message) => {
    const { state } = told(message);
    expect(state()).toMatchObject({ run: null, faults: [sentence] });
  });

  test.each([
    [OLDER, { say: 'plan', stretches: [] }],
    [OLDER, { say: 'answer', id: 'a', ok: true, at: 1, why: null, squad: 'Harbour' }],
    ['This page cannot read what the program says: reload it.', 'no JSON'],
    ['This page cannot read what the program says: reload it.', { say: 'answer', id: 'a' }],
  ])('of no version: it says "%s" until the next connection, and goes on: %o', (sentence, message) => {
    const { host, state } = told(message);
    // What is on the screen stays there.
    expect(state().run).not.toBeNull();
    host.accept(120, { do: 'start' });
    host.pass(10);
    expect(state()).toMatchObject({ run: { commands: [{ at: 120 }] }, faults: [sentence] });
    host.cut();
    host.pass(3000);
    expect(state()).toMatchObject({ status: 'live', faults: [] });
  });
});

describe('[wire] loading itself anew', () => {
  test.each(['wall', 'remote'] as const)('the %s does where the program is of another version', (screen) => {
    expect(told({ say: 'snapshot', version: WIRE_VERSION + 1 }, screen).host.reloads).toBe(1);
    expect(told({ say: 'plan' }, screen).host.reloads).toBe(1);
  });

  test("not the coach's window, in which somebody may be writing, and not for a message that is merely broken", () => {
    expect(told({ say: 'snapshot', version: WIRE_VERSION + 1 }, 'desk').host.reloads).toBe(0);
    expect(told('no JSON').host.reloads).toBe(0);
  });

  test('once for a version and tab, never where nothing can be remembered', () => {
    const kept = new Map<string, string>();
    const storage = {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => void kept.set(key, value),
    };
    let reloads = 0;
    const reload = (): void => void reloads++;
    for (let time = 0; time < 3; time++) reloadOnce(() => storage, reload);
    expect(reloads).toBe(1);
    // Beside whatever else the pages of this address keep.
    expect([...kept.keys()]).toEqual(['lanecall.reloaded']);
    reloadOnce(() => {
      throw new Error('no storage here');
    }, reload);
    expect(reloads).toBe(1);
  });
});
