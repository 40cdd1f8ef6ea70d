/*
 * What is written saves itself into the library, which stands on a disk in memory here; what a browser keeps is a map.
 */

import { expect, test } from 'vitest';
import { EMPTY } from '../../../../renderer/desk/write/draft.ts';
import { EXAMPLE } from '../../../../renderer/desk/write/example.ts';
import { WritingWindow } from '../../../support/coach/write-window/writing-window.ts';

const TUESDAY = 'Tuesday\nSet\n8 x 50 @ 1:00\n';

async function windowOn(name: string, text: string): Promise<WritingWindow> {
  const coach = new WritingWindow();
  coach.library.write(name, text);
  coach.writing.open(await coach.library.get({ do: 'read', kind: 'session', name }));
  await coach.pass(0);
  return coach;
}

test('the first start shows the sample, which is in no file until something of it is changed', async () => {
  const coach = new WritingWindow();
  expect(coach.state.draft.text).toBe(EXAMPLE);
  await coach.pass(3000);
  expect(await coach.library.names()).toEqual([]);
  await coach.type(`${EXAMPLE}50 easy @ 2:00\n`);
  expect(await coach.library.names()).toEqual(['Session 1 January']);
});

test('where the browser has kept nothing but the sample, the session used last is shown before it', async () => {
  const coach = new WritingWindow();
  coach.writing.write({}, null);
  coach.library.write('Old', 'old');
  coach.library.pass(1000);
  coach.library.write('Tuesday', TUESDAY);
  coach.reopen();
  await coach.pass(0);
  expect(coach.state).toMatchObject({ draft: { text: TUESDAY }, saving: { file: { name: 'Tuesday' } } });
  const other = new WritingWindow();
  other.library.write('Tuesday', TUESDAY);
  other.reopen();
  other.writing.type({ text: 'typed at once' }, null);
  await other.pass(0);
  expect(other.state.draft.text).toBe('typed at once');
});

test('what is typed is in its file 0.4 s later, without a word, and goes on being saved there', async () => {
  const coach = new WritingWindow();
  coach.writing.put(EMPTY);
  await coach.type('Tues');
  expect(coach.library.text('Session 1 January')).toBe('Tues');
  await coach.type(TUESDAY);
  expect(coach.library.text('Session 1 January')).toBe(TUESDAY);
  expect(coach.state.saving).toMatchObject({ refused: null, changed: null, file: { isSaved: true } });
});

test('while one types on and on it is saved all the same, every 0.4 s', async () => {
  const coach = new WritingWindow();
  coach.writing.put(EMPTY);
  for (let n = 1; n <= 20; n++) {
    coach.writing.type({ text: 'x'.repeat(n) }, null);
    await coach.pass(100);
  }
  expect(coach.library.text('Session 1 January')!.length).toBeGreaterThanOrEqual(16);
});

test('what is typed is drawn once typing has paused for a quarter of a second, and what is changed beside it at once', async () => {
  const coach = new WritingWindow();
  coach.writing.put(EMPTY);
  const drawn = (): string => coach.writing.shown().draft.text;
  for (let n = 1; n <= 10; n++) {
    coach.writing.type({ text: 'x'.repeat(n) }, null);
    await coach.pass(200);
    expect(coach.state.draft.text).toBe('x'.repeat(n));
    expect(drawn()).toBe('');
  }
  await coach.pass(100);
  expect(drawn()).toBe('xxxxxxxxxx');
  coach.writing.type({ text: 'y' }, null);
  coach.writing.write({ text: 'yz' }, null);
  expect(drawn()).toBe('yz');
});

test('while one types on and on, what was typed 0.3 s ago is kept in this window, and all of it where the page goes', async () => {
  const coach = new WritingWindow();
  coach.writing.put(EMPTY);
  for (let n = 1; n <= 10; n++) {
    coach.writing.type({ text: 'x'.repeat(n) }, null);
    await coach.pass(100);
    expect(coach.kept.get('lanecall.draft')).toContain(`"${'x'.repeat(Math.max(0, n - 3))}`);
  }
  coach.writing.type({ text: 'the last' }, null);
  void coach.writing.flush();
  expect(coach.kept.get('lanecall.draft')).toContain('the last');
});

test('a host that does not answer is said, the text stays, and it is saved when the host is back', async () => {
  const coach = new WritingWindow();
  coach.writing.put(EMPTY);
  await coach.type('one');
  coach.isUp = false;
  await coach.type('one two');
  expect(coach.state.saving.refused).toBe('The program does not answer.');
  coach.isUp = true;
  await coach.pass(1000);
  expect(coach.state.saving.refused).toBeNull();
  expect(coach.library.text('Session 1 January')).toBe('one two');
});

