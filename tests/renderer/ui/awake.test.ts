import { expect, test } from 'vitest';
import { keepAwake, type AwakePorts } from '../../../renderer/ui/awake.ts';

class Page implements AwakePorts {
  asked = 0;
  played = 0;
  seen = true;
  release: () => void = () => undefined;
  show: () => void = () => undefined;
  readonly lock: AwakePorts['lock'];
  private readonly plays: boolean;

  /** grants: null for a browser without a lock for this page. */
  constructor(grants: boolean | null, plays: boolean) {
    this.plays = plays;
    const request: NonNullable<AwakePorts['lock']>['request'] = () => {
      this.asked++;
      if (grants !== true) return Promise.reject(new Error('not now'));
      return Promise.resolve({ addEventListener: (_, tell) => (this.release = tell) });
    };
    this.lock = grants === null ? null : { request };
  }

  readonly play = (): Promise<void> => {
    this.played++;
    return this.plays ? Promise.resolve() : Promise.reject(new Error('not without a tap'));
  };

  readonly isSeen = (): boolean => this.seen;

  readonly onSeen = (tell: () => void): void => {
    this.show = tell;
  };
}

async function settled(): Promise<void> {
  for (let turn = 0; turn < 5; turn++) await Promise.resolve();
}

test('[awake] a page that may ask keeps the screen awake, and asks again when it is shown again', async () => {
  const page = new Page(true, false);
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
  expect([page.asked, page.played, said]).toEqual([2, 0, [true, false, true]]);
});

test('[awake] one that may not, or is refused, plays a small video instead, and plays it on when it is shown again', async () => {
  for (const grants of [null, false]) {
    const page = new Page(grants, true);
    const said: boolean[] = [];
    keepAwake(page, (kept) => said.push(kept));
    await settled();
    expect([page.played, said]).toEqual([1, [true]]);
    page.show();
    await settled();
    expect([page.played, said]).toEqual([2, [true, true]]);
  }
});

test('[awake] where the video may not play either, that is told', async () => {
  const said: boolean[] = [];
  keepAwake(new Page(null, false), (kept) => said.push(kept));
  keepAwake(new Page(false, false), (kept) => said.push(kept));
  await settled();
  expect(said).toEqual([false, false]);
});
