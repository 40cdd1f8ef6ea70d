// @vitest-environment happy-dom
/* A throw while a part of the wall is drawn takes that part away, and nothing else. */

import { act, cleanup, fireEvent, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { ShownWall } from '../../support/wall/shown-wall.tsx';
import type { LaneFace } from '../../../renderer/wall/strips/lane-face.ts';
import type { SmallForm } from '../../../renderer/wall/strips/small-words.ts';

/** What throws while it is here: "paint 1", "face 1", "head", "clock", "callout"; and how often it did. */
const broken = vi.hoisted(() => ({ what: '', times: 0 }));

const breakIf = vi.hoisted(() => (what: string): void => {
  if (broken.what !== what) return;
  broken.times++;
  throw new Error(`broken: ${what}`);
});

vi.mock('../../../renderer/ui/digits/measure.ts', () => ({ createMeasure: () => (text: string) => text.length * 0.4 }));

vi.mock('../../../renderer/wall/strips/strip-painter.ts', async (original) => {
  const module = await original<typeof import('../../../renderer/wall/strips/strip-painter.ts')>();
  return {
    createStripPainter(...args: Parameters<typeof module.createStripPainter>) {
      const painter = module.createStripPainter(...args);
      return {
        ...painter,
        paint(face: LaneFace, ...how: [LaneFace['state'], SmallForm | null, boolean]) {
          painter.paint(face, ...how);
          breakIf(`paint ${face.number}`);
        },
      };
    },
  };
});

vi.mock('../../../renderer/wall/says/face.ts', async (original) => {
  const module = await original<typeof import('../../../renderer/wall/says/face.ts')>();
  return {
    ...module,
    calloutOf(...args: Parameters<typeof module.calloutOf>) {
      breakIf('callout');
      return module.calloutOf(...args);
    },
    stripFace(...args: Parameters<typeof module.stripFace>) {
      breakIf(`face ${args[1].number}`);
      return module.stripFace(...args);
    },
  };
});

vi.mock('../../../renderer/wall/says/clock-text.ts', async (original) => {
  const module = await original<typeof import('../../../renderer/wall/says/clock-text.ts')>();
  return {
    ...module,
    clockFace(...args: Parameters<typeof module.clockFace>) {
      breakIf('clock');
      return module.clockFace(...args);
    },
  };
});

vi.mock('../../../renderer/wall/head/head-face.ts', async (original) => {
  const module = await original<typeof import('../../../renderer/wall/head/head-face.ts')>();
  return {
    ...module,
    headFace(...args: Parameters<typeof module.headFace>) {
      breakIf('head');
      return module.headFace(...args);
    },
  };
});

const alerts = (): readonly string[] => screen.queryAllByRole('alert').map(({ textContent }) => textContent ?? '');
const clock = (): string => screen.getByRole('timer', { name: 'Clock' }).textContent ?? '';
const leaveOf = (lane: number): string =>
  document.querySelector(`[data-lane='${lane}'] [data-place='leave']`)?.textContent ?? '';

let told: ReturnType<typeof vi.spyOn>;

beforeEach(() => {
  told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
  Object.assign(broken, { what: '', times: 0 });
});

afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
});

describe.each([
  ['paint 1', 'Lane 1', "Leave at the coach's word."],
  ['face 1', 'Lane 1', "Leave at the coach's word."],
  ['head', 'The head', 'Ask the coach what is swum; the leaves go on.'],
  ['callout', 'What comes next', 'Ask the coach.'],
])('[faults] a throw in %s on the wall', (what, name, advice) => {
  test('is said in its place; the clock and the other lanes are drawn on', () => {
    broken.what = what;
    const wall = new ShownWall();
    wall.frame(3);
    expect(alerts()).toEqual([`${name} cannot be drawn here. ${advice}`]);
    const before = clock();
    wall.frame(120);
    expect(clock()).not.toBe(before);
    expect(leaveOf(2)).toMatch(/^\d/);
  });

  test('is reported once, tried again with the next snapshot only, and drawn when it can be', () => {
    broken.what = what;
    const wall = new ShownWall();
    wall.frame(120);
    expect(broken.times).toBe(1);
    wall.snapshot();
    wall.frame(60);
    expect(broken.times).toBe(2);
    expect(alerts()).toHaveLength(1);
    const words = told.mock.calls.map(([said]: readonly unknown[]) => String(said));
    expect(words.filter((said: string) => said.includes(`broken: ${what}`)).length).toBeLessThanOrEqual(1);
    broken.what = '';
    wall.snapshot();
    wall.frame();
    expect(alerts()).toEqual([]);
    expect(leaveOf(1)).toMatch(/^\d/);
    expect(document.querySelector('[data-failed]')).toBeNull();
  });

  test('is drawn again on demand', () => {
    broken.what = what;
    const wall = new ShownWall();
    wall.frame();
    broken.what = '';
    fireEvent.click(screen.getByRole('button', { name: `Draw it again: ${name}` }));
    wall.frame();
    expect(alerts()).toEqual([]);
  });
});

describe('[faults] the wall’s loop', () => {
  test('a clock that cannot be drawn says to go by another, and the leaves go on', () => {
    broken.what = 'clock';
    const wall = new ShownWall();
    wall.frame(2);
    expect(alerts()).toContain("The clock cannot be drawn here. Go by the pool's clock and the coach's word.");
    expect(leaveOf(1)).toMatch(/^\d/);
  });

  test('a run that cannot be worked out is not shown at all, says so, and comes back', () => {
    const wall = new ShownWall();
    wall.frame();
    const going = wall.deck.getState().run!.state;
    const broke = { ...going, stretches: [] };
    act(() =>
      wall.deck.setState(({ run }) => ({
        run: run && { ...run, state: broke },
      })),
    );
    wall.frame(10);
    expect(screen.getByRole('heading', { name: 'This screen cannot work out the run' })).toBeTruthy();
    expect(document.querySelector<HTMLElement>('.board')!.hidden).toBe(true);
    act(() => wall.deck.setState(({ run }) => ({ run: run && { ...run, state: going } })));
    wall.frame(2);
    expect(document.querySelector<HTMLElement>('.board')!.hidden).toBe(false);
    expect(screen.queryByRole('heading', { name: 'This screen cannot work out the run' })).toBeNull();
  });
});
