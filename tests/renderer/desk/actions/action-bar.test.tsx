// @vitest-environment happy-dom
/*
 * The bottom row: how it looks and what a press does, while time in the run goes on.
 */

import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import type { ReactElement } from 'react';
import { afterEach, describe, expect, test, vi } from 'vitest';
import type { RunState } from '../../../../app/core/run/state.ts';
import { useRunKeys } from '../../../../renderer/desk/actions/keys/use-run-keys.ts';
import { ActionBar } from '../../../../renderer/desk/actions/action-bar.tsx';
import type { DeskTools } from '../../../../renderer/desk/desk-tools.ts';
import { freeKeyboard } from '../../../../renderer/ui/coach/free-keyboard.ts';
import { afterCommands, runOf } from '../../../support/coach/coach-run.ts';
import { coachTable, type CoachTable } from '../../../support/coach/coach-table.ts';
import { tap } from '../../../support/coach/finger.ts';

/** T0 at 10 s: lane 1 leaves at 10 and 70 s, lane 2 at 10 and 80 s; the break comes by itself at 150 s. */
const SET = 'lane 1\nlane 2\nSet\n2 x 50 fast @ 1:00/1:10\nbreak 0:30\n2 x 25 @ 0:40';

afterEach(cleanup);

interface Table {
  readonly sent: CoachTable['sent'];
  readonly said: CoachTable['said'];
  /** What was last drawn. */
  drawnAt(t: number): void;
  /** The run's t at the next press. */
  pressedAt(t: number): void;
}

function table(state: RunState): Table {
  const { tools, sent, said, at } = coachTable(state);
  const drawnAt = (t: number): void => {
    cleanup();
    render(<ActionBar tools={tools as DeskTools} moment={at(t)} />);
  };
  return { sent, said, drawnAt, pressedAt: (t) => void at(t) };
}

const button = (name: string): HTMLElement => screen.getByRole('button', { name });
const isOffered = (name: string): boolean => button(name).getAttribute('aria-disabled') === null;

describe('the place of the big button', () => {
  test('before a break that begins by itself it is Stop, with Start now beside it', () => {
    const { drawnAt } = table(runOf(SET, [0, { do: 'start' }]));
    drawnAt(85_000);
    expect(isOffered('Stop all lanes') && isOffered('Start now')).toBe(true);
  });

  test('for 3 s after a Stop a Start is visibly not offered, says why when asked, and is offered again by itself', () => {
    const t = table(runOf(SET, [0, { do: 'start' }], [85_000, { do: 'stop' }]));
    t.drawnAt(87_999);
    expect(isOffered('Start now')).toBe(false);
    fireEvent.click(button('Start now'));
    expect([t.sent, t.said()]).toEqual([[], 'Stop was given less than 3 s ago: press Start again in a moment.']);
    t.drawnAt(88_000);
    expect(isOffered('Start now')).toBe(true);
  });
});

describe('a press', () => {
  test('counts if the run allows it by then, even if the button was drawn as refused', () => {
    const t = table(runOf(SET, [0, { do: 'start' }], [85_000, { do: 'stop' }]));
    t.drawnAt(87_500);
    t.pressedAt(88_000);
    fireEvent.click(button('Start now'));
    expect(t.sent).toEqual([{ do: 'start' }]);
  });

  test('is refused if the run no longer allows it, even if the button was drawn as offered', () => {
    const t = table(runOf(SET, [0, { do: 'start' }]));
    t.drawnAt(79_000);
    t.pressedAt(81_000);
    fireEvent.click(button('Skip rep'));
    expect([t.sent, t.said()]).toEqual([[], 'No lane has any reps to come.']);
  });
});

describe('a double tap', () => {
  test('on Stop does nothing to Resume, Rejoin or Start now, which take its place', () => {
    const going = runOf(SET, [0, { do: 'start' }]);
    const before = table(going);
    before.drawnAt(85_000);
    tap(button('Stop all lanes'));
    const after = table(afterCommands(going, [85_000, { do: 'stop' }]));
    after.drawnAt(85_200);
    for (const name of ['Resume', 'Rejoin', 'Start now']) {
      tap(button(name), 2);
      tap(button('Undo'));
    }
    expect(after.sent).toEqual([{ do: 'undo' }]);
    after.pressedAt(86_500);
    tap(button('Resume'));
    expect(after.sent).toContainEqual({ do: 'resume' });
  });
});

