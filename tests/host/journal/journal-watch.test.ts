/* For how long a command waits for its line, where the process itself was held up before it could write. */

import { expect, test } from 'vitest';
import { JournalWatch } from '../../../app/host/journal/journal-watch.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { settled } from '../../support/host/journalled-deck.ts';

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

test('[journal] a line that could not be begun in time is given forty milliseconds for the file, and the coach is told at once', async () => {
  const { watch, wait, pass } = watched();
  const waits = wait(300);
  await pass(39);
  expect(waits()).toBe(true);
  expect(watch.notices()).toHaveLength(1);
  await pass(2);
  expect(waits()).toBe(false);
});

test('[journal] behind a disk that is known to be slow nobody waits for longer than 200 ms in all', async () => {
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
