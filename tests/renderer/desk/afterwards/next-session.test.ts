// @vitest-environment happy-dom
/* What "Write the next session" puts into the editor. */

import { beforeEach, describe, expect, test } from 'vitest';
import { writeNext } from '../../../../renderer/desk/afterwards/next-session.ts';
import { EMPTY } from '../../../../renderer/desk/write/draft.ts';
import type { Writing } from '../../../../renderer/desk/write/writing.ts';
import { CoachWindow } from '../../../support/coach/coach-window.ts';
import { ownWriting } from '../../../support/coach/write-window/own-writing.ts';

const HEAD = 'pool 25 m\nlane 1 css 1:20, Ana\nlane 2\n';
const TEXT = `Evening\n${HEAD}\nMain set\n2 x 50 fast @ 1:00\n`;

let writing: Writing;

const run = () => new CoachWindow(TEXT).moment.run;

beforeEach(() => {
  localStorage.clear();
  writing = ownWriting();
});

describe('[afterwards] the next session', () => {
  test('is a new one with pool and lanes of the last, and beside its run it is what is shown', () => {
    writing.put({ ...EMPTY, text: TEXT, from: 'evening.txt' });
    const before = writing.state().sheet;
    expect(writeNext(writing, run())).toMatch(/^A new session with the same lanes/);
    writing.showBeside(run());
    const { sheet, draft } = writing.state();
    expect([draft.text, draft.from, draft.file]).toEqual([HEAD, null, null]);
    expect(sheet).not.toBe(before);
  });

  test('goes on where the coach has begun another beside the run, however often it is asked for', () => {
    writing.write({ text: 'Friday\n' }, run().id);
    expect(writeNext(writing, run())).toBeNull();
    expect(writing.state().draft.text).toBe('Friday\n');
    writing.put({ ...EMPTY, text: TEXT });
    writeNext(writing, run());
    writing.write({ text: `Friday\n${HEAD}` }, run().id);
    expect(writeNext(writing, run())).toBeNull();
    expect(writing.state().draft.text).toBe(`Friday\n${HEAD}`);
  });

  test('is a new one too where nothing was changed in the session since it was opened', () => {
    writing.put({ ...EMPTY, text: TEXT });
    writing.openedAs(run().id, { text: TEXT, lanesText: '' });
    expect(writeNext(writing, run())).not.toBeNull();
    expect(writing.state().draft.text).toBe(HEAD);
  });
});
