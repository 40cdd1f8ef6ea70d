/* For how long a command waits for its line, and what the coach is told meanwhile. */

import { beforeEach, describe, expect, test } from 'vitest';
import { JournalWatch, PATIENCE_AT_START } from '../../../app/host/journal/journal-watch.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { settled } from '../../support/host/deck/journalled-deck.ts';

const NEVER = new Promise<void>(() => undefined);

function watched() {
  const clock = new FakeClock();
  const watch = new JournalWatch(clock.timers, () => undefined);
  /** Waits for a line that never gets into its file; whether it still does. */
  const wait = (waited: number) => {
    let waits = true;
    void watch.written(NEVER, waited, NEVER).then(() => (waits = false));
    return () => waits;
  };
  const pass = async (ms: number): Promise<void> => {
    clock.advance(ms);
    await settled();
  };
  return { watch, wait, pass };
}

test('[journal] a line whose writing began late has forty milliseconds to reach the file, and the coach is told at once', async () => {
  const { watch, wait, pass } = watched();
  const waits = wait(300);
  await pass(39);
  expect(waits()).toBe(true);
  expect(watch.notices()).toHaveLength(1);
  await pass(2);
  expect(waits()).toBe(false);
});

test('[journal] on a disk known to be slow nobody waits longer than 200 ms in all', async () => {
  const { wait, pass } = watched();
  wait(0);
  await pass(150);
  const next = wait(150);
  const late = wait(300);
  await pass(1);
  expect([next(), late()]).toEqual([true, false]);
  await pass(50);
  expect(next()).toBe(false);
});

const SLOW = [
  'The record is not on the disk (the disk is slow): the run goes on, but would not survive a crash. ' +
    'Lanecall keeps trying: check the disk, and keep this machine running.',
];

describe('[journal] a line on its way to the disk', () => {
  let clock: FakeClock;
  let watch: JournalWatch;
  let changes: number;
  beforeEach(() => {
    clock = new FakeClock();
    changes = 0;
    watch = new JournalWatch(clock.timers, () => changes++);
  });

  /** One that is begun now: how it ends is up to the test. */
  function line({ inFile = Promise.resolve() as Promise<void>, patience = undefined as number | undefined } = {}) {
    let done = (): void => undefined;
    let fails: (why: unknown) => void = done;
    const writing = new Promise<void>((resolve, reject) => ([done, fails] = [resolve, reject]));
    const given = { done, fails, waits: true };
    void watch.written(writing, 0, inFile, patience).then(() => (given.waits = false));
    return given;
  }

  async function pass(ms: number): Promise<void> {
    clock.advance(ms);
    await settled();
  }

  test('is waited for until it is there, without a notice', async () => {
    const { done } = line();
    const second = line();
    await pass(99);
    expect(second.waits).toBe(true);
    done();
    second.done();
    await settled();
    expect([second.waits, clock.pending, changes, watch.notices()]).toEqual([false, 0, 0, []]);
  });

  test('is reported after a tenth of a second, and no longer waited for if it is in the file', async () => {
    const given = line();
    await pass(99);
    expect([given.waits, watch.notices()]).toEqual([true, []]);
    await pass(1);
    expect([given.waits, watch.notices(), changes]).toEqual([false, SLOW, 1]);
    given.done();
    await settled();
    expect([clock.pending, watch.notices(), changes]).toEqual([0, [], 2]);
  });

  test('is waited for a tenth of a second more if it is not yet in the file', async () => {
    let arrives = (): void => undefined;
    const [never, late] = [line({ inFile: NEVER }), line({ inFile: new Promise((resolve) => (arrives = resolve)) })];
    await pass(199);
    expect([never.waits, late.waits]).toEqual([true, true]);
    arrives();
    await settled();
    expect([never.waits, late.waits]).toEqual([true, false]);
    await pass(2);
    expect(never.waits).toBe(false);
  });

  test('that the disk refuses is reported at once with the reason, and no longer waited for', async () => {
    const given = line();
    given.fails(new Error('the disk is full'));
    await settled();
    expect([given.waits, clock.pending, changes]).toEqual([false, 0, 1]);
    expect(watch.notices()).toEqual([expect.stringContaining('(the disk is full)')]);
    line().fails('worn out');
    await settled();
    expect(watch.notices()).toEqual([expect.stringContaining('(worn out)')]);
  });

  test('that is written after a refused one ends the notice; an older one does not', async () => {
    const [before, refused] = [line(), line()];
    refused.fails(new Error('full'));
    before.done();
    await settled();
    expect(watch.notices()).toHaveLength(1);
    line().done();
    await settled();
    expect(watch.notices()).toEqual([]);
  });

  test('has two seconds if the run has just come back', async () => {
    const given = line({ patience: PATIENCE_AT_START });
    await pass(1999);
    expect([given.waits, watch.notices()]).toEqual([true, []]);
    await pass(1);
    expect([given.waits, watch.notices()]).toEqual([false, SLOW]);
  });

  test('is no longer reported once everything is on the disk, or nothing is written any more', async () => {
    line().fails(new Error('full'));
    await settled();
    watch.caughtUpWithAll();
    expect([watch.notices(), changes]).toEqual([[], 2]);
    watch.caughtUpWithAll();
    expect(changes).toBe(2);
    line().fails(new Error('full'));
    await settled();
    watch.giveUp();
    expect(watch.notices()).toEqual([]);
  });
});
