// How long the answer to a command is known: by time, and not by how much else has been said meanwhile.

import { expect, test } from 'vitest';
import { AnswerMemory, type CommandAnswer } from '../../../../app/host/deck/answers/answer-memory.ts';

const ANSWER: Promise<CommandAnswer> = Promise.resolve({ ok: true, at: 0, why: null });

test('a command’s answer is remembered for two minutes, however many others come meanwhile', () => {
  const memory = new AnswerMemory();
  memory.keep('desk', 'first', ANSWER, 0);
  for (let n = 0; n < 50_000; n++) memory.keep('desk', `other-${n}`, ANSWER, 120_000);
  expect(memory.get('desk', 'first')).toBe(ANSWER);
});

test('it is forgotten after two minutes, so that a long evening does not fill the memory', () => {
  const memory = new AnswerMemory();
  for (let n = 0; n < 10_000; n++) memory.keep('desk', `id-${n}`, ANSWER, n * 1000);
  expect(memory.get('desk', 'id-9999')).toBe(ANSWER);
  expect(memory.get('desk', 'id-9879')).toBe(ANSWER);
  expect(memory.get('desk', 'id-9878')).toBeUndefined();
  expect(memory.get('desk', 'id-0')).toBeUndefined();
});

test('an id that another screen has used is still free', () => {
  const memory = new AnswerMemory();
  memory.keep('remote', 'first', ANSWER, 0);
  expect(memory.get('desk', 'first')).toBeUndefined();
  expect(memory.get('remote', 'first')).toBe(ANSWER);
});
