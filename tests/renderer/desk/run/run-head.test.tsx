// @vitest-environment happy-dom
/*
 * The head of the run: on which other screens it is seen.
 */

import { cleanup, render, screen } from '@testing-library/react';
import { afterEach, expect, test } from 'vitest';
import { RunHead } from '../../../../renderer/desk/run/run-head.tsx';
import { useMoment } from '../../../../renderer/ui/coach/use-deck.ts';
import { CoachWindow } from '../../../support/coach/coach-window.ts';
import { device, told } from '../sharing/told.ts';

afterEach(cleanup);

test('counts tablets that are connected, but not the tablet itself', () => {
  const coach = new CoachWindow('4 x 50 @ 1:00');
  const Shown = () => <RunHead tools={coach.tools} moment={useMoment(coach.tools.frames)!} />;
  render(<Shown />);
  const said = (): string | null => screen.getByText(/now, on/).textContent;
  expect(said()).toMatch(/ now, on no wall screen$/);
  expect(screen.queryByText(/tablet/)).toBeNull();
  const tablet = { role: 'tablet', connected: true } as const;
  coach.sharing(
    told({
      devices: [
        device({ ...tablet, id: '1' }),
        device({ ...tablet, id: '2', connected: false }),
        device({ ...tablet, id: '3', isYours: true }),
        device({ connected: true, id: '4' }),
      ],
    }),
  );
  expect(screen.getByText(/tablet/).textContent).toBe('1 tablet');
});
