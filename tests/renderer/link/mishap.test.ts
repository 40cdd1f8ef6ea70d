/*
 * What goes wrong beside the clock: told on the console once, and never in the way of anything else.
 */

import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';

/** The module as a page has it just loaded: what it has told already is its own. */
async function freshPage() {
  vi.resetModules();
  return import('../../../renderer/link/mishap.ts');
}

const console = { error: vi.fn() };

beforeEach(() => {
  console.error.mockClear();
  vi.stubGlobal('console', console);
});

afterEach(() => {
  vi.unstubAllGlobals();
});

describe('[mishap] what goes wrong', () => {
  test('is told with where, with its words and with the error itself', async () => {
    const { reportMishap } = await freshPage();
    const error = new Error('no room');
    reportMishap('drawing the head', error);
    expect(console.error.mock.calls).toEqual([['Lanecall, drawing the head: no room', error]]);
  });

  test('is told in words where it is no error', async () => {
    const { reportMishap } = await freshPage();
    reportMishap('drawing the head', 7);
    expect(console.error.mock.calls).toEqual([['Lanecall, drawing the head: 7', 7]]);
  });

  test('is told once, though it comes with every frame', async () => {
    const { reportMishap } = await freshPage();
    for (let frame = 0; frame < 60; frame++) reportMishap('drawing the head', new Error('no room'));
    reportMishap('drawing the foot', new Error('no room'));
    expect(console.error).toHaveBeenCalledTimes(2);
  });

  test('is told a hundred times at most, however its words change', async () => {
    const { reportMishap } = await freshPage();
    for (let time = 0; time < 150; time++) reportMishap('drawing the head', new Error(`no room at ${time}`));
    expect(console.error).toHaveBeenCalledTimes(100);
  });

  test('in a guarded call goes no further', async () => {
    const { guarded } = await freshPage();
    const heard: number[] = [];
    const call = guarded('following the deck', (n: number) => {
      heard.push(n);
      if (n === 1) throw new Error('odd');
    });
    [1, 2].forEach(call);
    expect(heard).toEqual([1, 2]);
    expect(console.error.mock.calls.map(([words]) => words as string)).toEqual(['Lanecall, following the deck: odd']);
  });
});
