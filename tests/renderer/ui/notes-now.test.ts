import { expect, test } from 'vitest';
import { openPlan } from '../../../app/core/plan/open-plan.ts';
import { apply } from '../../../app/core/run/fold.ts';
import { openRun } from '../../../app/core/run/state.ts';
import { view } from '../../../app/core/run/view.ts';
import { notesNow } from '../../../renderer/ui/notes-now.ts';

const TEXT = `Harbour squad
Main
note: long strokes
50 free @ 1:00
kit: paddles
50 pull @ 1:00
Kick
100 kick @ 3:00
kit: fins
`;

test('[kit] [note] the last above what is swum next holds, until the next one or the part’s end', () => {
  const plan = openPlan({ text: TEXT, lanesText: null });
  if (!plan.ok) throw new Error(JSON.stringify(plan.faults));
  const run = apply(openRun(plan.value, 0), { do: 'start' }, 0).state;
  expect(notesNow(view(run, 0))).toEqual({ kit: '', note: 'long strokes' });
  expect(notesNow(view(run, 30_000))).toEqual({ kit: 'paddles', note: 'long strokes' });
  expect(notesNow(view(run, 200_000))).toEqual({ kit: '', note: '' });
});
