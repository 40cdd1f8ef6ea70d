/*
 * What a session is called: by its title until the coach has named it.
 */

import { expect, test } from 'vitest';
import { EMPTY } from '../../../../renderer/desk/write/draft.ts';
import { WritingWindow } from '../../../support/coach/write-window/writing-window.ts';

const TUESDAY = 'Tuesday\nSet\n8 x 50 @ 1:00\n';

test('a session that nobody has named is called as its title says, once a look finds one, and follows it', async () => {
  const coach = new WritingWindow();
  coach.writing.put(EMPTY);
  await coach.type('Harb');
  await coach.writing.look();
  expect(coach.name).toBe('Session 1 January');
  await coach.type(TUESDAY);
  await coach.writing.look();
  expect(await coach.library.names()).toEqual(['Tuesday']);
  await coach.type(TUESDAY.replace('Tuesday', 'Tuesday, hard'));
  await coach.writing.look();
  expect(await coach.library.names()).toEqual(['Tuesday, hard']);
});

test('it is called so once typing has paused for two seconds, without a look, and not by half a title', async () => {
  const coach = new WritingWindow();
  coach.writing.put(EMPTY);
  await coach.type('Tues\nSet\n');
  await coach.type('Tuesd\nSet\n');
  await coach.type(TUESDAY);
  expect(coach.name).toBe('Session 1 January');
  await coach.pass(2000);
  expect(coach.name).toBe('Tuesday');
  await coach.type(TUESDAY.replace('Tuesday', 'Tuesday, hard'));
  await coach.pass(2000);
  expect(await coach.library.names()).toEqual(['Tuesday, hard']);
});

test('a name that the coach has chosen stays, whatever the title says', async () => {
  const coach = new WritingWindow();
  coach.writing.put(EMPTY);
  await coach.type(TUESDAY);
  expect(await coach.writing.rename('Hard one')).toBeNull();
  await coach.type(TUESDAY.replace('Tuesday', 'Wednesday'));
  await coach.writing.look();
  expect(await coach.library.names()).toEqual(['Hard one']);
  expect(await coach.writing.rename('a/b')).toMatch(/cannot have \//);
  expect(coach.name).toBe('Hard one');
});
