// @vitest-environment happy-dom
/*
 * The wall in a rehearsal, held to the same limit as at the pool: at most three changes of lightness in any second that
 * passes for whoever looks at it. Counted here is every change of anything that is drawn: strips, water, digits, dots,
 * words, the hand.
 */

import { act, cleanup, render } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { createRehearsalLink } from '../../../../renderer/link/rehearsal-link.ts';
import { WallScreen } from '../../../../renderer/wall/wall-screen.tsx';
import { leftToBrowser } from '../../../support/wall/left-to-browser.ts';
import { seeded } from '../../wall/seeded.ts';

vi.mock('../../../../renderer/ui/digits/measure.ts', () => ({
  createMeasure: () => (text: string) => text.length * 0.4,
}));

const LANES = Array.from({ length: 10 }, (_, lane) => lane + 1);

const SESSION = `${LANES.map((lane) => `lane ${lane} ${1 + (lane % 6)} swimmers`).join('\n')}
Main set
400 x 50 free @ ${LANES.map((lane) => `0:3${lane % 10}.${(lane * 7) % 10}`).join('/')}
`;

/** A rehearsal that has just been started, on a wall whose frames and time the test gives. */
class RehearsedWall {
  own = 1000;
  readonly rehearsal = createRehearsalLink(() => this.own);
  private frames: FrameRequestCallback[] = [];

  constructor(search: string) {
    leftToBrowser();
    vi.spyOn(performance, 'now').mockImplementation(() => this.own);
    vi.spyOn(globalThis, 'requestAnimationFrame').mockImplementation((call) => this.frames.push(call));
    this.rehearsal.begin({
      source: { text: SESSION, lanesText: null },
      from: null,
      timeOfDay: 43_200_000,
      clockPhase: null,
    });
    render(<WallScreen link={this.rehearsal.link} search={search} address={null} />);
  }

  /** A frame, so many ms after the last one. */
  frame(after: number): void {
    act(() => {
      this.own += after;
      const due = this.frames;
      this.frames = [];
      due.forEach((call) => call(this.own));
    });
  }

  drawn(): string {
    return document.querySelector('.board')?.outerHTML ?? '';
  }

  look(lane: number): string | undefined {
    return document.querySelector<HTMLElement>(`[data-lane='${lane}']`)?.dataset['state'];
  }
}

beforeEach(() => {
  Object.defineProperty(document, 'fonts', { configurable: true, value: { load: () => new Promise(() => {}) } });
});

afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
});

describe('[rehearsal] nothing flashes', () => {
  test.each([
    [5, ''],
    [20, ''],
    [60, ''],
    [60, '?face=sweep'],
  ])('at %d times the speed %s: ten lanes change the wall three times in a second at most', async (speed, search) => {
    const random = seeded(speed);
    const wall = new RehearsedWall(search);
    await act(() => wall.rehearsal.link.command({ do: 'start' }));
    wall.rehearsal.setSpeed(speed);
    const changes: number[] = [];
    const looks = new Set<string | undefined>();
    let before = '';
    for (let passed = 0; passed < 12_000;) {
      // Frames come as they do on a busy machine.
      const after = 8 + Math.floor(random() * 60);
      wall.frame(after);
      passed += after;
      const now = wall.drawn();
      if (now !== before && before !== '') changes.push(wall.own);
      before = now;
      LANES.forEach((lane) => looks.add(wall.look(lane)));
    }
    expect(changes.length).toBeGreaterThan(15);
    changes.forEach((at, index) => expect(changes[index + 3] ?? Infinity).toBeGreaterThanOrEqual(at + 1000));
    // What would flash has been there.
    expect([...looks]).toEqual(expect.arrayContaining(['waiting', 'ready', 'leaving']));
  });

  test('what a second holds back is drawn after it, even while the rehearsal stands still', async () => {
    const { link, ...wall } = await stoodStill();
    for (const lane of [1, 2, 3]) {
      await act(() => link.command({ do: 'stop', lanes: [lane] }));
      wall.frame(50);
    }
    expect([1, 2, 3].map(wall.look)).toEqual(['stopped', 'stopped', 'ready']);
    wall.frame(1000);
    expect([1, 2, 3].map(wall.look)).toEqual(['stopped', 'stopped', 'stopped']);
  });
});

async function stoodStill() {
  const wall = new RehearsedWall('');
  const { link } = wall.rehearsal;
  await act(() => link.command({ do: 'start' }));
  wall.frame(2000);
  wall.rehearsal.setSpeed(0);
  wall.frame(2000);
  return { link, frame: (after: number) => wall.frame(after), look: (lane: number) => wall.look(lane) };
}
