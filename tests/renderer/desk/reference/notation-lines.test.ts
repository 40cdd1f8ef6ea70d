/*
 * The notation's reference: every example is read as a session is, and the README shows no line that it has not.
 */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { openPlan } from '../../../../app/core/plan/open-plan.ts';
import { findEntries, notationGroups } from '../../../../renderer/desk/reference/notation-lines.ts';
import { placeFor } from '../../../../renderer/desk/reference/put-example.ts';

const SQUADS = [1, 2, 3, 6, 10].map((count) => Array.from({ length: count }, (_, index) => index + 1));

function sessionOf(lanes: readonly number[]): string {
  return `Title\n${lanes.map((lane) => `lane ${lane} css 1:30`).join('\n')}\n\nSet\n4 x 50 @ 2:00\n`;
}

const examplesFor = (lanes: readonly number[]): readonly string[] =>
  notationGroups(lanes).flatMap(({ entries }) => entries.flatMap(({ examples }) => examples));

/** As it is put in by a press, with the cursor on the last line. */
function withExample(text: string, example: string): string {
  const lines = text.split('\n');
  const place = placeFor(example, text, lines.length - 1);
  if (place.kind === 'there') throw new Error(`${example} is there`);
  return [...lines.slice(0, place.line), ...place.lines.split('\n'), ...lines.slice(place.line)].join('\n');
}

describe('[reference] every example', () => {
  test.each(SQUADS.map((lanes) => [lanes.length, lanes] as const))(
    'can be put into a session of %i lanes and is read without a fault',
    (_, lanes) => {
      for (const example of examplesFor(lanes)) {
        const opened = openPlan({ text: withExample(sessionOf(lanes), example), lanesText: null });
        expect(opened.ok ? [] : opened.faults.faults.map(({ message }) => message), example).toEqual(
          /^lane \d+ (base|css)/.test(example) && lanes.length > 1 ? expect.any(Array) : [],
        );
      }
    },
  );

  test('is one that says something: what it adds changes the session', () => {
    const text = sessionOf([1, 2, 3]);
    for (const example of examplesFor([1, 2, 3])) expect(withExample(text, example)).not.toBe(text);
  });
});

test('[reference] has what the tables of the README show', () => {
  const readme = readFileSync(new URL('../../../../README.md', import.meta.url), 'utf8');
  const from = readme.indexOf('**Settings** stand');
  const rows = readme
    .slice(from, readme.indexOf('Times are', from))
    .split('\n')
    .filter((line) => line.startsWith('| `'));
  const shown = rows.flatMap((row) => [...row.split('|')[1]!.matchAll(/`([^`]+)`/g)].map(([, code]) => code!));
  expect(shown.length).toBeGreaterThan(30);
  const all = examplesFor([1, 2, 3]).join('\n');
  // Other figures are no other line.
  const kind = (code: string): string => code.replace(/: …$/, ':').replace(/\d+(:\d\d)?/g, '#');
  expect(shown.filter((code) => !kind(all).includes(kind(code)))).toEqual([]);
});

test('[reference] is searched by words of examples and of what they mean, all of them', () => {
  const groups = notationGroups([1, 2]);
  const found = (words: string): readonly string[] =>
    findEntries(groups, words).flatMap(({ entries }) => entries.map(({ examples }) => examples[0]!));
  expect(found('ladder')).toEqual(['100-200-300-200-100 @ base']);
  expect(found('odd reps own')).toEqual(['8 x 50 free odds fast @ 1:00, evens easy rest 20']);
  expect(found('butterfly')).toEqual([]);
  expect(found('  ')).toEqual(examplesFirst());
  function examplesFirst(): readonly string[] {
    return groups.flatMap(({ entries }) => entries.map(({ examples }) => examples[0]!));
  }
});

describe('[reference] an example goes', () => {
  const TEXT = 'Title\npool 25 m\nlane 1\n\nSet\n4 x 50 @ 1:00\n8 x 50 @ 1:00\n';

  test('below the line of the cursor, or to the end where that is above the first part', () => {
    expect(placeFor('300 easy', TEXT, 6)).toEqual({ kind: 'below', line: 6, lines: '300 easy' });
    expect(placeFor('300 easy', TEXT, 2)).toEqual({ kind: 'below', line: 7, lines: '300 easy' });
  });

  test('among the settings where it is one, a lane as the next', () => {
    expect(placeFor('start on 5', TEXT, 7)).toEqual({ kind: 'below', line: 3, lines: 'start on 5' });
    expect(placeFor('lane 3 css 1:30', TEXT, 7)).toEqual({ kind: 'below', line: 3, lines: 'lane 2 css 1:30' });
    expect(placeFor('gap 5', '4 x 50 @ 1:00', 1)).toEqual({ kind: 'below', line: 0, lines: 'gap 5' });
  });

  test('nowhere where the text has that setting already: it says where', () => {
    expect(placeFor('pool 50 m', TEXT, 7)).toEqual({ kind: 'there', line: 2 });
    expect(placeFor('start 19:30', `start on 5\n${TEXT}`, 7)).toMatchObject({ kind: 'below' });
  });
});
