// @vitest-environment happy-dom
/*
 * Buttons are drawn again only if what they offer has changed, and are still checked at the press.
 */

import { cleanup, render, screen } from '@testing-library/react';
import type { ReactElement } from 'react';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { ActionBar } from '../../../../renderer/desk/actions/action-bar.tsx';
import { LaneButtons } from '../../../../renderer/desk/lanes/lane-buttons.tsx';
import type { NamedButtonProps } from '../../../../renderer/ui/parts/button.tsx';
import { useMoment } from '../../../../renderer/ui/coach/use-deck.ts';
import { CoachWindow } from '../../../support/coach/coach-window.ts';
import { tap } from '../../../support/coach/finger.ts';

/** The names of buttons, each time that one is drawn. */
const drawn = vi.hoisted((): string[] => []);

vi.mock('../../../../renderer/ui/parts/button.tsx', async (original) => {
  const { Button } = await original<typeof import('../../../../renderer/ui/parts/button.tsx')>();
  return {
    Button: (props: NamedButtonProps) => {
      drawn.push(props.name);
      return Button(props);
    },
  };
});

/** T0 at 10 s: every lane leaves at 10 s and every two minutes. */
const SET = 'lane 1\nlane 2\nSet\n4 x 100 @ 2:00';

beforeEach(() => void drawn.splice(0));

afterEach(cleanup);

/** The row of actions and the lanes' buttons, drawn by whatever is shown now, as the window's run screen does. */
function Page({ coach }: { readonly coach: CoachWindow }): ReactElement | null {
  const { tools } = coach;
  const moment = useMoment(tools.frames);
  if (!moment) return null;
  return (
    <>
      <ActionBar tools={tools} moment={moment} />
      {moment.view.lanes.map((lane) => (
        <LaneButtons
          key={lane.number}
          {...{ tools, moment, lane }}
          open={false}
          keyed={false}
          onMore={() => undefined}
        />
      ))}
    </>
  );
}

function opened(): CoachWindow {
  const coach = new CoachWindow(SET);
  coach.other({ do: 'start' });
  coach.at(20);
  render(<Page coach={coach} />);
  drawn.splice(0);
  return coach;
}

const timesDrawn = (name: string): number => drawn.filter((each) => each === name).length;
const button = (name: string): HTMLElement => screen.getByRole('button', { name });
const isOffered = (name: string): boolean => button(name).getAttribute('aria-disabled') === null;

test('a button about which nothing changes is not drawn in ten seconds', () => {
  const coach = opened();
  for (let second = 21; second <= 30; second++) coach.at(second);
  const names = ['Stop all lanes', 'Skip rep', 'Sit out', 'Repeat', 'Finish', 'Stop lane 1', 'Sit out lane 2'];
  expect(names.map((name) => [name, timesDrawn(name)])).toEqual(names.map((name) => [name, 0]));
});

test('Undo, which counts its seconds down, is drawn with each of them, and the others once where theirs changes', () => {
  const coach = opened();
  coach.other({ do: 'skip', lanes: [2] });
  drawn.splice(0);
  for (let second = 21; second <= 29; second++) coach.at(second);
  expect([timesDrawn('Undo'), timesDrawn('Skip rep')]).toEqual([9, 0]);
});

test('a snapshot draws the buttons whose offer it changes, and no others', () => {
  const coach = opened();
  coach.other({ do: 'stop', lanes: [2] });
  expect([isOffered('Resume lane 2'), timesDrawn('Stop lane 1'), timesDrawn('Skip rep')]).toEqual([false, 0, 0]);
  coach.at(21);
  expect(isOffered('Resume lane 2')).toBe(true);
});

test('other lanes chosen are offered at once, and draw only what goes by the choice', () => {
  const coach = opened();
  coach.choose(2);
  expect(button('Skip rep').textContent).toContain('lane 2');
  expect([timesDrawn('Skip rep'), timesDrawn('Stop all lanes'), timesDrawn('Stop lane 2')]).toEqual([1, 0, 0]);
  coach.at(25);
  expect(button('Skip rep').textContent).toContain('all lanes');
});

test('an offer that ends between two seconds is still drawn, and its press refused by the run as it then is', () => {
  const coach = opened();
  coach.at(129);
  coach.other({ do: 'stop' });
  coach.at(359.5);
  // The last leave in the old times is at 370 s: 10 s before it Rejoin ends.
  expect(isOffered('Rejoin')).toBe(true);
  coach.silently(360.5);
  expect(isOffered('Rejoin')).toBe(true);
  tap(button('Rejoin'));
  expect(coach.given).toEqual([]);
  expect(coach.tools.actions.feedback()).toMatchObject({ text: 'Nothing is left of the old times: use Resume.' });
  coach.at(361);
  expect(isOffered('Rejoin')).toBe(false);
});

test('what the buttons share stays the same object from second to second as long as it says the same', () => {
  const coach = opened();
  const { offers } = coach.tools;
  coach.choose(2);
  const before = [offers.primary(), offers.chosen()];
  coach.at(21);
  const after = [offers.primary(), offers.chosen()];
  expect(after.map((each, index) => each === before[index])).toEqual([true, true]);
});
