// @vitest-environment happy-dom
/* The wall screens in the coach's window: what is wanted of them by a tap, and what that leaves of the keyboard. */

import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { FIRST_SETTINGS, type ScreenSettings } from '../../../../app/core/screen/screen-settings.ts';
import type { ScreenTold } from '../../../../app/wire/screen-settings.ts';
import { ScreensPanel } from '../../../../renderer/desk/screens/screens-panel.tsx';
import { keysTakenBy } from '../../../../renderer/desk/actions/keys/taken-keys.ts';
import { freeKeyboard } from '../../../../renderer/ui/coach/free-keyboard.ts';
import { CoachWindow } from '../../../support/coach/coach-window.ts';
import { told as shared } from '../sharing/told.ts';

beforeEach(() => {
  // This small DOM loads no frames, and complains of each at length.
  const page: { createElement(name: string): Element } = document;
  const make = page.createElement.bind(page);
  vi.spyOn(page, 'createElement').mockImplementation((name) => make(name === 'iframe' ? 'figure' : name));
});

afterEach(() => {
  cleanup();
  vi.useRealTimers();
  vi.restoreAllMocks();
});

const ROOM = { width: 1920, height: 1080 };

function told(
  name: string,
  settings: Partial<ScreenSettings> = {},
  connected = [{ search: '', room: ROOM }],
): ScreenTold {
  return { name, settings: { ...FIRST_SETTINGS, ...settings }, connected };
}

function opened(...screens: ScreenTold[]) {
  const coach = new CoachWindow('Squad\nlane 1\nlane 2\nlane 3\nMain set\n8 x 50 @ 1:00\n');
  coach.told(screens);
  const onClose = vi.fn();
  render(<ScreensPanel tools={coach.tools} onClose={onClose} />);
  return { coach, onClose };
}

/** What the panel says to a press. */
function said(): string | null {
  return screen.getByRole('status', { name: 'What was said' }).textContent;
}

/** What the name's field is described by. */
function fault(): string | null | undefined {
  const described = screen.getByLabelText('Name').getAttribute('aria-describedby') ?? '';
  return screen.getAllByRole('alert').find(({ id }) => id === described)?.textContent;
}

function unseen(): string | null {
  return screen.getByRole('status', { name: 'Lanes on no screen' }).textContent;
}

function press(name: string): void {
  fireEvent.click(screen.getByRole('button', { name }));
}

