/* What the list of devices says of the loudspeaker, and what it does not. */

import { expect, test } from 'vitest';
import { createDeviceWatch } from '../../../../renderer/sound/output/device-watch.ts';

const settled = (): Promise<void> => Promise.resolve().then(() => Promise.resolve());

function browser() {
  let kinds: readonly string[] | Error = [];
  let asked = 0;
  const list = {
    enumerateDevices() {
      asked++;
      return kinds instanceof Error ? Promise.reject(kinds) : Promise.resolve(kinds.map((kind) => ({ kind })));
    },
  };
  return { list, asked: () => asked, has: (next: readonly string[] | Error) => void (kinds = next) };
}

test('gone when the last output is, back when there is one again', async () => {
  const { list, has } = browser();
  const watch = createDeviceWatch(list);
  const states: boolean[] = [];
  const steps = [['audiooutput', 'audioinput'], ['audioinput'], [], ['audiooutput']];
  for (const [second, kinds] of steps.entries()) {
    has(kinds);
    watch.look(second * 1000);
    await settled();
    states.push(watch.isGone());
  }
  expect(states).toEqual([false, true, true, false]);
});

test('a browser that never lists an output, fails, or has no list says nothing', async () => {
  const { list, has } = browser();
  const watch = createDeviceWatch(list);
  watch.look(0);
  await settled();
  expect(watch.isGone()).toBe(false);
  has(['audiooutput']);
  watch.look(1000);
  await settled();
  has(new Error('no'));
  watch.look(2000);
  await settled();
  expect(watch.isGone()).toBe(false);
  const none = createDeviceWatch(undefined);
  none.look(0);
  expect(none.isGone()).toBe(false);
});

test('is asked once a second, however often it is looked', () => {
  const { list, asked } = browser();
  const watch = createDeviceWatch(list);
  for (let now = 0; now < 3000; now += 50) watch.look(now);
  expect(asked()).toBe(3);
});
