/*
 * Touches of a page: what the host has not taken is kept by the browser, and sent until it is taken, once and only once.
 */

import { beforeEach, describe, expect, test } from 'vitest';
import type { Link, SentTouch } from '../../../../../renderer/link/link.ts';
import { UNHEARD, type CommandAnswer } from '../../../../../renderer/link/outbox.ts';
import { createDeckStore, type DeckRun } from '../../../../../renderer/link/store.ts';
import { touchMemory, type TouchStorage } from '../../../../../renderer/ui/coach/times/touch-memory.ts';
import { PACE, Touches, TRY_AGAIN_AFTER } from '../../../../../renderer/ui/coach/times/touches.ts';
import { SwumRuns } from '../../../../support/host/folders/swum-runs.ts';

/** A browser's storage. */
class Kept implements TouchStorage {
  readonly items = new Map<string, string>();
  isFull = false;
  get length(): number {
    return this.items.size;
  }
  key = (index: number) => [...this.items.keys()][index] ?? null;
  getItem = (key: string) => this.items.get(key) ?? null;
  removeItem = (key: string) => void this.items.delete(key);
  setItem = (key: string, value: string) => {
    if (this.isFull) throw new Error('QuotaExceededError');
    this.items.set(key, value);
  };
}

const LOST: CommandAnswer = { ok: false, at: null, why: UNHEARD };

let ids = 0;
let swum = new SwumRuns();
let storage = new Kept();
beforeEach(() => {
  storage = new Kept();
  swum = new SwumRuns();
  swum.write('run-1');
});

/** A page with its link, on the host's real records. */
class Page {
  readonly sent: SentTouch[] = [];
  readonly store = createDeckStore();
  readonly touches: Touches;
  /** Whether what is sent arrives, and whether answers come back. */
  arrives = true;
  answers = true;
  private waits: { readonly call: () => void; readonly ms: number }[] = [];

  constructor(link: Partial<Pick<Page, 'arrives' | 'answers'>> = {}) {
    Object.assign(this, link);
    this.open('run-1');
    this.touches = new Touches({
      link: { store: this.store, touch: this.send },
      memory: touchMemory(storage, () => 0),
      newId: () => `id-${++ids}`,
      after: (call, ms) => void this.waits.push({ call, ms }),
    });
  }

  open(id: string): void {
    this.store.setState({ run: { id } as DeckRun });
  }

  /** What waits, in ms; it is carried out, and what comes of it too. */
  async pass(): Promise<readonly number[]> {
    const waits = this.waits.splice(0);
    waits.forEach(({ call }) => call());
    await settled();
    return waits.map(({ ms }) => ms);
  }

  private readonly send: Link['touch'] = async (touch) => {
    this.sent.push(touch);
    if (!this.arrives) return LOST;
    const { run, ...rest } = touch;
    const kept = await swum.records.touch(run, rest);
    return this.answers ? { ok: kept.ok, at: null, why: kept.ok ? null : kept.why } : LOST;
  };
}

/** The disk in memory has answered all that was asked. */
async function settled(): Promise<void> {
  for (let turn = 0; turn < 20; turn++) await new Promise((resolve) => setImmediate(resolve));
}

const tap = (watch: number | null, at = 10_000) => ({ lane: 1, at, watch });

const keptTimes = async () => {
  const kept = await swum.records.touch('run-1', null);
  return kept.ok ? kept.times.map(({ at, watches }) => [at, ...watches]) : kept.why;
};