describe('[screens] the panel', () => {
  test('lists every screen by name and whether it is connected, those that are first', () => {
    opened(
      told('Deep end'),
      told('Wall', {}, []),
      told('Hall', {}, [
        { search: '', room: ROOM },
        { search: '', room: ROOM },
      ]),
    );
    const stands = screen.getAllByRole('listitem').map((item) => item.textContent);
    expect(stands[0]).toContain('Deep endconnected');
    expect(stands[1]).toContain('Hall2 of this name connected');
    expect(stands[2]).toContain('Wallnot connected');
  });

  test('without a screen it says how one is connected, and asks nothing of any', () => {
    opened();
    expect(screen.getByText(/No wall screen has been connected yet/)).toBeTruthy();
    expect(screen.queryByRole('button', { name: 'Show which is which' })).toBeNull();
  });

  test('without a screen, while sharing is on, it says which address the television opens', () => {
    const { coach } = opened();
    coach.sharing(shared());
    expect(screen.getByText(/^No wall screen has been connected yet/).textContent).toBe(
      'No wall screen has been connected yet. Open http://192.168.1.20:7525/ in the television’s browser.',
    );
  });

  test('a single screen is open at once, of several none', () => {
    opened(told('Hall'));
    expect(screen.getByLabelText('Push off')).toBeTruthy();
    cleanup();
    opened(told('Hall'), told('Wall'));
    expect(screen.queryByLabelText('Push off')).toBeNull();
    const card = screen.getByRole('region', { name: 'Wall' });
    const broughtIntoSight = vi.spyOn(card, 'scrollIntoView');
    press('Settings of Wall');
    expect(within(card).getByLabelText('Push off')).toBeTruthy();
    press('Settings of Wall');
    expect(screen.queryByLabelText('Push off')).toBeNull();
    expect(broughtIntoSight).toHaveBeenCalledOnce();
  });

  test.each([
    ['Clock', 'pool', { clock: 'pool' }],
    ['Face', 'sweep', { face: 'sweep' }],
    ['Push off', 'right', { pushOff: 'right' }],
    ['Lane 1', 'bottom', { laneOne: 'bottom' }],
    ['Light', 'bright hall', { light: 'bright hall' }],
    ['Diagonal', '65', { diagonal: 65 }],
    ['Farthest reader', '25', { reader: 25 }],
  ])('%s is chosen from a list', (label, value, settings) => {
    const { coach } = opened(told('Hall'));
    fireEvent.change(screen.getByLabelText(label), { target: { value } });
    expect(coach.wishes).toEqual([{ name: 'Hall', wish: { settings } }]);
  });

  test.each([
    ['Words', { words: false }],
    ['Leave after', { after: false }],
    ['End, minutes in hand', { end: true }],
    ['Clock and leaves only', { leavesOnly: true }],
    ['Edge kept clear, %: one more', { inset: 6 }],
    ['Show lane 3', { lanes: [3] }],
  ])('%s is changed by a tap', (name, settings) => {
    const { coach } = opened(told('Hall'));
    press(name);
    expect(coach.wishes).toEqual([{ name: 'Hall', wish: { settings } }]);
  });

  test('names are offered on the program’s own window, and of another the coach reads why not', () => {
    const { coach } = opened({ ...told('Hall'), isOwnWindow: true });
    press('Names');
    expect(coach.wishes).toEqual([{ name: 'Hall', wish: { settings: { names: true } } }]);
    cleanup();
    const other = opened(told('Hall'));
    press('Names');
    expect(other.coach.wishes).toEqual([]);
    expect(said()).toContain('anybody can open');
  });

  test('the top of the dial is offered where there is a dial', () => {
    opened(told('Hall'));
    expect(screen.queryByLabelText('Top of the dial')).toBeNull();
    cleanup();
    const { coach } = opened(told('Hall', { face: 'sweep' }));
    fireEvent.change(screen.getByLabelText('Top of the dial'), { target: { value: '00' } });
    expect(coach.wishes).toMatchObject([{ wish: { settings: { top: '00' } } }]);
  });

  test('a size that is not sold is offered where it is kept', () => {
    opened(told('Hall', { diagonal: 51 }));
    expect(screen.getByLabelText<HTMLSelectElement>('Diagonal').value).toBe('51');
  });

  test('clock and leaves only: what it leaves out is not offered, and says why when pressed', () => {
    const { coach } = opened(told('Hall', { leavesOnly: true }));
    press('Words');
    expect(coach.wishes).toEqual([]);
    expect(said()).toContain('take that back first');
  });

  test('quick taps go on from each other, before the host has told of the first', () => {
    const { coach } = opened(told('Hall'));
    press('Edge kept clear, %: one more');
    press('Edge kept clear, %: one more');
    press('Show lane 2');
    press('Show lane 1');
    expect(coach.wishes.map(({ wish }) => wish)).toEqual([
      { settings: { inset: 6 } },
      { settings: { inset: 7 } },
      { settings: { lanes: [2] } },
      { settings: { lanes: [1, 2] } },
    ]);
  });

  test('what the host refuses is taken back, and why is said', async () => {
    vi.useFakeTimers();
    const { coach } = opened(told('Hall'));
    coach.refusal = 'A hundred screens are remembered.';
    press('Words');
    expect(screen.getByRole('button', { name: 'Words' }).getAttribute('aria-pressed')).toBe('false');
    await act(() => vi.advanceTimersByTimeAsync(10));
    expect(screen.getByRole('button', { name: 'Words' }).getAttribute('aria-pressed')).toBe('true');
    expect(said()).toBe('A hundred screens are remembered.');
  });

  test('what another coach sets is seen once this one’s own change has been told', async () => {
    vi.useFakeTimers();
    const { coach } = opened(told('Hall'));
    press('Edge kept clear, %: one more');
    coach.told([told('Hall', { inset: 9 })]);
    await act(() => vi.advanceTimersByTimeAsync(1500));
    expect(within(screen.getByRole('group', { name: 'Edge kept clear, %' })).getByText('9')).toBeTruthy();
  });

  test('which is which is asked of all', () => {
    const { coach } = opened(told('Hall'), told('Wall'));
    press('Show which is which');
    expect(coach.whichAsked).toBe(1);
  });

  test('what its address decides is said, because the settings change nothing there', () => {
    opened(told('Hall', {}, [{ search: '?lanes=1-4&flip', room: ROOM }]));
    expect(screen.getByText('Its address decides the lanes and the push-off side and where lane 1 is.')).toBeTruthy();
  });
});

describe('[screens] a lane that no connected screen shows', () => {
  const at = (search: string) => [{ search, room: ROOM }];

  test('is said at the top and beside the lanes, with what to do, until a screen shows it', () => {
    const { coach } = opened(told('Hall', { lanes: [1, 2] }));
    const sentence = 'Lane 3 is on no screen: choose it, or All lanes, in the settings of one.';
    expect(unseen()).toBe(sentence);
    expect(screen.getAllByText(sentence)).toHaveLength(2);
    act(() => coach.told([told('Hall', { lanes: [1, 2] }), told('Wall', { lanes: [3] })]));
    expect(unseen()).toBe('');
  });

  test('is so at once after a tap, and counts for all that are left out', () => {
    opened(told('Hall'));
    expect(unseen()).toBe('');
    press('Show lane 2');
    expect(unseen()).toBe('Lanes 1 and 3 are on no screen: choose them, or All lanes, in the settings of one.');
    press('All lanes');
    expect(unseen()).toBe('');
  });

  test.each<[string, ScreenTold[], string]>([
    ['a screen that is switched off shows none', [told('Hall', { lanes: [1, 2] }), told('Wall', {}, [])], 'Lane 3'],
    ['an address decides over the settings', [told('Hall', {}, at('?lanes=2-3'))], 'Lane 1'],
    ['each of two screens of one name shows its own', [told('Hall', {}, [...at('?lanes=1'), ...at('?lanes=2-3')])], ''],
    ['without a screen nothing is said', [told('Hall', { lanes: [1] }, [])], ''],
  ])('%s', (_, screens, lanes) => {
    opened(...screens);
    expect(unseen()).toBe(lanes && `${lanes} is on no screen: choose it, or All lanes, in the settings of one.`);
  });
});

