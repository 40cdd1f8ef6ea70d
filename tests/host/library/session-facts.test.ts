/* What the list of sessions says of a text, and the words by which one is found. */

import { describe, expect, test } from 'vitest';
import { pieceFacts, searchedText, searchedWords, sessionFacts } from '../../../app/host/library/session-facts.ts';

const LANES = 'lane 1 base 1:30\nlane 2 base 1:40\n\nMain set\n';
const of = (text: string) => sessionFacts(`Harbour\n${LANES}${text}\n`);

describe('[library] the facts of a text that can be swum', () => {
  test('are its title, its day, the shortest and the longest lane, and how long it takes', () => {
    expect(sessionFacts('Harbour\n# for Thursday 26 November 2026\nlane 1\nlane 2\n\nMain\n4/2 x 50 @ 1:00\n')).toEqual(
      {
        title: 'Harbour',
        day: '2026-11-26',
        figures: { least: 1000, most: 2000, unit: 'm', duration: expect.any(Number), isEstimate: false },
        note: null,
      },
    );
  });

  test('count in tenths of its own unit, and are an estimate if something has no time of its own', () => {
    const { figures } = sessionFacts('Harbour\npool 25 yd\nlane 1\n\nMain\n4 x 50 @ 1:00\n\nSwim-down\n100 easy\n');
    expect(figures).toMatchObject({ least: 3000, most: 3000, unit: 'yd', isEstimate: true });
  });
});

describe('[library] a text with more leaves than a list works out', () => {
  /** Sets of so many leaves of both lanes together. */
  const sets = (leaves: number): string => {
    const long = Math.floor(leaves / 200);
    const rest = leaves - long * 200;
    return ['100 x 25 @ 1:00\n'.repeat(long), rest > 0 ? `lane 1: ${rest} x 25 @ 1:00\n` : ''].join('');
  };

  test.each([
    ['of sets', '2 x 25 @ 1:00', 4],
    ['of sets with other counts a lane', '7/1 x 25 @ 1:00', 8],
    ['of rounds', '3 rounds\n  5 x 25 @ 1:00', 30],
    ['of rounds in rounds', '3 rounds\n  2 rounds\n    5 x 25 @ 1:00', 60],
    ['of a ladder', '25-50-25 @ 1:00', 6],
    ['of lines for some lanes', 'lane 1: 3 x 25 @ 1:00', 3],
    ['of several lines for some lanes', 'lane 1:\n  3 x 25 @ 1:00\n  2 x 25 @ 1:00', 5],
    ['of a break', 'break 0:05', 1],
    ['of a talk', 'talk 0:30', 1],
    ['of a timed block, a rep a quarter of a minute', '1:10 of 25 @ 0:30', 10],
    ['of a timed swim', '10:00 swim', 2],
  ])('%s is called very long beyond 3000', (_, text, leaves) => {
    expect(of(`${sets(3000 - leaves)}${text}`).note).toBeNull();
    expect(of(`${sets(3001 - leaves)}${text}`)).toEqual({
      title: 'Harbour',
      day: null,
      figures: null,
      note: 'very long',
    });
  });
});

describe('[library] the facts of a text with faults', () => {
  test('are its first line and the number of faults', () => {
    expect(of('8 x')).toEqual({ title: 'Harbour', day: null, figures: null, note: 'one line cannot be read' });
    expect(of('8 x\n4 y').note).toBe('2 faults');
    expect(sessionFacts('').title).toBeNull();
    expect(sessionFacts(`${'x'.repeat(130)}\nMain\n8 x\n`).title).toHaveLength(120);
  });
});

describe('[library] the facts of a text that is only begun', () => {
  test.each(['Harbour squad, Thursday\n', 'Harbour\nMain set\n', ''])('call it not finished yet: %j', (text) => {
    expect(sessionFacts(text).note).toBe('not finished yet');
  });
});

describe('[library] the facts of a part or set', () => {
  test('are its first two lines', () => {
    const facts = { title: null, day: null, figures: null };
    expect(pieceFacts('Kick\n4 x 50 @ 1:00\n4 x 25\n')).toEqual({ ...facts, note: 'Kick, 4 x 50 @ 1:00' });
    expect(pieceFacts('').note).toBe('');
    expect(pieceFacts(`${'x'.repeat(130)}\n`).note).toHaveLength(120);
  });
});

describe('[library] the words that a search goes through', () => {
  const DAY = new Date(2026, 1, 3, 12).getTime();

  test('are name, day in its forms, and text, in small letters without accents', () => {
    const text = searchedText('Größe', 'Élan\n# for Thursday 26 November 2026\n', DAY);
    for (const each of ['grosse', 'elan', 'thursday 26 november 2026', '2026-11-26', 'thu'])
      expect(text).toContain(each);
    expect(text).not.toContain('2026-02-03');
  });

  test('have the day of the last change if the text has no date', () => {
    expect(searchedText('x', 'y', DAY)).toContain('2026-02-03');
  });

  test('have as much of the text as a session can have', () => {
    const text = `${'x'.repeat(32 * 1024 - 4)}near far`;
    expect(searchedText('', text, DAY)).toContain('near');
    expect(searchedText('', text, DAY)).not.toContain('far');
  });

  test('are found in any order', () => {
    expect(searchedWords('  Größe \t THREE\n')).toEqual(['grosse', 'three']);
    expect(searchedWords(' ')).toEqual([]);
  });

  test('have a day and its month as one, since numbers stand everywhere in a session', () => {
    expect(searchedWords('fast 3 Dec')).toEqual(['fast', ' 3 dec']);
    expect(searchedWords('30 march 2025')).toEqual([' 30 march', '2025']);
    expect(searchedWords('December 3 fast')).toEqual([' 3 december', 'fast']);
    expect(searchedWords('3 decks 40 fast may')).toEqual(['3', 'decks', '40', 'fast', 'may']);
    for (const day of ['3 dec', 'december 3']) {
      const [found] = searchedWords(day);
      expect(searchedText('a', '# for 3 December 2026', DAY)).toContain(found);
      for (const other of ['23 December 2026\n4 x 3 fast', '30 December 2026']) {
        expect(searchedText('a', `# for ${other}`, DAY)).not.toContain(found);
      }
    }
  });
});
