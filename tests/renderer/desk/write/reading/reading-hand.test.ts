// @vitest-environment happy-dom
/*
 * Who reads a text beside the page: a worker, or the page where there can be none.
 */

import { afterEach, describe, expect, test, vi } from 'vitest';
import { ReadingHand } from '../../../../../renderer/desk/write/reading/reading-hand.ts';
import { createReading, type Asked } from '../../../../../renderer/desk/write/reading/reading.ts';

const SET = { do: 'read', source: { text: 'Set\n4 x 50 @ 1:00', lanesText: null } } as const;

class FakeWorker {
  static all: FakeWorker[] = [];
  onmessage: ((event: { data: unknown }) => void) | null = null;
  onerror: (() => void) | null = null;
  readonly asked: Asked[] = [];
  isEnded = false;

  constructor() {
    FakeWorker.all.push(this);
  }

  postMessage(asked: Asked): void {
    this.asked.push(asked);
  }

  terminate(): void {
    this.isEnded = true;
  }

  answer(data: unknown): void {
    this.onmessage?.({ data });
  }
}

function withWorkers(): void {
  FakeWorker.all = [];
  vi.stubGlobal('Worker', FakeWorker);
}

afterEach(() => vi.unstubAllGlobals());

describe('[reading] a worker', () => {
  test('is asked one thing at a time, and what it answers goes to who asked', () => {
    withWorkers();
    const hand = new ReadingHand();
    const heard: unknown[] = [];
    hand.ask(SET, (answer) => heard.push(['read', answer]));
    hand.ask({ do: 'explain', line: 2 }, (answer) => heard.push(['explained', answer]));
    const [worker] = FakeWorker.all;
    expect(worker!.asked).toEqual([SET]);
    worker!.answer('outcome');
    worker!.answer(null);
    expect(worker!.asked).toEqual([SET, { do: 'explain', line: 2 }]);
    expect(heard).toEqual([
      ['read', 'outcome'],
      ['explained', null],
    ]);
    expect(FakeWorker.all).toHaveLength(1);
  });

  test('is ended in the midst of what is wanted no more, and the next question has a new one', () => {
    withWorkers();
    const hand = new ReadingHand();
    const heard = vi.fn();
    hand.ask(SET, heard);
    hand.drop();
    hand.ask({ do: 'fit', source: SET.source }, heard);
    const [first, second] = FakeWorker.all;
    expect([first!.isEnded, second!.isEnded]).toEqual([true, false]);
    second!.answer('fit');
    expect(heard.mock.calls).toEqual([['fit']]);
  });

  test('that has nothing to give up stays, until the page ends', () => {
    withWorkers();
    const hand = new ReadingHand();
    const heard = vi.fn();
    hand.ask(SET, heard);
    const [worker] = FakeWorker.all;
    worker!.answer('outcome');
    hand.drop();
    hand.ask(SET, heard);
    expect([FakeWorker.all.length, worker!.asked.length, worker!.isEnded]).toEqual([1, 2, false]);
    worker!.answer('outcome');
    hand.end();
    expect(worker!.isEnded).toBe(true);
  });

  test('that fails leaves what it was asked to the page, and the rest as well', () => {
    withWorkers();
    const hand = new ReadingHand();
    const heard = vi.fn();
    hand.ask(SET, heard);
    FakeWorker.all[0]!.onerror!();
    hand.ask({ do: 'explain', line: 2 }, heard);
    expect(heard.mock.calls).toMatchObject([[{ kind: 'fits' }], [{ words: '4 x 50' }]]);
    expect(FakeWorker.all).toHaveLength(1);
  });
});

test('[reading] where there is no worker the page answers at once', () => {
  vi.stubGlobal('Worker', undefined);
  const hand = new ReadingHand();
  const heard = vi.fn();
  hand.ask(SET, heard);
  expect(heard.mock.calls).toMatchObject([[{ kind: 'fits' }]]);
});

describe('[reading] a text', () => {
  const answer = createReading();

  test('comes to plain data, which a worker can send', () => {
    const text =
      'start 19:30\nfinish 19:32\nlane 1 css 1:20\nlane 2\nMain\n3 rounds\n  4/3 x 50 rest 15\nSwim-down\n50 easy';
    const source = { text, lanesText: null };
    for (const asked of [
      { do: 'read', source },
      { do: 'fit', source },
      { do: 'explain', line: 7 },
    ] as const) {
      const given = answer(asked);
      expect(given).not.toBeNull();
      expect(structuredClone(given)).toEqual(given);
    }
  });

  test('without an hour has no cuts, with a fault nothing to explain, and an empty one is nothing', () => {
    expect(answer({ do: 'fit', source: SET.source })).toBeNull();
    expect(answer({ do: 'read', source: { text: '4 x 50 @ 1.30', lanesText: null } })).toMatchObject({
      kind: 'faults',
      mends: [{ line: 1, name: 'Mend: 1:30' }],
    });
    expect(answer({ do: 'explain', line: 1 })).toBeNull();
    expect(answer({ do: 'read', source: { text: '', lanesText: null } })).toEqual({ kind: 'nothing' });
  });
});
