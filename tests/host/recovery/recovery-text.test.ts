/* What the coach is told of records that cannot be used as they are: what is so, and what to do. */

import { expect, test } from 'vitest';
import {
  brokenText,
  leftForLaterText,
  moreText,
  newerText,
  refusedText,
  stoppedText,
  unattendedText,
  unreadableFolderText,
  unreadableText,
  uselessText,
} from '../../../app/host/recovery/recovery-text.ts';
import type { FoundRun } from '../../../app/host/recovery/found-run.ts';
import { planOf } from '../../support/run/deck.ts';
import { openRun } from '../../../app/core/run/state.ts';

const PATH = '/data/runs/a.jsonl';
const CHECK = 'Before you go on, check that the screens show what the swimmers are doing.';

test.each([
  [
    uselessText(PATH),
    'The record a.jsonl is damaged and nothing in it can be used: it is kept unchanged under another name.',
  ],
  [
    stoppedText(PATH, 1, 'damaged'),
    `The record a.jsonl is damaged: Lanecall uses everything up to line 1 and keeps the rest in a file beside it. ${CHECK}`,
  ],
  [
    stoppedText(PATH, 7, 'out of place'),
    'In the record a.jsonl, line 8 is not the one that was written after line 7: ' +
      `Lanecall uses everything up to line 7 and keeps the rest in a file beside it. ${CHECK}`,
  ],
  [
    refusedText(PATH, 3, 'There is no command "sing.a".'),
    'Line 3 of the record a.jsonl has a command that this Lanecall cannot carry out (There is no command "sing.a"): ' +
      `the run is as it was before that line, and the rest is kept in a file beside the record. ${CHECK}`,
  ],
  [
    newerText(PATH, 3),
    'The record a.jsonl was written by a newer Lanecall (form 3): it is left unchanged. Open it with that newer version.',
  ],
  [
    brokenText(PATH),
    'The session in the record a.jsonl cannot be read by this Lanecall: it is left unchanged. ' +
      'Open it with the version that wrote it, or move it out of the folder.',
  ],
  [
    unreadableText(PATH, 'the disk is failing'),
    'The record a.jsonl cannot be read (the disk is failing): it is left unchanged. ' +
      'Repair it and start Lanecall again, or move it out of the folder.',
  ],
  [
    unreadableFolderText('/data/runs', 'the disk is failing'),
    'The records in /data/runs cannot be read (the disk is failing): a run that was going cannot come back. ' +
      'Repair the folder and start Lanecall again, or name another folder with --data.',
  ],
  [
    moreText(2, '/data/runs'),
    '2 more records in /data/runs cannot be used completely: look in that folder after the session.',
  ],
  [
    leftForLaterText(1, '/data/runs'),
    '1 older record of unfinished runs in /data/runs are left for the next start. ' +
      'Move them out of the folder if you do not need them.',
  ],
])('[recovery] %s', (said, expected) => {
  expect(said).toBe(expected);
});

test('[recovery] a run left unattended is described by its title, its opening, its commands and its last leave', () => {
  const run = (text: string, commands: number) =>
    ({
      openedAtTimeOfDay: 19.5 * 3_600_000,
      openedAtWall: Date.UTC(2026, 10, 5, 12),
      commands: new Array<unknown>(commands),
      state: openRun(planOf(text), 0),
    }) as unknown as FoundRun;
  const titled = run('Harbour squad\nMain set\n4 x 50 @ 1:00\n', 1);
  expect(unattendedText(titled, 90_000)).toBe(
    'Harbour squad, opened on 5 November 2026 at 19:30: 1 command, the last leave at 19:31.',
  );
  expect(unattendedText(run('4 x 50 @ 1:00\n', 0), null)).toBe(
    'A session, opened on 5 November 2026 at 19:30: no command, no leave.',
  );
});
