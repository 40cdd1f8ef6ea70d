/*
 * What is offered where the cursor stands: from the notation, the session, the library and the squads.
 */

import { describe, expect, test } from 'vitest';
import { lineTokens, NOTHING_ABOVE, type Above } from '../../../../../app/core/session/tokens/line-tokens.ts';
import { KnownWords } from '../../../../../renderer/desk/editor/completion/known-words.ts';
import { offeredAt, MOST_OFFERED } from '../../../../../renderer/desk/editor/completion/offered-words.ts';

const OWN = `Harbour squad
lane 1 css 1:20, 5 swimmers
lane 2 base 1:40

Main set
4 x 50 back and free by 25 @ 0:50/1:00
6 x 100 steady @ 1:45 hold 1:20
8 x 75 free rest 25
talk 1:30 turns: push off under the waves
`;

const KEPT = `Last week
lane 2 css 1:28, 6 swimmers # strong
lane 3 css 1:41, 4 swimmers

Turns and starts
12 x 50 fast, best average @ 1:10
4 x 50 easy @ 0:45/0:50/0:55
100m backstroke @ 2:10
`;

const HEADER: Above = { ...NOTHING_ABOVE, hasTitle: true };
const PART: Above = { ...HEADER, inHeader: false };

function read(text: string): KnownWords {
  const words = new KnownWords();
  words.read(text.split('\n'));
  return words;
}

const KNOWN = { own: read(OWN), kept: read(KEPT), lanes: 2, hasCss: true };

/** What the line would be with each that is offered. */
function lines(before: string, above = PART, asked = false): readonly string[] {
  const offered = offeredAt(before, above, KNOWN, asked);
  return offered?.texts.map((text) => before.slice(0, offered.from) + text) ?? [];
}

describe('[completion] an interval', () => {
  test('of this distance comes first, from the session and then from the library, lists only for as many lanes', () => {
    expect(lines('8 x 50 free @ ')).toEqual([
      '8 x 50 free @ 0:50/1:00',
      '8 x 50 free @ 1:10',
      '8 x 50 free @ base',
      '8 x 50 free @ base+10',
      '8 x 50 free @ base+5',
      '8 x 50 free @ css',
    ]);
    expect(lines('100 free @ ')).toContain('100 free @ 2:10');
  });

  test('goes on from what is typed of it', () => {
    expect(lines('8 x 50 free @ 1')).toEqual(['8 x 50 free @ 1:10']);
    expect(lines('8 x 50 free on ba')).toContain('8 x 50 free on base+10');
    expect(lines('8 x 50 free @ 7')).toEqual([]);
  });

  test('by css is offered only where a lane has one', () => {
    const without = offeredAt('50 @ c', PART, { ...KNOWN, hasCss: false }, false);
    expect([without, lines('50 @ c')]).toEqual([null, ['50 @ css', '50 @ css+10']]);
  });

  test('by css that was used before is not offered either where no lane has one', () => {
    const used = { ...KNOWN, own: read(`${OWN}4 x 200 @ css+10 hold css-1\n`) };
    const first = (before: string, hasCss: boolean) => offeredAt(before, PART, { ...used, hasCss }, false)?.texts[0];
    expect([first('2 x 200 @ ', true), first('2 x 200 @ ', false)]).toEqual(['css+10', 'base']);
    expect(offeredAt('2 x 200 hold ', PART, { ...used, hasCss: false }, false)?.texts).toEqual(['1:20']);
  });
});

test('[completion] rests and targets are those used before, then what is usual', () => {
  expect(lines('4 x 75 rest ')[0]).toBe('4 x 75 rest 25');
  expect(lines('4 x 75 @ 1:20 hold ')).toEqual([
    '4 x 75 @ 1:20 hold css',
    '4 x 75 @ 1:20 hold css-2',
    '4 x 75 @ 1:20 hold css+3',
    '4 x 75 @ 1:20 hold 1:20',
  ]);
});

describe('[completion] words', () => {
  test('go on as a phrase that was used before, else by their last word', () => {
    expect(lines('6 x 100 ba')).toEqual(['6 x 100 back and free by 25', '6 x 100 backstroke']);
    expect(lines('6 x 100 long and st')).toEqual(['6 x 100 long and steady']);
    expect(lines('talk 2:00 tu')).toEqual(['talk 2:00 turns: push off under the waves']);
  });

  test('are not offered for a letter alone, nor where they would save but one', () => {
    expect(lines('6 x 100 b')).toEqual([]);
    expect(lines('6 x 100 fre')).toEqual([]);
    expect(lines('6 x 100 ')).toEqual([]);
  });

  test('are shown where the coach asks, with nothing typed', () => {
    expect(lines('6 x 100 ', PART, true)).toHaveLength(MOST_OFFERED);
  });

  test('are not offered in a comment, or behind a fault', () => {
    expect([lines('# ba'), lines('50 free # ba'), lines('4 x 50 @ 1.30 ba')]).toEqual([[], [], []]);
  });
});

test('[completion] a line begins with a setting in the header, else with a heading or what nobody swims', () => {
  expect(lines('po', HEADER)).toEqual(['pool 25 m']);
  expect(lines('Tu')).toEqual(['Turns and starts']);
  expect(lines('ta')).toEqual(['talk ']);
  expect(lines('po')).toEqual([]);
  expect(lines('po', NOTHING_ABOVE)).toEqual([]);
});

test('[completion] a lane is offered whole, as the session, the library or a squad has it, without its comment', () => {
  expect(lines('lane 2', HEADER)).toEqual(['lane 2 base 1:40', 'lane 2 css 1:28, 6 swimmers']);
  expect(lines('lane 3 ', HEADER)).toEqual(['lane 3 css 1:41, 4 swimmers']);
  expect(lines('lane 9', HEADER)).toEqual([]);
});

test('[completion] what is offered can be read', () => {
  for (const before of ['8 x 50 free @ ', '4 x 75 rest ', '4 x 75 @ 1:20 hold ', '6 x 100 ba']) {
    for (const line of lines(before)) {
      expect(
        lineTokens(line, PART).tokens.some(({ kind }) => kind === 'fault'),
        line,
      ).toBe(false);
    }
  }
});