test('what the host has not taken is kept through a crash of the page, also where another session took its place', async () => {
  const coach = new WritingWindow();
  coach.writing.put(EMPTY);
  coach.isUp = false;
  await coach.type(TUESDAY);
  coach.writing.put({ ...EMPTY, text: 'Other\nSet\n50 @ 1:00', from: 'other.txt', file: undefined as never });
  coach.reopen();
  coach.isUp = true;
  await coach.pass(1500);
  const texts = (await coach.library.names()).map((name) => coach.library.text(name));
  expect(texts).toContain(TUESDAY);
  expect(coach.kept.get('lanecall.drafts.unsaved')).toBe('[]');
});

test('a text of more than 256 KiB is not sent, and the reason is said', async () => {
  const coach = new WritingWindow();
  coach.writing.put(EMPTY);
  await coach.type(`# ${'é'.repeat(140_000)}`);
  expect(coach.state.saving.refused).toMatch(/256 KiB/);
  expect(coach.asked.filter((each) => each.do !== 'list')).toEqual([]);
});

test('a file that came from outside goes into the library by its name, once however often it comes', async () => {
  const coach = new WritingWindow();
  const { text, lanesText, during } = { ...EMPTY, text: TUESDAY };
  for (let times = 0; times < 2; times++) {
    coach.writing.put({ text, lanesText, during, from: 'my tuesday.txt' });
    await coach.pass(0);
  }
  expect(await coach.library.names()).toEqual(['my tuesday']);
  expect(coach.state.saving.file).toMatchObject({ name: 'my tuesday', isSaved: true });
});

test('an undo across the opening of another session goes on in the file of the one before', async () => {
  const coach = await windowOn('One', 'One\nSet\n50 @ 1:00\n');
  const first = coach.state.sheet;
  coach.library.write('Two', TUESDAY);
  coach.writing.open(await coach.library.get({ do: 'read', kind: 'session', name: 'Two' }));
  expect(coach.name).toBe('Two');
  coach.writing.type({ text: 'One\nSet\n100 @ 2:00\n' }, null, first);
  await coach.pass(400);
  expect(coach.name).toBe('One');
  expect(coach.library.text('One')).toBe('One\nSet\n100 @ 2:00\n');
  expect(coach.library.text('Two')).toBe(TUESDAY);
});

test('a session that is opened again is the same one, with the text that is in its file now', async () => {
  const coach = await windowOn('One', 'one');
  const { sheet } = coach.state;
  coach.writing.put(EMPTY);
  coach.library.write('One', 'one, changed');
  coach.writing.open(await coach.library.get({ do: 'read', kind: 'session', name: 'One' }));
  expect(coach.state).toMatchObject({ sheet, draft: { text: 'one, changed' } });
  await coach.type('one, changed here');
  expect(coach.library.text('One')).toBe('one, changed here');
});

test('a session in the bin is not written again by what stands in the window, but by what is typed', async () => {
  const coach = await windowOn('One', 'one');
  await coach.library.get({ do: 'discard', kind: 'session', name: 'One' });
  coach.writing.moved('One', null);
  await coach.pass(3000);
  expect(await coach.library.names()).toEqual([]);
  await coach.type('one more');
  expect(coach.library.text('One')).toBe('one more');
});

function conflict(coach: WritingWindow): string | null | undefined {
  const { changed } = coach.state.saving;
  return changed && (changed.now?.text ?? null);
}

async function changedElsewhere(): Promise<WritingWindow> {
  const coach = await windowOn('One', 'one');
  coach.library.write('One', 'another hand');
  await coach.type('one, typed');
  expect(conflict(coach)).toBe('another hand');
  expect(coach.library.text('One')).toBe('another hand');
  return coach;
}

test('a file that another program has changed is noticed by a look and is not written over', async () => {
  const coach = await windowOn('One', 'one');
  coach.library.write('One', 'one, changed');
  await coach.writing.look();
  expect(conflict(coach)).toBe('one, changed');
  expect(coach.state.draft.text).toBe('one');
  await coach.type('one, typed here');
  coach.library.write('One', 'one, changed twice');
  await coach.writing.look();
  expect(conflict(coach)).toBe('one, changed twice');
  expect(coach.library.text('One')).toBe('one, changed twice');
});

