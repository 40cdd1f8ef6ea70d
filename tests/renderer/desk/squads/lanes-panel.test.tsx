// @vitest-environment happy-dom
/*
 * Lanes and squads beside the text: the table and the text are the same thing, whichever is changed.
 */

import { act, cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/react';
import { useState, type ReactElement } from 'react';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { Squads } from '../../../../app/host/squads/squads.ts';
import type { SquadsRequest } from '../../../../app/wire/squads.ts';
import { LanesPanel } from '../../../../renderer/desk/squads/lanes-panel.tsx';
import { FakeDisk } from '../../../support/host/folders/fake-disk.ts';

const TEXT = `Harbour
pool 25 m
lane 1 css 1:20, base 1:30, 5 swimmers # the quick ones
lane 2 Ana, Bram, gap 10

Main set
8/6 x 100 free @ base
`;

const KEEP_AS = 'Keep these lanes as a squad called';

let text: string;
let put: (next: string) => void;
/** Another session in its place. */
let turn: (next: string) => void;
let wentTo: number[];
let disk: FakeDisk;

beforeEach(() => {
  wentTo = [];
  disk = new FakeDisk();
  const guard = { check: () => Promise.resolve(), checkNow: () => undefined };
  const squads = new Squads({ disk, folder: '/data', guard });
  vi.stubGlobal('fetch', async (_path: string, { body }: { body: string }) => {
    const answer = await squads.ask(JSON.parse(body) as SquadsRequest);
    return { status: 200, text: () => Promise.resolve(JSON.stringify(answer)) };
  });
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

function Written({ first, lanesText }: { readonly first: string; readonly lanesText: string }): ReactElement {
  const [now, setNow] = useState(first);
  const [sheet, setSheet] = useState(1);
  text = now;
  put = (next) => act(() => setNow(next));
  turn = (next) => {
    act(() => setSheet(sheet + 1));
    put(next);
  };
  return (
    <LanesPanel
      sheet={sheet}
      text={now}
      textNow={() => text}
      lanesText={lanesText}
      onText={setNow}
      onLine={(line) => wentTo.push(line)}
      onClose={() => undefined}
    />
  );
}

const open = (first = TEXT, lanesText = ''): void => void render(<Written first={first} lanesText={lanesText} />);
const field = (name: string): HTMLInputElement => screen.getByRole('textbox', { name });
const type = (name: string, value: string): void => void fireEvent.change(field(name), { target: { value } });
const press = (name: string | RegExp): void => void fireEvent.click(screen.getByRole('button', { name }));
const said = (): string => screen.getAllByRole('status')[0]!.textContent;
const laneLines = (): readonly string[] => text.split('\n').filter((line) => line.startsWith('lane'));

describe('[lanes] the table', () => {
  test('shows each lane as its line says it, and what follows where that says nothing', () => {
    open();
    const table = within(screen.getByRole('table', { name: 'Lanes' }));
    for (const name of ['Lane 1: line 3', 'Lane 2: line 4']) table.getByRole('rowheader', { name });
    const values = (lane: number): readonly string[] =>
      ['swimmers', 'gap in seconds', 'base per 100', 'CSS per 100'].map((name) => {
        const { value, placeholder } = field(`Lane ${lane}: ${name}`);
        return value || `(${placeholder})`;
      });
    expect(values(1)).toEqual(['5', '(5)', '1:30', '1:20']);
    expect(values(2)).toEqual(['Ana, Bram', '10', '(2:00?)', '(none)']);
    press('Lane 2: line 4');
    expect(wentTo).toEqual([4]);
  });

  test('an edit writes the one line, and leaves its comment and all else', () => {
    open();
    type('Lane 1: base per 100', '');
    expect(text).toBe(TEXT.replace(', base 1:30', ''));
    expect(field('Lane 1: base per 100').placeholder).toBe('≈1:35');
    type('Lane 2: swimmers', 'Ana, Bram, Chidi');
    type('Lane 2: gap in seconds', '');
    expect(laneLines()).toEqual(['lane 1 css 1:20, 5 swimmers # the quick ones', 'lane 2 Ana, Bram, Chidi']);
    type('Lane 2: swimmers', '6');
    expect(laneLines()[1]).toBe('lane 2 6 swimmers');
  });

  test('while something is typed that cannot be read, the text stays and what is wrong is said', () => {
    open();
    for (const half of ['1', '1:', '1:4']) type('Lane 1: base per 100', half);
    expect(text).toBe(TEXT);
    expect(field('Lane 1: base per 100')).toHaveProperty('value', '1:4');
    expect(field('Lane 1: base per 100').getAttribute('aria-invalid')).toBe('true');
    const id = field('Lane 1: base per 100').getAttribute('aria-describedby')!;
    expect(document.getElementById(id)!.textContent).toContain('two digits below 60 after a colon');
    type('Lane 1: base per 100', '1:40');
    expect(text).toBe(TEXT.replace('base 1:30', 'base 1:40'));
    expect(field('Lane 1: base per 100').getAttribute('aria-invalid')).toBe('false');
  });

  test('what cannot be read stays when the field is left, and Escape takes it back', () => {
    open();
    type('Lane 1: gap in seconds', '90');
    fireEvent.blur(field('Lane 1: gap in seconds'));
    expect(field('Lane 1: gap in seconds').value).toBe('90');
    fireEvent.keyDown(field('Lane 1: gap in seconds'), { key: 'Escape' });
    expect(field('Lane 1: gap in seconds').value).toBe('');
    expect(text).toBe(TEXT);
  });

  test('what was typed for one session does not stand in the next', () => {
    open();
    type('Lane 1: gap in seconds', '90');
    turn(TEXT.replace('Harbour', 'Tuesday'));
    expect(field('Lane 1: gap in seconds').value).toBe('');
  });

  test('a field that was typed otherwise than it is written shows what is written when it is left', () => {
    open();
    type('Lane 1: base per 100', '95');
    expect(field('Lane 1: base per 100').value).toBe('95');
    fireEvent.blur(field('Lane 1: base per 100'));
    expect(field('Lane 1: base per 100').value).toBe('1:35');
  });

  test.each([
    ['gap in seconds', '5, 6 swimmers'],
    ['base per 100', '1:30, css 1:20'],
    ['css per 100', '1:20, Ana'],
    ['swimmers', 'css 1:20'],
    ['swimmers', 'Ana # a comment'],
    ['swimmers', '21'],
  ])('nothing gets into a lane through the wrong field: %s %j', (name, value) => {
    open();
    type(`Lane 1: ${name.replace('css', 'CSS')}`, value);
    expect(text).toBe(TEXT);
  });

  test('the text, changed beside it, is what the table shows', async () => {
    open();
    type('Lane 1: base per 100', '1:4');
    put(TEXT.replace('base 1:30', 'base 1:50').replace('lane 2 Ana, Bram', 'lane 2 base 136, Ana'));
    await waitFor(() => expect(field('Lane 1: base per 100').value).toBe('1:50'));
    expect(field('Lane 1: base per 100').getAttribute('aria-invalid')).toBe('false');
    screen.getByText('Its line has a fault: mend it in the text.');
    expect(screen.queryByRole('textbox', { name: 'Lane 2: swimmers' })).toBeNull();
  });

  test('lanes that are written apart are shown as such, and an edit makes a line that wins', () => {
    open(TEXT, 'lane 1 base 2:00\nlane 3 base 1:50, 4 swimmers\ngap 7');
    expect(field('Lane 1: base per 100').value).toBe('1:30');
    expect(field('Lane 1: gap in seconds').placeholder).toBe('7');
    screen.getByText(/^From Lanes for every session/);
    press('Take lane 3 out');
    expect(said()).toContain('Lanes for every session');
    type('Lane 3: swimmers', '5');
    expect(laneLines()[2]).toBe('lane 3 base 1:50, 5 swimmers');
    expect(screen.queryByText(/^From Lanes for every session/)).toBeNull();
  });

  test('how many fit in a circle stands at each lane whose pace is known, and that there are more', () => {
    open();
    // 1:20 × 1.05 = 84 s a 100: 42 s for two lengths of 25 m, 5 s apart (check-values 3D).
    screen.getByText('≈8 fit');
    type('Lane 1: swimmers', '9');
    screen.getByText('only ≈8 fit');
    screen.getByText(/How many fit in a circle is an estimate/);
  });

  test('base by css, and css by base', () => {
    open();
    press('Lane 1: CSS from a test');
    press('Lane 1: base from its CSS, about 1:35');
    expect(laneLines()[0]).toBe('lane 1 css 1:20, 5 swimmers # the quick ones');
    type('Lane 2: base per 100', '1:30');
    press('Lane 2: CSS from a test');
    press('Lane 2: CSS from its base, about 1:16.1');
    expect(laneLines()[1]).toBe('lane 2 css 1:16.1, base 1:30, Ana, Bram, gap 10');
  });

  test('a lane is added and taken out, each with one tap back', () => {
    open();
    press('Add a lane');
    expect(laneLines()[2]).toBe('lane 3 gap 10');
    press('Undo that');
    expect(text).toBe(TEXT);
    press('Take lane 2 out');
    expect(laneLines()).toHaveLength(1);
    expect(said()).toBe('Lane 2 is out of the session.');
    press('Undo that');
    expect(text).toBe(TEXT);
    expect(screen.queryByRole('button', { name: 'Undo that' })).toBeNull();
  });

  test('nothing can be taken back over what was typed since', () => {
    open();
    press('Take lane 2 out');
    type('Lane 1: swimmers', '6');
    expect(screen.queryByRole('button', { name: 'Undo that' })).toBeNull();
  });

  test('a session without a lane line has lane 1, which another lane does not push out', () => {
    open('Harbour\n4 x 50 @ 1:00\n');
    screen.getByText(/^Not written/);
    press('Add a lane');
    expect(text).toBe('Harbour\nlane 1\nlane 2\n4 x 50 @ 1:00\n');
  });
});

describe('[lanes] a css test', () => {
  const swim = (n: number, time: string, distance?: string): void => {
    if (distance !== undefined)
      fireEvent.change(screen.getByLabelText(`Swim ${n}, m`), { target: { value: distance } });
    fireEvent.change(screen.getByLabelText(`Time of swim ${n}`), { target: { value: time } });
  };
  beforeEach(() => {
    open();
    press('Lane 2: CSS from a test');
  });

  test('[Wakayoshi 1993] a 400 in 4:45.4 and a 200 in 2:17.2 are 1:14.1, written into the lane', () => {
    swim(1, '4:45.4');
    screen.getByText('Write the times of two swims or more.');
    swim(2, '2:17.2');
    screen.getByText('CSS ≈1:14.1 per 100 m.');
    screen.getByText(/CSS is an estimate/);
    press('Use it for lane 2');
    expect(laneLines()[1]).toBe('lane 2 css 1:14.1, Ana, Bram, gap 10');
    expect(screen.queryByRole('group', { name: 'CSS test of lane 2' })).toBeNull();
  });

  test('[Wakayoshi 1992] more swims: 200, 400 and 800 in 2:50, 6:00 and 12:30 are 1:36.8', () => {
    swim(1, '6:00');
    swim(2, '2:50');
    press('One more swim');
    swim(3, '12:30', '800');
    screen.getByText('CSS ≈1:36.8 per 100 m.');
  });

  test('what is no test is refused, and what is doubtful says so', () => {
    swim(1, '2:50');
    swim(2, '2:50');
    screen.getByText(/took no longer/);
    expect(screen.queryByRole('button', { name: 'Use it for lane 2' })).toBeNull();
    swim(1, '4:00');
    swim(2, '2:05');
    screen.getByText(/was not at full effort/);
    swim(2, '2.05.3');
    screen.getByText('2.05.3 is not a time: write it like 4:45.4.');
    swim(2, '2:05', 'two');
    screen.getByText('two is not a distance: write it like 400.');
  });

  test('Enter takes it, Escape closes it', () => {
    swim(1, '6:00');
    swim(2, '2:50');
    fireEvent.keyDown(screen.getByLabelText('Time of swim 2'), { key: 'Enter' });
    expect(laneLines()[1]).toContain('css 1:35');
    press('Lane 2: CSS from a test');
    fireEvent.keyDown(screen.getByLabelText('Time of swim 1'), { key: 'Escape' });
    expect(screen.queryByRole('group', { name: 'CSS test of lane 2' })).toBeNull();
  });
});

describe('[lanes] squads', () => {
  const name = (label: string, value: string): void => {
    fireEvent.change(screen.getByLabelText(label), { target: { value } });
    fireEvent.submit(screen.getByLabelText(label));
  };
  const keep = async (as: string): Promise<void> => {
    name(KEEP_AS, as);
    await screen.findByRole('button', { name: `Use ${as}` });
  };

  test('the session’s lanes are kept under a name, as lines that can be read', async () => {
    open(TEXT, 'lane 3 base 1:50');
    await screen.findByText(/^No squads yet/);
    await keep('Harbour');
    screen.getByText('3 lanes, 8 swimmers');
    expect(JSON.parse(disk.text('/data/squads.json'))).toEqual({
      version: 1,
      squads: [
        {
          name: 'Harbour',
          lanes: ['lane 1 css 1:20, base 1:30, 5 swimmers', 'lane 2 Ana, Bram, gap 10', 'lane 3 base 1:50'],
        },
      ],
    });
    expect(field(KEEP_AS).value).toBe('');
  });

  test('one that is chosen is written into the text, which can be taken back', async () => {
    open();
    await keep('Harbour');
    const other = 'Tuesday\nlane 2 base 2:00\nlane 4 base 2:10\n\n4 x 50 @ 1:00\n';
    put(other);
    await waitFor(() => expect(field('Lane 4: base per 100').value).toBe('2:10'));
    press('Use Harbour');
    expect(text).toBe('Tuesday\nlane 1 css 1:20, base 1:30, 5 swimmers\nlane 2 Ana, Bram, gap 10\n\n4 x 50 @ 1:00\n');
    expect(said()).toBe('Harbour swims this session. Lane 4 is out of it.');
    press('Undo that');
    expect(text).toBe(other);
  });

  test('is renamed, replaced and deleted, each with one tap back', async () => {
    open();
    await keep('Harbour');
    press('Rename Harbour');
    name('New name of Harbour', 'Masters');
    await screen.findByText('Harbour is Masters now.');
    press('Undo that');
    await screen.findByText('It is Harbour again.');
    type('Lane 1: swimmers', '3');
    fireEvent.change(screen.getByLabelText(KEEP_AS), { target: { value: 'harbour' } });
    press('Replace harbour');
    await screen.findByText('harbour has these lanes now.');
    press('Undo that');
    await screen.findByText('Harbour is as it was.');
    expect(disk.text('/data/squads.json')).toContain('5 swimmers');
    press('Delete Harbour');
    await screen.findByText('Harbour is deleted.');
    press('Undo that');
    await screen.findByText('Harbour is back.');
    screen.getByRole('button', { name: 'Use Harbour' });
  });

  test('what cannot be kept says why, and is not', async () => {
    open(TEXT.replace('gap 10', 'gap 90'));
    await screen.findByText(/^No squads yet/);
    name(KEEP_AS, 'Harbour');
    expect(said()).toBe('The line of lane 2 has a fault: mend it first.');
    put('Harbour\n4 x 50');
    name(KEEP_AS, 'Harbour');
    await waitFor(() => expect(said()).toBe('There are no lanes yet: write them first.'));
    name(KEEP_AS, ' ');
    expect(said()).toContain('Write a name');
    put(TEXT);
    disk.refuses = 'ENOSPC';
    name(KEEP_AS, 'Harbour');
    await waitFor(() => expect(said()).toContain('the disk is full'));
    expect(screen.queryByRole('button', { name: 'Use Harbour' })).toBeNull();
  });

  test('a file that is not ours is said, and a host that does not answer', async () => {
    disk.put('/data/squads.json', Buffer.from('{}'));
    open();
    await waitFor(() => expect(said()).toContain('does not hold squads'));
    vi.stubGlobal('fetch', () => Promise.reject(new Error('gone')));
    name(KEEP_AS, 'Harbour');
    await waitFor(() => expect(said()).toContain('The program does not answer'));
  });
});
