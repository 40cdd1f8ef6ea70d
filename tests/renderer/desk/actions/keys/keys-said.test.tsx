// @vitest-environment happy-dom
/*
 * What a key that does nothing says in the coach's window.
 */

import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { useState, type ReactElement } from 'react';
import { afterEach, expect, test } from 'vitest';
import { FeedbackBar } from '../../../../../renderer/desk/actions/feedback-bar.tsx';
import { useRunKeys } from '../../../../../renderer/desk/actions/keys/use-run-keys.ts';
import { CoachWindow, withSwitches } from '../../../../support/coach/coach-window.ts';

const nothing = (): void => undefined;

afterEach(cleanup);

function Keys({ coach }: { readonly coach: CoachWindow }): ReactElement {
  const [tools] = useState(() => withSwitches(coach));
  useRunKeys(tools, null, nothing);
  return <FeedbackBar tools={tools} moment={coach.moment} onMark={nothing} onEdit={nothing} />;
}

test.each([
  ['F5', 'F5 does nothing here, so that it cannot load the page again during a run.'],
  ['PageUp', 'Page Up does nothing here: Undo takes the last command back.'],
])('[keys] %s does nothing and says so', (key, sentence) => {
  const coach = new CoachWindow('lane 1\nSet\n4 x 50 @ 1:00\n');
  coach.other({ do: 'start' });
  coach.at(20);
  render(<Keys coach={coach} />);
  expect(screen.queryByText(sentence)).toBeNull();
  // The page is not loaded again, nor scrolled.
  expect(fireEvent.keyDown(document.body, { key, code: key })).toBe(false);
  expect(screen.getByText(sentence)).toBeTruthy();
  expect(coach.given).toEqual([]);
});