describe('[screens] a name', () => {
  test('is written in a field of its own, and wanted with its spaces in order', async () => {
    const { coach } = opened(told('Screen 1'));
    press('Rename Screen 1');
    fireEvent.change(screen.getByLabelText('Name'), { target: { value: '  Shallow   end ' } });
    press('Keep this name');
    await act(() => Promise.resolve());
    expect(coach.wishes).toEqual([{ name: 'Screen 1', wish: { rename: 'Shallow end' } }]);
    expect(screen.queryByLabelText('Name')).toBeNull();
  });

  test('that is none is not wanted, and a sentence says so', () => {
    const { coach } = opened(told('Screen 1'));
    press('Rename Screen 1');
    fireEvent.change(screen.getByLabelText('Name'), { target: { value: '   ' } });
    press('Keep this name');
    expect(coach.wishes).toEqual([]);
    expect(fault()).toBe('Write a name of letters and digits, 40 at most.');
  });

  test('that is refused stays in its field, which says why until another is written', async () => {
    const { coach } = opened(told('Screen 1'));
    coach.refusal = 'There is a screen “Hall” already.';
    press('Rename Screen 1');
    fireEvent.change(screen.getByLabelText('Name'), { target: { value: 'Hall' } });
    press('Keep this name');
    await act(() => Promise.resolve());
    expect(screen.getByLabelText<HTMLInputElement>('Name').value).toBe('Hall');
    expect(fault()).toBe('There is a screen “Hall” already.');
    expect([said(), screen.getByLabelText('Name').getAttribute('aria-invalid')]).toEqual(['', 'true']);
    fireEvent.change(screen.getByLabelText('Name'), { target: { value: 'Hall 2' } });
    expect([fault(), screen.getByLabelText('Name').getAttribute('aria-invalid')]).toEqual(['', 'false']);
  });

  test('Escape leaves it, and the panel open', () => {
    const { onClose } = opened(told('Screen 1'));
    const heard = vi.fn();
    window.addEventListener('keydown', heard);
    press('Rename Screen 1');
    fireEvent.keyDown(screen.getByLabelText('Name'), { key: 'Escape' });
    window.removeEventListener('keydown', heard);
    expect(screen.queryByLabelText('Name')).toBeNull();
    expect([onClose.mock.calls, heard.mock.calls]).toEqual([[], []]);
  });
});

test('[screens] Escape in the name leaves the keyboard just before Rename, and Space is Stop', () => {
  const stop = freeKeyboard(document);
  opened(told('Hall'));
  act(() => screen.getByRole('button', { name: 'Rename Hall' }).focus());
  press('Rename Hall');
  act(() => screen.getByLabelText('Name').focus());
  fireEvent.keyDown(screen.getByLabelText('Name'), { key: 'Escape' });
  const at = screen.getByRole('group', { name: 'Name of Hall' });
  expect(document.activeElement).toBe(at);
  expect(at.querySelector('button')).toBe(screen.getByRole('button', { name: 'Rename Hall' }));
  expect(keysTakenBy(at)).toBe('none');
  stop();
});

describe('[screens] forgetting', () => {
  test('one that is not connected is forgotten by a tap', () => {
    const { coach } = opened(told('Hall', {}, []));
    press('Forget Hall');
    expect(coach.wishes).toEqual([{ name: 'Hall', wish: { forget: true } }]);
  });

  test('one that is connected is not, and says why', () => {
    const { coach } = opened(told('Hall'));
    press('Forget Hall');
    expect(coach.wishes).toEqual([]);
    expect(said()).toContain('is connected');
    expect(screen.getByRole('button', { name: 'Forget Hall' }).textContent).toBe('Forgetonce it is switched off');
  });
});

describe('[screens] the keyboard', () => {
  test('after a tap on anything in the panel nothing there has it, so Space is Stop', () => {
    const stop = freeKeyboard(document);
    const { coach } = opened(told('Hall'));
    for (const name of ['Words', 'Show lane 2', 'Show which is which', 'Edge kept clear, %: one less']) {
      const button = screen.getByRole('button', { name });
      fireEvent.pointerDown(button);
      const wouldFocus = fireEvent.mouseDown(button);
      expect(wouldFocus, name).toBe(false);
      fireEvent.click(button);
    }
    expect(coach.wishes).toHaveLength(3);
    expect(document.activeElement?.matches('button, input, select, iframe')).toBe(false);
    stop();
  });

  test('the pictures take none', () => {
    opened(told('Hall'));
    const frame = screen.getByTitle('Hall, small');
    expect(frame.tabIndex).toBe(-1);
    expect(frame.closest('[inert]')).not.toBeNull();
  });
});
