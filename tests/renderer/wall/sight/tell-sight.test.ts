/* What a picture of a wall screen tells the coach's window of its sight. */

import { describe, expect, test, vi } from 'vitest';
import { openRun } from '../../../../app/core/run/state.ts';
import { givenIn } from '../../../../app/core/run/view/given.ts';
import { FIRST_SETTINGS } from '../../../../app/core/screen/screen-settings.ts';
import type { Link } from '../../../../renderer/link/link.ts';
import { createDeckStore, type DeckRun } from '../../../../renderer/link/store.ts';
import { sightOf, tellSight } from '../../../../renderer/wall/sight/tell-sight.ts';
import { planOf } from '../../../support/run/deck.ts';

const SIZE = { width: 1920, height: 1080 };

function runOf(lanes: number): DeckRun {
  const text = Array.from({ length: lanes }, (_, lane) => `lane ${lane + 1}\n`).join('');
  const state = openRun(planOf(`${text}Main set\n8 x 50 @ 1:00\n`), 0);
  return { given: givenIn(state), state } as unknown as DeckRun;
}

describe('[sight] told from a picture', () => {
  test('six lanes on 55 inches are read from 15 m, the design case', () => {
    const sight = sightOf({ run: runOf(6), screen: null }, '', SIZE)!;
    expect(sight.least).toBeGreaterThanOrEqual(15);
    expect(sight.preferred).toBeLessThan(sight.least);
  });

  test("goes by the screen's settings, and by its address over them", () => {
    const run = runOf(6);
    const screen = { name: 'Hall', settings: { ...FIRST_SETTINGS, diagonal: 110 } };
    const plain = sightOf({ run, screen: null }, '', SIZE)!.least;
    expect(sightOf({ run, screen }, '', SIZE)!.least / plain).toBeCloseTo(2);
    expect(sightOf({ run, screen }, '?diagonal=55', SIZE)!.least).toBeCloseTo(plain);
  });

  test.each([
    ['', 'lane numbers'],
    ['?face=sweep', 'clock'],
  ])('at %j of what is for reading from afar the %s are read least far', (search, name) => {
    const run = search === '' ? runOf(6) : runOf(2);
    const { worst, least } = sightOf({ run, screen: null }, search, SIZE)!;
    expect(worst.name).toBe(name);
    expect(worst.least).toBeLessThan(least);
  });

  test('without lanes there is nothing to be read', () => {
    expect(sightOf({ run: null, screen: null }, '', SIZE)).toBeNull();
  });

  test('is told at once, and again only where it has changed', () => {
    const store = createDeckStore();
    const onSight = vi.fn();
    const page = { innerWidth: 1920, innerHeight: 1080, location: { search: '' } as Location };
    tellSight({ link: { store } as unknown as Link, onSight }, page);
    store.setState({ notices: ['The disk is full.'] });
    expect(onSight.mock.calls).toEqual([[null]]);
    store.setState({ run: runOf(4) });
    expect(onSight).toHaveBeenCalledTimes(2);
  });
});
