/* A session for screens that anybody may read: nobody's name and no comment. */

import { describe, expect, test } from 'vitest';
import { openPlan } from '../../../../app/core/plan/open-plan.ts';
import { withoutNames } from '../../../../app/core/session/names/without-names.ts';

function stripped(...lines: readonly string[]): readonly string[] {
  return withoutNames({ text: lines.join('\n'), lanesText: null }).text.split('\n');
}

describe('[names] a lane counts its swimmers and names none', () => {
  test.each([
    ['lane 1 Ana', 'lane 1 1 swimmer'],
    ['lane 1: Ana, Ben Lee', 'lane 1: 2 swimmers'],
    ['lane 2 css 1:20, Ana, Ben Lee , gap 6', 'lane 2 css 1:20, 2 swimmers , gap 6'],
    ['lane 2, Ana,  Ben, base 1:30, Cem', 'lane 2, 3 swimmers, base 1:30'],
    ['lane 3 5 swimmers, css 1:20', 'lane 3 5 swimmers, css 1:20'],
    ['lane 4 Swimmer, Ana', 'lane 4 2 swimmers'],
    ['lane 4 Swimmerson', 'lane 4 1 swimmer'],
    ['lane 4 Goodswimmer, Ana', 'lane 4 2 swimmers'],
    ['lane 4 1 swimmer, base 1:30', 'lane 4 1 swimmer, base 1:30'],
    ['  lane 6 Ana', ' lane 6 1 swimmer'],
    ['lane 5', 'lane 5'],
    ['lane 5 base  1:30,   Ana # hers', 'lane 5 base 1:30, 1 swimmer'],
  ])('%s', (written, without) => {
    expect(stripped(written)).toEqual([without]);
  });

  test('whose line is full of blanks stays a line that can be read', () => {
    const text = `lane 1${' '.repeat(480)}A\nSet\n4 x 50 @ 1:00`;
    expect(openPlan({ text, lanesText: null }).ok).toBe(true);
    expect(openPlan(withoutNames({ text, lanesText: null }))).toMatchObject({ ok: true });
  });
});