describe('a second press 0.5 s after Stop, by a wet hand or in fright', () => {
  test('on what took its place does nothing and says so; a second after the Stop Resume is taken', () => {
    const t = table(runOf(SET, [0, { do: 'start' }], [20_000, { do: 'stop' }]));
    t.drawnAt(20_500);
    for (const name of ['Resume', 'Rejoin']) {
      expect(isOffered(name)).toBe(false);
      fireEvent.click(button(name));
      expect([t.sent, t.said()]).toEqual([[], expect.stringMatching(/^Stopped\. .*Undo takes the Stop back at once/)]);
    }
    expect(isOffered('Undo')).toBe(true);
    t.drawnAt(21_000);
    fireEvent.click(button('Resume'));
    expect(t.sent).toEqual([{ do: 'resume' }]);
  });

  test.each(['Space', 'clicker'])('by the %s key neither', (by) => {
    const t = coachTable(runOf(SET, [0, { do: 'start' }], [20_000, { do: 'stop' }]));
    const Keys = (): null => {
      useRunKeys(t.tools as DeskTools, null, () => undefined);
      return null;
    };
    render(<Keys />);
    const press = (at: number): void => {
      t.at(at);
      fireEvent.keyDown(window, by === 'Space' ? { key: ' ', code: 'Space' } : { key: '.', code: 'Period' });
    };
    press(20_500);
    expect([t.sent, t.said()]).toEqual([[], expect.stringMatching(/^Stopped\. /)]);
    cleanup();
    render(<Keys />);
    press(21_000);
    expect(t.sent).toEqual([{ do: 'resume' }]);
  });

  test('with a lane stopped before, Resume says that it means that one too', () => {
    const t = table(runOf(SET, [0, { do: 'start' }], [20_000, { do: 'stop', lanes: [2] }], [30_000, { do: 'stop' }]));
    t.drawnAt(40_000);
    expect(button('Resume').textContent).toBe('ResumeSpace, all lanes, lane 2 too, goes 1:00');
  });
});

describe('what stands on the buttons', () => {
  test('their keys, that some are held, and how long Undo is left', () => {
    table(runOf(SET, [0, { do: 'start' }], [20_000, { do: 'skip' }])).drawnAt(24_500);
    expect(button('Undo').textContent).toBe('UndoU, Skip rep, 6 s left');
    for (const name of ['Move on', 'Restart', 'Finish'])
      expect(button(name).textContent).toMatch(/hold, or Shift [MRF]/);
    expect(button('Stop all lanes').textContent).toMatch(/Space/);
  });

  test('what they do and to whom, as long as no lanes are chosen', () => {
    table(runOf(SET, [0, { do: 'start' }], [75_000, { do: 'stop', lanes: [2] }])).drawnAt(79_000);
    expect(button('Skip rep').textContent).toBe('Skip repS, all lanes: the set gets shorter');
    expect(button('Start now').textContent).toBe('Start nowEnter, the break, cuts lane 2 short');
    expect(button('Finish').textContent).toBe('Finishhold, or Shift F, ends the session');
  });
});

describe('a control reached by Tab takes Space itself', () => {
  test.each([
    ['button', "tap, Esc then Space, or the clicker's blank-screen key"],
    ['combobox', 'tap, or Esc then Space'],
    ['textbox', 'tap, or Esc then Space'],
  ])('with a %s so, Stop says “%s”, and that is true', (role, hint) => {
    const { tools, sent, at } = coachTable(runOf(SET, [0, { do: 'start' }]));
    const leave = vi.fn();
    const stop = freeKeyboard(document);
    const Window = (): ReactElement => {
      useRunKeys(tools as DeskTools, null, () => undefined, leave);
      return <ActionBar tools={tools as DeskTools} moment={at(20_000)} />;
    };
    render(
      <>
        <Window />
        <section aria-label="Beside">
          <button type="button">Two columns</button>
          <select />
          <input />
        </section>
      </>,
    );
    const press = (key: string, code: string): void => {
      act(() => void fireEvent.keyDown(document.activeElement ?? document.body, { key, code }));
    };
    const control = within(screen.getByRole('region', { name: 'Beside' })).getByRole(role);
    expect(button('Stop all lanes').textContent).toContain("Space, or the clicker's blank-screen key");
    press('Tab', 'Tab');
    act(() => control.focus());
    expect(button('Stop all lanes').textContent).toBe(`Stop all lanes${hint}`);
    press(' ', 'Space');
    expect(sent).toEqual([]);
    press('Escape', 'Escape');
    expect(button('Stop all lanes').textContent).toBe("Stop all lanesSpace, or the clicker's blank-screen key");
    press(' ', 'Space');
    expect(sent).toEqual([{ do: 'stop' }]);
    expect(leave).not.toHaveBeenCalled();
    stop();
  });
});
