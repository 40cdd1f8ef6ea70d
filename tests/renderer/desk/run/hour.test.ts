/*
 * The booked hour against the projection.
 */

import { expect, test } from 'vitest';
import { clockTimeToSecond, endTime, hourOf } from '../../../../renderer/desk/run/hour.ts';
import { readAnswer } from '../../../../renderer/desk/write/open-session.ts';
import { readSessionFile } from '../../../../renderer/desk/write/session-file.ts';

const time = (hours: number, minutes: number): number => (hours * 60 + minutes) * 60_000;

test('what is in hand is the finish less the projected end, in whole minutes', () => {
  const hour = hourOf(time(19, 30), time(0, 57), 20 * 60 + 30);
  expect(hour).toEqual({ ends: '20:27', booked: '20:30', inHand: time(0, 3), inHandText: '3 min in hand' });
});

test('past the finish it is over; below a minute in seconds, past an hour in hours', () => {
  expect(hourOf(time(19, 30), time(1, 2), 20 * 60 + 30).inHandText).toBe('2 min over');
  expect(hourOf(time(19, 30), time(1, 0) - 45_000, 20 * 60 + 30).inHandText).toBe('45 s in hand');
  expect(hourOf(time(18, 0), time(1, 0), 20 * 60 + 30).inHandText).toBe('1 h 30 min in hand');
});

test('the end and what is over are rounded up, what is in hand down: no more is promised than there is', () => {
  const soon = hourOf(time(19, 30), time(0, 39) + 12_000, 20 * 60 + 30);
  expect(soon).toMatchObject({ ends: '20:10', inHandText: '20 min in hand' });
  expect(hourOf(time(19, 30), time(1, 1) + 1, 20 * 60 + 30)).toMatchObject({ ends: '20:32', inHandText: '2 min over' });
  expect(endTime(time(20, 10))).toBe('20:10');
  expect(endTime(time(23, 59) + 1)).toBe('00:00');
});

test('a leave of the record stands with its second', () => {
  expect(clockTimeToSecond(time(19, 30) + 9_999)).toBe('19:30:09');
  expect(clockTimeToSecond(time(24, 1) + 20_000)).toBe('00:01:20');
});

test('a finish past midnight is the next day’s; a run opened after the finish is over', () => {
  expect(hourOf(time(23, 30), time(0, 40), 15)).toMatchObject({ ends: '00:10', inHandText: '5 min in hand' });
  expect(hourOf(time(20, 40), time(0, 5), 20 * 60 + 30).inHandText).toBe('15 min over');
});

test('without a finish there is nothing in hand', () => {
  expect(hourOf(time(19, 30), time(0, 57), null)).toEqual({
    ends: '20:27',
    booked: null,
    inHand: null,
    inHandText: null,
  });
});

test('the host’s answers to a session: opened, faults with their place, a run that is going, anything else', () => {
  expect(readAnswer(200, '{"ok":true,"run":"r"}')).toEqual({ kind: 'opened', run: 'r' });
  const fault = { line: 3, column: 5, message: 'what?' };
  expect(readAnswer(400, JSON.stringify({ errors: [fault], in: 'lanes' }))).toEqual({
    kind: 'faults',
    in: 'lanes',
    faults: [fault],
  });
  expect(readAnswer(409, '{"ok":false,"why":"A run is going."}')).toEqual({ kind: 'going', why: 'A run is going.' });
  expect(readAnswer(413, '{"ok":false,"why":"Too long."}')).toEqual({ kind: 'failed', why: 'Too long.' });
  expect(readAnswer(502, '<html>')).toEqual({ kind: 'failed', why: 'The host refused it (502).' });
});

test('a file is read as UTF-8 or refused with a reason', async () => {
  const file = (bytes: Uint8Array, size = bytes.length) => ({
    name: 'thursday.txt',
    size,
    arrayBuffer: () => Promise.resolve(new Uint8Array(bytes).buffer),
  });
  expect(await readSessionFile(file(new TextEncoder().encode('4 × 50')))).toEqual({ ok: true, text: '4 × 50' });
  expect(await readSessionFile(file(new Uint8Array([0xff, 0xfe, 0x41])))).toMatchObject({
    ok: false,
    why: expect.stringMatching(/UTF-8/) as string,
  });
  expect(await readSessionFile(file(new Uint8Array([65]), 256 * 1024 + 1))).toMatchObject({
    ok: false,
    why: expect.stringMatching(/256 KiB/) as string,
  });
});
