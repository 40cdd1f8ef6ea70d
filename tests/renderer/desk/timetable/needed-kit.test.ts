/* The kit of a session, as it stands beside its text. */

import { expect, test } from 'vitest';
import { writtenOutcome } from '../../../../renderer/desk/timetable/written-outcome.ts';

function kitOf(text: string): string | null {
  const { outcome } = writtenOutcome({ text, lanesText: null });
  if (outcome.kind !== 'fits') throw new Error(outcome.kind);
  return outcome.kit;
}

test('kit is named in the order it is needed, with its part, once where a part names it again', () => {
  const parts =
    'Warm-up\nkit: fins\n200 easy\n\nMain set\nkit: paddles, pull buoy\n4 x 50 @ 1:00\nkit: snorkel\n50 easy\n' +
    'kit: paddles, pull buoy\n50 easy\nnote: hands\n50 easy\n';
  expect(kitOf(`Harbour\nkit: cap\n\n${parts}`)).toBe(
    'cap; fins for Warm-up; paddles, pull buoy for Main set; snorkel for Main set',
  );
});

test('a session without kit names none', () => {
  expect(kitOf('Harbour\nnote: hands\nSet\n50 easy\n')).toBeNull();
});
