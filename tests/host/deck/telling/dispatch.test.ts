/* In which order and how often screens are told. */

import { describe, expect, test } from 'vitest';
import { Dispatch, type Reader } from '../../../../app/host/deck/telling/dispatch.ts';
import type { ScreenKind } from '../../../../app/wire/messages.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';

class Deck {
  readonly clock = new FakeClock();
  readonly dispatch = new Dispatch(this.clock, this.clock.timers);
  readonly told: { readonly name: string; readonly at: number }[] = [];
  private n = 0;

  join(kind: ScreenKind, name: string, more: Partial<Reader> = {}): () => void {
    let knows = -1;
    return this.dispatch.join(kind, {
      isBehind: () => knows < this.n,
      tell: () => {
        knows = this.n;
        this.told.push({ name, at: this.clock.now() });
        return true;
      },
      ...more,
    });
  }

  news(): void {
    this.n++;
    this.dispatch.news();
  }

  /** Who is told while so much time passes, in order. */
  names(ms = 0): string[] {
    this.clock.advance(ms);
    return this.told.splice(0).map(({ name }) => name);
  }
}

describe('[dispatch] order', () => {
  test('coaches first, then remotes, then walls, whoever came first', () => {
    const deck = new Deck();
    for (const kind of ['wall', 'remote', 'desk', 'wall', 'desk'] as const) deck.join(kind, kind);
    expect(deck.names()).toHaveLength(5);
    deck.news();
    expect(deck.names()).toEqual(['desk', 'desk', 'remote', 'wall', 'wall']);
  });

  test('walls ten at a time, so that what is due comes in between; a coach’s next news before the rest of them', () => {
    const deck = new Deck();
    deck.join('desk', 'desk');
    for (let wall = 0; wall < 50; wall++) deck.join('wall', `wall ${wall}`);
    deck.names(1000);
    deck.news();
    expect(deck.names()).toHaveLength(1 + 10);
    deck.news();
    expect(deck.names()).toEqual(['desk', ...Array.from({ length: 10 }, (_, wall) => `wall ${wall + 10}`)]);
    const rest = deck.names(1000);
    expect(rest.slice(0, 30)).toEqual(Array.from({ length: 30 }, (_, wall) => `wall ${wall + 20}`));
    // And those of the first go hear of the second news.
    expect(rest).toHaveLength(40);
  });

  test('coaches all at once, however many windows they have open', () => {
    const deck = new Deck();
    for (let window = 0; window < 25; window++) deck.join('desk', 'desk');
    deck.names(1000);
    deck.news();
    expect(deck.names()).toHaveLength(25);
  });

  test('one that joins is told at once, and one that has left no more', () => {
    const deck = new Deck();
    const leave = deck.join('remote', 'remote');
    expect(deck.names()).toEqual(['remote']);
    leave();
    deck.news();
    expect(deck.names(1000)).toEqual([]);
  });
});

describe('[dispatch] pace', () => {
  test('two quick commands are told at once', () => {
    const deck = new Deck();
    deck.join('desk', 'desk');
    deck.names(1000);
    deck.news();
    deck.news();
    expect(deck.names()).toHaveLength(2);
  });

  test('the third of three quick commands is told when its time comes, by one timer, and nobody is asked until then', () => {
    const deck = new Deck();
    let asked = 0;
    deck.join('desk', 'desk');
    deck.join('wall', 'idle', { isBehind: () => (asked++, false) });
    deck.names(1000);
    for (let command = 0; command < 4; command++) deck.news();
    expect([deck.names(), deck.clock.pending]).toEqual([['desk', 'desk'], 1]);
    asked = 0;
    expect([deck.names(124), asked]).toEqual([[], 0]);
    expect([deck.names(1), asked]).toEqual([['desk'], 1]);
  });

  test('never more than ten in any second, and the latest within an eighth of one', () => {
    const deck = new Deck();
    deck.join('wall', 'wall');
    deck.names(2000);
    for (let ms = 0; ms < 4000; ms += 7) {
      deck.news();
      deck.clock.advance(7);
    }
    deck.clock.advance(125);
    const times = deck.told.map(({ at }) => at);
    for (const from of times)
      expect(times.filter((at) => at >= from && at < from + 1000).length).toBeLessThanOrEqual(10);
    expect(times.length).toBeGreaterThan(30);
    expect(deck.names(1000)).not.toEqual([]);
    expect(deck.names(1000)).toEqual([]);
  });

  test('what does not count, as a text that filled the line, does not make the snapshot wait', () => {
    const deck = new Deck();
    let left = 5;
    deck.join('wall', 'wall', { isBehind: () => left > 0, tell: () => left-- < 0 });
    expect(left).toBe(4);
    for (let more = 0; more < 4; more++) deck.dispatch.news();
    expect(left).toBe(0);
    expect(deck.clock.pending).toBe(0);
  });

  test('a screen that takes each message at once, and says so from within, is told once', () => {
    const deck = new Deck();
    let isBehind = true;
    let told = 0;
    deck.join('wall', 'quick', {
      isBehind: () => isBehind,
      tell: () => {
        told++;
        deck.dispatch.news();
        isBehind = false;
        return true;
      },
    });
    expect(told).toBe(1);
  });

  test('nothing waits where nothing is to be told', () => {
    const deck = new Deck();
    deck.join('wall', 'wall');
    deck.news();
    deck.clock.advance(1000);
    expect(deck.clock.pending).toBe(0);
  });
});