describe('[names] elsewhere', () => {
  test('somebody stands where a name of a lane does, in titles, headings, words, notes and kit', () => {
    const [, title, heading, set, note, kit] = stripped(
      'lane 1 Ana, Ben Lee',
      'Ana’s farewell',
      'Warm-up with Ben Lee',
      '4 x 50 @ 1:00 ana leads',
      'note: Joana stays with BEN LEE',
      'kit: fins of Ana',
    );
    expect([title, heading, set, note, kit].join('\n')).not.toMatch(/\bana\b|\bben\b/i);
    expect(note).toBe('note: Joana stays with somebody');
  });

  test('so does it where a swimmer of several names is called by one of them, as squads do', () => {
    const [, title, set, note] = stripped(
      'lane 1: Ana Lee, Ben van der Berg, Zoë de Wit',
      'Farewell of Ana',
      '4 x 50 @ 1:00 BEN leads, then Van der Berg',
      'note: Joana de Lee, Zoe\u0308’s fins, the de luxe ones',
    );
    expect([title, set, note]).toEqual([
      'Farewell of somebody',
      '4 x 50 @ 1:00 somebody leads, then Van der somebody',
      'note: Joana de somebody, somebody’s fins, the de luxe ones',
    ]);
  });

  test.each([
    ['Zoë', 'Zoe, ZOË, Zoe\u0308, zoe and Zoé; Zoes, Zoë-Mae', 'S, S, S, S and S; Zoes, Zoë-Mae'],
    ['Zoe', 'Zoë’s fins, Zoe\u0308', 'S’s fins, S'],
    ['Zoe\u0308 de Wit', 'ZOE DE WIT, Zoe, Wit, de', 'S, S, S, de'],
    ['Ana-Maria', 'Ana, Maria, ANA-MARIA, Ana-Maria, Ana Maria', 'S, S, S, S, S S'],
    ['Ana-Maria', 'Ana\u2011Maria, Ana\u2010Maria, Ana-Lotte, Joana', 'S, S, Ana-Lotte, Joana'],
    ['Ana', 'Ana-Maria, Ána, Anä, ﬁns of Ana', 'Ana-Maria, S, S, ﬁns of S'],
    ['Gil O’Dea', "O'Dea and O’Dea, Dea", 'S and S, Dea'],
    ['Bö', 'Bo, bo, Bö', 'S, bo, S'],
    ['Søren', 'Soren, SOREN, Soeren and SØREN; sorens', 'S, S, S and S; sorens'],
    ['Soren', 'Søren’s fins', 'S’s fins'],
    ['Łukasz Groß', 'Lukasz, GROSS, GROẞ, Łukasz Gross', 'S, S, S, S'],
    ['Æsa Đurić', 'Aesa Duric, æsa, Đuric, Dúrić', 'S, S, S, S'],
    ['Þóra Œhler', 'Thora, OEHLER, Ohler', 'S, S, Ohler'],
    ['Jörg Å\u0308kerlund', 'Joerg, JÖRG, Jorg', 'S, S, S'],
    ['Ba\u0308r', 'Baer, bär, Bar', 'S, S, S'],
    ['Zoë', 'Zooe', 'Zooe'],
    ['Yıldız Ħaber', 'Yildiz, YILDIZ, Haber', 'S, S, S'],
    ['Kaʻiu', "Ka'iu, Kaʻiu, Ka‘iu, Kaʼiu", 'S, S, S, S'],
    ['Νίκος', 'ΝΙΚΟΣ, νικος', 'S, S'],
    ['李 张伟', '李 张伟 first', 'S first'],
  ])('for %s in a lane’s line, in other letters: %s', (name, words, without) => {
    expect(stripped(`lane 1 ${name}`, 'Set', `4 x 50 @ 1:00 ${words}`, `note: ${words}`).slice(2)).toEqual([
      expect.stringMatching(/^4 x 50 @ 1:00 /),
      `note: ${without.replaceAll('S', 'somebody').replaceAll(/ΝΙΚΟsomebody/g, 'somebody')}`,
    ]);
  });

  test('what the notation is written with stays, whatever swimmers are called', () => {
    const names = ['Hold', 'Rést', 'Drop-X', 'Rounds', 'Note', 'Kït', 'Bréak', 'Talk', 'Odds', 'Láne'];
    const set = [
      'base 1:30',
      'Set',
      '4 x 50 @ 1:00 hold 0:40',
      '2 x 100 @ 1:40 drop 5',
      '2 rounds',
      '  4 x 50 rest 15',
      'talk 1:30',
      'note: in',
      'kit: fins',
    ];
    expect(stripped(`lane 1 ${names.join(', ')}`, ...set)).toEqual(['lane 1 10 swimmers', ...set]);
  });

  test('a word that says how fast a set is swum stays, and the plan with it', () => {
    const names = 'lane 1 css 1:20, Easy, Kïck, Ana Scull, Cool Down, Drills';
    const text = [
      names,
      'Set',
      '4 x 50 easy, Cool leads',
      '4 x 50 warm @ 1:00 down',
      'Cool-down',
      '200 drills, Ana Scull',
    ];
    const copy = stripped(...text);
    expect(copy).toEqual([
      'lane 1 css 1:20, 5 swimmers',
      'Set',
      '4 x 50 easy, Cool leads',
      '4 x 50 warm @ 1:00 down',
      'Cool-down',
      '200 drills, somebody Scull',
    ]);
    const expected = [text, copy].map((lines) => {
      const plan = openPlan({ text: lines.join('\n'), lanesText: null });
      return (
        plan.ok && plan.value.stretches.map(({ lanes }) => lanes.map(({ reps }) => reps.map((rep) => rep.expected)))
      );
    });
    expect(expected[0]).toBeTruthy();
    expect(expected[1]).toEqual(expected[0]);
  });

  test('of two names the longer is taken whole', () => {
    expect(stripped('lane 1 Ana, Ana Lee', 'Set', '4 x 50 @ 1:00 Ana Lee, then Ana').at(-1)).toBe(
      '4 x 50 @ 1:00 somebody, then somebody',
    );
  });

  test('what begins with the word lane and is no lane’s line keeps its words; lines end as they did', () => {
    expect(withoutNames({ text: 'lane 1 Ana\r\nLane ropes out\r\n4 x 50 @ 1:00\r\n', lanesText: null })).toEqual({
      text: 'lane 1 1 swimmer\r\nLane ropes out\r\n4 x 50 @ 1:00\r\n',
      lanesText: null,
    });
  });

  test('a set about lanes keeps its words, and a line its odd characters', () => {
    const lines = ['4 x 50 lane swims @ 1:00', 'note: one\rtwo'];
    expect(stripped(...lines)).toEqual(lines);
  });

  test('a count of swimmers stays where somebody is called so, and the name goes from other words', () => {
    expect(stripped('lane 1 Swimmers, Ana', 'lane 2 5 swimmers', 'Set', '4 x 50 @ 1:00 with Swimmers')).toEqual([
      'lane 1 2 swimmers',
      'lane 2 5 swimmers',
      'Set',
      '4 x 50 @ 1:00 with somebody',
    ]);
  });

  test('a name without a letter is not looked for', () => {
    expect(stripped('lane 1 --, Ana', 'Set', '4 x 50 @ 1:00 -- all out').at(-1)).toBe('4 x 50 @ 1:00 -- all out');
  });

  test('a name that only the lanes file has goes from the session, and one of the session from the lanes file', () => {
    const both = withoutNames({ text: 'lane 1 Ana\nSet\n4 x 50 @ 1:00 Ben leads', lanesText: 'lane 2 Ben\n# Ana' });
    expect(both).toEqual({
      text: 'lane 1 1 swimmer\nSet\n4 x 50 @ 1:00 somebody leads',
      lanesText: 'lane 2 1 swimmer\n',
    });
  });

  test('comments are gone, and every line stays in its place', () => {
    expect(
      stripped('# for Ana', 'start  9:30 # lane 1', 'Set # hers', '4 x 50 @ 1:00 # she is back', '', '# end'),
    ).toEqual(['', 'start  9:30 ', 'Set ', '4 x 50 @ 1:00 ', '', '']);
  });
});