test('once it is known that its file was changed, what the disk refused before is not said any more', async () => {
  const coach = await windowOn('One', 'one');
  coach.isUp = false;
  await coach.type('one two');
  coach.isUp = true;
  coach.library.write('One', 'another hand');
  await coach.pass(1000);
  expect(conflict(coach)).toBe('another hand');
  expect(coach.state.saving.refused).toBeNull();
});

test('what was changed elsewhere can be taken; what stood here is a step of undo', async () => {
  const coach = await changedElsewhere();
  coach.writing.takeTheirs();
  expect(coach.state.draft.text).toBe('another hand');
  expect(conflict(coach)).toBeNull();
  await coach.type('one, typed');
  expect(coach.library.text('One')).toBe('one, typed');
});

test('or mine is kept over it, and what was there is in the bin', async () => {
  const coach = await changedElsewhere();
  await coach.writing.keepMine();
  expect(coach.library.text('One')).toBe('one, typed');
  expect((await coach.library.get({ do: 'bin' })).binned.map(({ name }) => name)).toEqual(['One']);
  await coach.type('one, typed on');
  expect(coach.library.text('One')).toBe('one, typed on');
});

test('or mine is kept under another name, and the file stays as it is', async () => {
  const coach = await changedElsewhere();
  await coach.writing.keepBoth();
  expect(coach.name).toBe('One (2)');
  expect(coach.library.text('One')).toBe('another hand');
  expect(coach.library.text('One (2)')).toBe('one, typed');
});

test('who goes to another session without an answer finds both texts in the library', async () => {
  const coach = await changedElsewhere();
  coach.writing.put(EMPTY);
  await coach.pass(0);
  expect(coach.library.text('One (2)')).toBe('one, typed');
  expect(coach.library.text('One')).toBe('another hand');
});

test('a file that is gone is said, and can be written again or let go', async () => {
  const coach = await windowOn('One', 'one');
  await coach.library.get({ do: 'discard', kind: 'session', name: 'One' });
  await coach.writing.look();
  expect(coach.state.saving.changed).toEqual({ now: null });
  await coach.type('one, typed');
  await coach.writing.keepMine();
  expect(coach.library.text('One')).toBe('one, typed');
});

test('a save whose answer is lost with the host is no change of somebody else’s', async () => {
  const coach = await windowOn('One', 'one');
  coach.losesAnswers = true;
  await coach.type('one, two');
  coach.writing.type({ text: 'one, three' }, null);
  coach.losesAnswers = false;
  await coach.pass(1500);
  expect(conflict(coach)).toBeNull();
  expect(coach.library.text('One')).toBe('one, three');
});

test('nor is a first one, and there is one file all the same', async () => {
  const coach = new WritingWindow();
  coach.writing.put(EMPTY);
  await coach.pass(0);
  coach.losesAnswers = true;
  await coach.type('one');
  coach.losesAnswers = false;
  coach.writing.type({ text: 'one, two' }, null);
  await coach.pass(1500);
  expect(await coach.library.names()).toEqual(['Session 1 January']);
  expect(coach.library.text('Session 1 January')).toBe('one, two');
});

test('after a crash what stood here is saved where it goes on from what is in the file', async () => {
  const coach = await windowOn('One', 'one');
  coach.losesAnswers = true;
  await coach.type('one, two');
  coach.isUp = false;
  await coach.type('one, two, three');
  coach.losesAnswers = false;
  coach.isUp = true;
  coach.reopen();
  await coach.pass(500);
  expect(conflict(coach)).toBeNull();
  expect(coach.library.text('One')).toBe('one, two, three');
});

test('after a crash a newer file is shown where nothing of what stood here is missing in it', async () => {
  const coach = await windowOn('One', 'one');
  // The browser has kept less than the library, as after a crash of the machine.
  const before = new Map(coach.kept);
  await coach.type('one and two');
  for (const [key, value] of before) coach.kept.set(key, value.replace('"isSaved":true', '"isSaved":false'));
  coach.reopen();
  await coach.pass(0);
  expect(coach.state.draft.text).toBe('one and two');
  expect(coach.state.news).toMatch(/^One is shown as it was last saved/);
  expect(conflict(coach)).toBeNull();
});

test('after a crash a file that lacks something of what stood here is shown beside it', async () => {
  const coach = await windowOn('One', 'one');
  coach.isUp = false;
  await coach.type('one, typed');
  coach.library.write('One', 'another hand');
  coach.reopen();
  coach.isUp = true;
  await coach.pass(0);
  expect(conflict(coach)).toBe('another hand');
  expect(coach.state.draft.text).toBe('one, typed');
});