describe('[touches] the window closes before they were sent', () => {
  test('the next window sends them, each once, in their order', async () => {
    const closed = new Page({ arrives: false });
    closed.touches.add('run-1', tap(38_000));
    closed.touches.add('run-1', tap(null));
    closed.touches.add('run-1', tap(39_000));
    closed.touches.add('run-1', tap(41_000, 70_000));
    await settled();
    expect([await keptTimes(), storage.length]).toEqual([[], 4]);
    const next = new Page();
    expect(next.touches.state().times).toEqual([
      { lane: 1, at: 10_000, watches: [39_000] },
      { lane: 1, at: 70_000, watches: [41_000] },
    ]);
    await settled();
    for (let sent = 1; sent < 4; sent++) expect(await next.pass()).toEqual([PACE]);
    expect(await keptTimes()).toEqual([
      [10_000, 39_000],
      [70_000, 41_000],
    ]);
    expect([next.sent.length, storage.length]).toEqual([4, 0]);
    await next.pass();
    expect(next.sent).toHaveLength(4);
  });

  test('what had arrived and was not answered is sent again and counts once', async () => {
    const closed = new Page({ answers: false });
    closed.touches.add('run-1', tap(38_000));
    await settled();
    await swum.records.touch('run-1', { id: 'other', ...tap(39_000) });
    const next = new Page();
    await settled();
    expect(next.sent).toEqual(closed.sent);
    expect([await keptTimes(), storage.length]).toEqual([[[10_000, 38_000, 39_000]], 0]);
  });

  test('two windows of one browser that both find it send it, and it counts once', async () => {
    new Page({ arrives: false }).touches.add('run-1', tap(38_000));
    await settled();
    const both = [new Page(), new Page()];
    await settled();
    expect(both.map(({ sent }) => sent.length)).toEqual([1, 1]);
    expect([await keptTimes(), storage.length]).toEqual([[[10_000, 38_000]], 0]);
  });

  test('a browser without room loses only what was not sent', async () => {
    storage.isFull = true;
    const page = new Page();
    page.touches.add('run-1', tap(38_000));
    await settled();
    expect(await keptTimes()).toEqual([[10_000, 38_000]]);
    expect(touchMemory(null, () => 0).all()).toEqual([]);
  });

  test.each([
    '',
    'null',
    '{}',
    '{"touch":{}}',
    '{"touch":{"id":"a","run":"r","lane":1,"at":"x","watch":1},"tapped":[0,0]}',
  ])('what else stands under its name is passed over: %s', (text) => {
    storage.items.set('lanecall.touch.a', text);
    storage.items.set('lanecall.light', 'dark');
    expect(touchMemory(storage, () => 0).all()).toEqual([]);
  });
});

describe('[touches] while the link is lost', () => {
  test('the coach is told, and they go out by themselves when it is back', async () => {
    const page = new Page({ arrives: false });
    page.touches.add('run-1', tap(38_000));
    await settled();
    expect(page.touches.state().refused).toBe(
      'The program does not answer. Times are kept here and sent when it is back.',
    );
    page.arrives = true;
    expect(await page.pass()).toEqual([TRY_AGAIN_AFTER]);
    expect([page.touches.state().refused, await keptTimes()]).toEqual([null, [[10_000, 38_000]]]);
  });

  test('what one run cannot take keeps no other run’s touches back, and is said only with that run', async () => {
    swum.write('run-2');
    swum.disk.put('/data/runs/run-1.after.json', Buffer.from('{"version":99}'));
    const page = new Page();
    page.touches.add('run-1', tap(38_000));
    await settled();
    expect(page.touches.state().refused).toContain('is of a newer Lanecall');
    page.open('run-2');
    page.touches.add('run-2', tap(39_000));
    for (let pass = 0; pass < 3; pass++) await page.pass();
    expect(page.touches.state().refused).toBeNull();
    expect(await swum.records.touch('run-2', null)).toMatchObject({ times: [{ watches: [39_000] }] });
    expect(storage.length).toBe(1);
  });
});

describe('[touches] shown', () => {
  test('are those that the host tells of the run that is open, with what waits here', async () => {
    const page = new Page({ arrives: false });
    let told = 0;
    const stop = page.touches.subscribe(() => told++);
    page.store.setState({ times: { run: 'run-1', times: [{ lane: 2, at: 10_000, watches: [40_000] }] } });
    page.touches.add('run-1', tap(38_000));
    await settled();
    expect(page.touches.state().times.map(({ lane }) => lane)).toEqual([2, 1]);
    page.open('run-2');
    expect(page.touches.state().times).toEqual([]);
    stop();
    const before = told;
    page.open('run-1');
    expect([told, page.touches.state().times.length]).toEqual([before, 2]);
  });

  test('a rep that this page has timed is known as its own until it is taken back', () => {
    const { touches } = new Page();
    expect(touches.hasOwn('run-1', tap(1))).toBe(false);
    touches.add('run-1', tap(38_000));
    expect([touches.hasOwn('run-1', tap(1)), touches.hasOwn('run-2', tap(1))]).toEqual([true, false]);
    touches.add('run-1', tap(null));
    expect(touches.hasOwn('run-1', tap(1))).toBe(false);
  });
});
