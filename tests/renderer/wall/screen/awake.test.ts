import { expect, test } from 'vitest';
import { keepAwake, type AwakePorts } from '../../../../renderer/wall/screen/awake.ts';

class Page implements AwakePorts {
  asked = 0;
  seen = true;
  release: () => void = () => undefined;
  show: () => void = () => undefined;
  readonly lock = {
    request: () => {
      this.asked++;
      if (!this.grants) return Promise.reject(new Error('not now'));
      return Promise.resolve({ addEventListener: (_: 'release', tell: () => void) => (this.release = tell) });
    },
  };

  private readonly grants: boolean;

  constructor(grants: boolean) {
    this.grants = grants;
  }

  readonly isSeen = (): boolean => this.seen;

  readonly onSeen = (tell: () => void): void => {
    this.show = tell;
  };
}

const settled = (): Promise<void> => Promise.resolve().then(() => undefined);

test('[awake] a page that may ask keeps the screen awake, and asks again when it is shown again', async () => {
  const page = new Page(true);
  const said: boolean[] = [];
  keepAwake(page, (kept) => said.push(kept));
  await settled();
  expect(said).toEqual([true]);
  page.seen = false;
  page.release();
  page.show();
  expect([page.asked, said]).toEqual([1, [true, false]]);
  page.seen = true;
  page.show();
  await settled();
  expect([page.asked, said]).toEqual([2, [true, false, true]]);
});

test('[awake] where the browser refuses, or has no such thing for this page, that is told', async () => {
  const said: boolean[] = [];
  keepAwake(new Page(false), (kept) => said.push(kept));
  keepAwake({ lock: null, isSeen: () => true, onSeen: () => undefined }, (kept) => said.push(kept));
  await settled();
  expect(said).toEqual([false, false]);
});
