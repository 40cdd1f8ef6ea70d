/*
 * A page's alarms on the browser itself: its timers, whether it is hidden, and the worker that knocks then.
 */

import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';

class FakeWorker {
  static made: FakeWorker[] = [];
  readonly told: unknown[] = [];
  onmessage: () => void = () => undefined;

  readonly script: URL;

  constructor(script: URL) {
    this.script = script;
    FakeWorker.made.push(this);
  }

  postMessage(pace: unknown): void {
    this.told.push(pace);
  }
}

/** The part of a document that says whether it is seen. */
class FakeDocument {
  visibilityState = 'visible';
  private readonly listeners = new Map<string, () => void>();

  addEventListener(event: string, call: () => void): void {
    this.listeners.set(event, call);
  }

  turn(to: 'hidden' | 'visible'): void {
    this.visibilityState = to;
    this.listeners.get('visibilitychange')?.();
  }
}

let page: FakeDocument;

/** The alarms of a page that has just been loaded. */
async function freshAlarms() {
  vi.resetModules();
  return import('../../../../renderer/link/time/knocker.ts');
}

beforeEach(() => {
  vi.useFakeTimers();
  page = new FakeDocument();
  FakeWorker.made = [];
  vi.stubGlobal('document', page);
  vi.stubGlobal('Worker', FakeWorker);
});

afterEach(() => {
  vi.restoreAllMocks();
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe('[link] the alarms of a page', () => {
  test('are one set for all its parts, on its own timers and without a worker while it is seen', async () => {
    const { pageAlarms } = await freshAlarms();
    expect(pageAlarms()).toBe(pageAlarms());
    const rung: string[] = [];
    pageAlarms().after(1000, () => rung.push('kept'));
    const cancel = pageAlarms().after(1000, () => rung.push('cancelled'));
    cancel();
    vi.advanceTimersByTime(999);
    expect(rung).toEqual([]);
    vi.advanceTimersByTime(1);
    expect(rung).toEqual(['kept']);
    expect([vi.getTimerCount(), FakeWorker.made.length]).toEqual([0, 0]);
  });

  test('hidden, are rung by the worker’s knocks; seen again, it rests', async () => {
    const { pageAlarms } = await freshAlarms();
    const rung: string[] = [];
    pageAlarms().after(1000, () => rung.push('due'));
    page.turn('hidden');
    const [worker] = FakeWorker.made;
    expect(worker!.script.pathname).toMatch(/knocking-worker/);
    // The page's own timer is held back: only its clock goes on.
    const clock = vi.spyOn(performance, 'now').mockReturnValue(performance.now() + 999);
    worker!.onmessage();
    expect(rung).toEqual([]);
    clock.mockReturnValue(performance.now() + 1);
    worker!.onmessage();
    expect(rung).toEqual(['due']);
    page.turn('visible');
    expect(worker!.told).toEqual([250, null]);
  });

  test('have one worker, however often the page is hidden', async () => {
    const { pageAlarms } = await freshAlarms();
    pageAlarms();
    for (const to of ['hidden', 'visible', 'hidden'] as const) page.turn(to);
    expect(FakeWorker.made.map(({ told }) => told)).toEqual([[250, null, 250]]);
  });

  test('that one which rings at the same knock has cancelled do not ring', async () => {
    const { pageAlarms } = await freshAlarms();
    const rung: string[] = [];
    pageAlarms().after(1000, () => {
      rung.push('first');
      cancel();
    });
    const cancel = pageAlarms().after(1000, () => rung.push('second'));
    page.turn('hidden');
    vi.spyOn(performance, 'now').mockReturnValue(performance.now() + 1000);
    FakeWorker.made[0]!.onmessage();
    expect([rung, vi.getTimerCount()]).toEqual([['first'], 0]);
  });

  test('that come again and again do so until they are ended, also after one that fails', async () => {
    const { pageAlarms } = await freshAlarms();
    let rung = 0;
    const end = pageAlarms().every(1000, () => {
      if (++rung === 2) throw new Error('It fails.');
    });
    vi.advanceTimersByTime(1000);
    expect(() => vi.advanceTimersByTime(1000)).toThrow('It fails.');
    vi.advanceTimersByTime(1999);
    expect(rung).toBe(3);
    end();
    vi.advanceTimersByTime(5000);
    expect([rung, vi.getTimerCount()]).toEqual([3, 0]);
  });

  test('of a page that is hidden from the start have their worker at once', async () => {
    page.visibilityState = 'hidden';
    const { pageAlarms } = await freshAlarms();
    pageAlarms();
    expect(FakeWorker.made.map(({ told }) => told)).toEqual([[250]]);
  });

  test('without workers are the page’s own timers', async () => {
    vi.stubGlobal('Worker', undefined);
    page.visibilityState = 'hidden';
    const { pageAlarms } = await freshAlarms();
    const rung: string[] = [];
    pageAlarms().after(1000, () => rung.push('due'));
    vi.advanceTimersByTime(1000);
    expect(rung).toEqual(['due']);
  });
});

describe('[link] the worker', () => {
  /** The worker's own world. */
  async function worker() {
    const knocks: unknown[] = [];
    const self = {
      onmessage: (() => undefined) as (told: { data: number | null }) => void,
      setInterval: (call: () => void, pace: number) => setInterval(call, pace),
      clearInterval: (timer: number) => clearInterval(timer),
      postMessage: (message: unknown) => void knocks.push(message),
    };
    vi.stubGlobal('self', self);
    vi.resetModules();
    await import('../../../../renderer/link/time/knocking-worker.ts');
    return { self, knocks };
  }

  test('knocks at the pace it was told last, and not at all once it was told none', async () => {
    const { self, knocks } = await worker();
    self.onmessage({ data: 250 });
    vi.advanceTimersByTime(1000);
    expect(knocks).toEqual([null, null, null, null]);
    self.onmessage({ data: 500 });
    vi.advanceTimersByTime(1000);
    expect(knocks).toHaveLength(6);
    self.onmessage({ data: null });
    vi.advanceTimersByTime(1000);
    expect(knocks).toHaveLength(6);
    expect(vi.getTimerCount()).toBe(0);
  });
});
