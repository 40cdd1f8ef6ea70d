// Commands as they come from outside: every list and every word has an end, and what is wrong is one short sentence.

import { describe, expect, test } from 'vitest';
import { readCommand } from '../../../../app/core/run/command/read-command.ts';

function refusal(fields: Record<string, unknown>): string {
  const read = readCommand(fields);
  if (read.ok) throw new Error('it was taken');
  return read.faults;
}

const numbers = (count: number): number[] => Array.from({ length: count }, (_, index) => index);

describe('lists of a command', () => {
  test('lanes: 1 to 20 of them, each once, from 0 to 20', () => {
    expect(readCommand({ do: 'stop', lanes: numbers(20) }).ok).toBe(true);
    expect(readCommand({ do: 'stop', lanes: [20, 0] }).ok).toBe(true);
    const wrong = (lanes: unknown): string => refusal({ do: 'stop', lanes });
    expect(wrong([])).toBe('The command stop needs lanes as a list of lane numbers, each from 0 to 20.');
    expect(wrong([1, 21])).toBe('The command stop needs lanes as a list of lane numbers, each from 0 to 20.');
    expect(wrong([21])).toBe('The command stop needs lanes as a list of lane numbers, each from 0 to 20.');
    expect(wrong(numbers(21))).toBe('The command stop needs lanes as a list of at most 20, not 21.');
    expect(wrong(new Array(450_000).fill(1))).toBe('The command stop needs lanes as a list of at most 20, not 450000.');
    expect(wrong([1, 2, 1])).toBe('The command stop needs lanes as a list that names each lane once.');
  });

  test('rounds: at most as deep as rounds stand in rounds', () => {
    expect(readCommand({ do: 'go-to', line: 1, rep: 1, rounds: [1, 2, 3, 500] }).ok).toBe(true);
    expect(refusal({ do: 'go-to', line: 1, rep: 1, rounds: [1, 1, 1, 1, 1] })).toBe(
      'The command go-to needs rounds as a list of at most 4 round numbers from 1 to 500, outermost first.',
    );
  });
});

describe('names in a refusal', () => {
  test('are said again, cut where they are endless', () => {
    expect(refusal({ do: 'fly' })).toBe('There is no command "fly".');
    expect(refusal({ do: 'f'.repeat(60_000) }).length).toBeLessThan(80);
    expect(refusal({ do: 'start', [`x${'y'.repeat(60_000)}`]: 1 }).length).toBeLessThan(100);
  });

  test('are not those of a name that is no text, however deep it is', () => {
    const deep = JSON.parse('['.repeat(30_000) + ']'.repeat(30_000)) as unknown;
    expect(refusal({ do: deep })).toBe('A command needs its name as "do".');
    expect(refusal({})).toBe('A command needs its name as "do".');
  });
});
