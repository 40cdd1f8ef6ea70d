// @vitest-environment happy-dom
/* Sharing with other screens, in the Screens panel: what is asked of the host by a tap, and what the coach reads. */

import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { SharingTold } from '../../../../app/wire/sharing/sharing.ts';
import { Sharing } from '../../../../renderer/desk/sharing/sharing.tsx';
import styles from '../../../../renderer/desk/sharing/sharing.module.css';
import { CoachWindow } from '../../../support/coach/coach-window.ts';
import { device, OFF, told, TWO_ADDRESSES } from './told.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

function panel(sharing: SharingTold | null) {
  const coach = new CoachWindow('Main set\n8 x 50 @ 1:00\n');
  coach.sharing(sharing);
  const shown = render(<Sharing link={coach.tools.link} />);
  return { coach, ...shown };
}

const press = (name: string): boolean => fireEvent.click(screen.getByRole('button', { name }));
const button = (name: string): HTMLElement | null => screen.queryByRole('button', { name });
const goes = (): string | null => screen.getByRole('status', { name: 'How sharing goes' }).textContent;
const isTrouble = (): boolean =>
  screen.getByRole('status', { name: 'How sharing goes' }).classList.contains(styles.trouble!);
const ofDigits = (): string | null => screen.getByRole('status', { name: 'Of the digits' }).textContent;
const settled = (): Promise<void> => act(() => Promise.resolve());

describe('[sharing] the switch', () => {
  test('is off at first, says what it does, and asks for the one address there is', () => {
    const { coach } = panel(OFF);
    expect(button('Share with other screens')?.getAttribute('aria-pressed')).toBe('false');
    expect(screen.getByText(/can then be let in, one by one/)).toBeTruthy();
    expect(screen.queryByRole('group', { name: 'Televisions' })).toBeNull();
    press('Share with other screens');
    expect(coach.shared).toEqual([{ do: 'share', address: null }]);
  });

  test('where there are several addresses, the coach chooses', () => {
    const { coach } = panel({ ...OFF, choices: TWO_ADDRESSES });
    press('Share with other screens');
    fireEvent.change(screen.getByLabelText('Address of this machine'), { target: { value: '10.0.0.7' } });
    press('Share with other screens');
    expect(coach.shared).toEqual([
      { do: 'share', address: '192.168.1.20' },
      { do: 'share', address: '10.0.0.7' },
    ]);
  });

  test('switches off what is on', () => {
    const { coach } = panel(told({ choices: TWO_ADDRESSES }));
    expect(screen.queryByLabelText('Address of this machine')).toBeNull();
    press('Share with other screens');
    expect(coach.shared).toEqual([{ do: 'stop-sharing' }]);
  });

  test.each([
    [0, 'Sharing has ended.'],
    [1, 'Sharing has ended: one wall screen shows no leaves any more.'],
    [2, 'Sharing has ended: 2 wall screens show no leaves any more.'],
  ])('switched off says for a while what becomes of the walls that are connected: %i', async (count, sentence) => {
    const wall = device({ role: 'wall' });
    const walls = Array.from({ length: count }, (_, n) => ({ ...wall, id: `${n}`.repeat(16) }));
    const { coach } = panel(told({ devices: [device(), { ...wall, id: 'b'.repeat(16), connected: false }, ...walls] }));
    press('Share with other screens');
    act(() => coach.sharing(OFF));
    await settled();
    expect(goes()).toBe(sentence);
    expect(isTrouble()).toBe(false);
    act(() => void vi.advanceTimersByTime(20_000));
    expect(goes()).toBe('');
  });

  test('without a network it says what to do, and asks for nothing', () => {
    const { coach } = panel({ ...OFF, choices: [] });
    expect(screen.getByText(/^This machine is on no private network/)).toBeTruthy();
    expect(screen.queryByText(/can then be let in/)).toBeNull();
    press('Share with other screens');
    expect(goes()).toBe('This machine is on no private network: connect it to the Wi-Fi first.');
    expect(coach.shared).toEqual([]);
  });

  test('with one other address than before it names it', () => {
    panel(told({ state: 'ask', address: null, choices: TWO_ADDRESSES.slice(1) }));
    expect(goes()).toBe('This machine has another address now, 10.0.0.7: share on it, or stop sharing.');
  });

  test('with another address than before it asks which', () => {
    const { coach } = panel(told({ state: 'ask', address: null, choices: TWO_ADDRESSES }));
    expect(goes()).toBe('This machine has another address now: choose one, or stop sharing.');
    press('Share on this address');
    expect(coach.shared).toEqual([{ do: 'share', address: '192.168.1.20' }]);
  });

  test.each([
    [
      { state: 'lost' },
      'The address http://192.168.1.20:7525/ is gone, perhaps with its Wi-Fi. It is shared again once it is back.',
    ],
    [{ nobodyCame: true }, 'Nobody has come. This Wi-Fi may keep devices apart: try a hotspot.'],
    [{ fault: 'Port 7525 is in use.' }, 'Port 7525 is in use.'],
    [{}, ''],
  ] as const)('says what keeps others from coming: %o', (more, sentence) => {
    panel(told(more));
    expect(goes()).toBe(sentence);
    expect(isTrouble()).toBe(sentence !== '');
  });

  test('says why the host did not do it', async () => {
    const { coach } = panel(OFF);
    coach.refusal = 'That address is not one of this machine.';
    press('Share with other screens');
    await settled();
    expect(goes()).toBe('That address is not one of this machine.');
    expect(isTrouble()).toBe(true);
  });

  test('is not there where the host says nothing of sharing', () => {
    expect(panel(null).container.textContent).toBe('');
  });
});

describe('[sharing] a television', () => {
  const type = (value: string): void =>
    void fireEvent.change(screen.getByLabelText('Type the digits that the screen shows'), { target: { value } });

  test('opens the address, and is let in by its digits', async () => {
    const { coach } = panel(told({ showing: 2 }));
    expect(screen.getByText('http://192.168.1.20:7525/')).toBeTruthy();
    expect(ofDigits()).toBe('2 screens show digits now.');
    type('40 71');
    press('Let the screen in');
    await settled();
    expect(coach.shared).toEqual([{ do: 'let-in', digits: '4071' }]);
    expect(ofDigits()).toBe('The screen is in.');
    expect(screen.getByLabelText<HTMLInputElement>('Type the digits that the screen shows').value).toBe('');
    // Old news goes.
    act(() => void vi.advanceTimersByTime(20_000));
    expect(ofDigits()).toBe('2 screens show digits now.');
  });

  test('that has come in is named, as soon as the host tells its name, among those that were in before', async () => {
    const known = device({ id: 'b'.repeat(16), role: 'wall', name: 'Wall 1' });
    const { coach } = panel(told({ devices: [known] }));
    type('4071');
    press('Let the screen in');
    await settled();
    expect(ofDigits()).toBe('The screen is in.');
    const wall = device({ id: 'c'.repeat(16), role: 'wall', name: 'Wall 2' });
    coach.sharing(told({ devices: [known, device(), wall] }));
    expect(ofDigits()).toBe('“Wall 2” is in.');
    coach.sharing(told({ devices: [known, device(), { ...wall, name: 'Deep end' }] }));
    expect(ofDigits()).toBe('“Deep end” is in.');
  });

  test('is let in by Enter too', () => {
    const { coach } = panel(told());
    type('4071');
    fireEvent.submit(screen.getByLabelText('Type the digits that the screen shows'));
    expect(coach.shared).toEqual([{ do: 'let-in', digits: '4071' }]);
  });

  test('with fewer digits is asked for all four, and the host is not', () => {
    const { coach } = panel(told({ showing: 1 }));
    type('407');
    press('Let the screen in');
    expect([ofDigits(), coach.shared]).toEqual(['Type the four digits that the screen shows.', []]);
    expect(screen.getByLabelText('Type the digits that the screen shows').getAttribute('aria-invalid')).toBe('true');
    type('4');
    expect(ofDigits()).toBe('One screen shows digits now.');
  });

  test('whose digits are wrong is told so beside the field, which keeps them', async () => {
    const { coach } = panel(told());
    coach.refusal = 'No screen shows 4071.';
    type('4071');
    press('Let the screen in');
    await settled();
    expect([ofDigits(), goes()]).toEqual(['No screen shows 4071.', '']);
    expect(screen.getByLabelText<HTMLInputElement>('Type the digits that the screen shows').value).toBe('4071');
  });
});

describe('[sharing] a phone or a tablet', () => {
  const CODE = {
    role: 'remote',
    address: 'http://192.168.1.20:7525/remote#7K2QM0H3TZ4RVD8XWB5C',
    letters: '7K2QM0H3TZ4RVD8XWB5C',
    left: 120_000,
  } as const;

  test('is let in by a code for its role, and the code is asked for only then', () => {
    const { coach } = panel(told());
    expect(screen.queryByRole('img')).toBeNull();
    press('Let a phone in');
    press('Let a tablet in');
    expect(coach.shared).toEqual([
      { do: 'show-code', role: 'remote' },
      { do: 'show-code', role: 'tablet' },
    ]);
  });

  test('scans it or types its letters, and the seconds that are left count down', () => {
    const { coach } = panel(told({ code: CODE }));
    expect(screen.getByRole('img', { name: 'Code for one phone' })).toBeTruthy();
    expect(screen.getByText('7K2QM 0H3TZ 4RVD8 XWB5C')).toBeTruthy();
    expect(screen.getByText('http://192.168.1.20:7525/remote')).toBeTruthy();
    expect(screen.getByText('For one phone, valid for 120 s more.')).toBeTruthy();
    act(() => void vi.advanceTimersByTime(20_000));
    expect(screen.getByText('For one phone, valid for 100 s more.')).toBeTruthy();
    // What the host says counts.
    coach.sharing(told({ code: { ...CODE, left: 90_000 } }));
    expect(screen.getByText('For one phone, valid for 90 s more.')).toBeTruthy();
    act(() => void vi.advanceTimersByTime(95_000));
    expect(screen.getByText('No longer valid: show another.')).toBeTruthy();
  });

  test('the code is dark modules on light ones with four of quiet around, whatever the window’s light', () => {
    const { container } = panel(told({ code: CODE }));
    const size = Number(container.querySelector('svg')?.getAttribute('viewBox')?.split(' ')[2]);
    expect(size).toBeGreaterThanOrEqual(21 + 8);
    expect(container.querySelector('rect')?.getAttribute('width')).toBe(`${size}`);
    const at = [...(container.querySelector('path')?.getAttribute('d') ?? '').matchAll(/M(\d+) (\d+)/g)];
    const places = at.flatMap(([, x, y]) => [Number(x), Number(y)]);
    expect([Math.min(...places), Math.max(...places)]).toEqual([4, size - 5]);
  });

  test('the code closes itself when it has been used, and by a tap', () => {
    const { coach } = panel(told({ code: CODE }));
    press('Hide the code');
    press('Let a phone in');
    expect(coach.shared).toEqual([{ do: 'hide-code' }, { do: 'hide-code' }]);
    coach.sharing(told());
    expect(screen.queryByRole('img')).toBeNull();
  });

  test('a code is valid only while its panel is open', () => {
    const { coach, unmount } = panel(told({ code: CODE }));
    unmount();
    expect(coach.shared).toEqual([{ do: 'hide-code' }]);
    cleanup();
    const none = panel(told());
    none.unmount();
    expect(none.coach.shared).toEqual([]);
  });
});

describe('[sharing] what was let in', () => {
  test('is listed by name, with what it is and how it stands, those that are connected first', () => {
    panel(
      told({
        devices: [
          device({ id: 'b'.repeat(16), role: 'wall', name: 'Deep end', connected: false, clock: null }),
          device({ clock: 'poor' }),
          device({ id: 'c'.repeat(16), role: 'tablet', name: 'Tablet 1', clock: null }),
          device({ id: 'd'.repeat(16), role: 'coach', name: 'Window 2', clock: 'fair' }),
        ],
      }),
    );
    const items = screen.getAllByRole('listitem').map((item) => item.querySelector('div')?.textContent);
    expect(items).toEqual([
      'Phone 1phone, connected, clock poor: nobody should leave on it',
      'Tablet 1tablet, connected',
      'Window 2window on this machine, connected, clock fair',
      'Deep endwall screen, not connected, renamed in its settings below',
    ]);
    expect(screen.getByText(/On an open Wi-Fi anyone can read.*A phone that is lost unlocked commands/)).toBeTruthy();
  });

  test('is thrown out in one step', () => {
    const { coach } = panel(told({ devices: [device()] }));
    press('Throw out Phone 1');
    expect(coach.shared).toEqual([{ do: 'throw-out', device: 'a'.repeat(16) }]);
  });

  test('gets another name, and why it does not is said beside it', async () => {
    const { coach } = panel(told({ devices: [device()] }));
    press('Rename Phone 1');
    fireEvent.change(screen.getByLabelText('Name'), { target: { value: "Ann's" } });
    coach.refusal = 'That name is taken.';
    press('Keep this name');
    await settled();
    expect(coach.shared).toEqual([{ do: 'rename-device', device: 'a'.repeat(16), name: "Ann's" }]);
    expect(within(screen.getByRole('listitem')).getByRole('alert').textContent).toBe('That name is taken.');
  });

  test('is not thrown out where it is this window itself, which is said, or where the host lets nobody', () => {
    const own = device({ role: 'coach', name: 'Coach’s window 1', isYours: true, mayThrowOut: false });
    const other = device({ id: 'b'.repeat(16), role: 'coach', name: 'Coach’s window 2', mayThrowOut: false });
    panel(told({ devices: [own, other] }));
    expect(screen.queryByRole('button', { name: /^Throw out/ })).toBeNull();
    const [first, second] = screen.getAllByRole('listitem').map((item) => item.textContent);
    expect(first).toContain('this window');
    expect(second).not.toContain('this window');
  });

  test('has one name only where it is a wall screen: that of its screen, given there', () => {
    panel(told({ devices: [device({ role: 'wall', name: 'Wall 1' })] }));
    expect(button('Rename Wall 1')).toBeNull();
    expect(button('Throw out Wall 1')).toBeTruthy();
  });

  test('is all that a tablet sees: it may throw out, and lets nobody in', () => {
    const { coach } = panel(told({ mayLetIn: false, devices: [device()] }));
    const names = screen.getAllByRole('button').map((each) => each.getAttribute('aria-label'));
    expect(names).toEqual(['Rename Phone 1', 'Throw out Phone 1']);
    press('Throw out Phone 1');
    expect(coach.shared.length).toBe(1);
  });
});

describe('[sharing] in a run', () => {
  const folded = (sharing: SharingTold) => {
    const coach = new CoachWindow('Main set\n8 x 50 @ 1:00\n');
    coach.sharing(sharing);
    render(<Sharing link={coach.tools.link} folds />);
    return coach;
  };
  const groups = (): (string | null)[] => screen.queryAllByRole('heading').map((heading) => heading.textContent);

  test('what lets in and throws out is behind a button, so that the wall screens below are in sight', () => {
    folded(told({ devices: [device()] }));
    expect(groups()).toEqual([]);
    expect(button('Share with other screens')).toBeTruthy();
    expect(button('Devices')?.textContent).toBe('Devices1 let in');
    press('Devices');
    expect(button('Devices')?.getAttribute('aria-expanded')).toBe('true');
    expect(groups()).toEqual(['Televisions', 'Phones and tablets', 'Let in']);
    press('Devices');
    expect(groups()).toEqual([]);
  });

  test('it stays open where nothing was let in before, also once something is', () => {
    const coach = folded(told());
    expect([button('Devices'), groups()]).toEqual([null, ['Televisions', 'Phones and tablets']]);
    coach.sharing(told({ devices: [device()] }));
    expect(groups()).toEqual(['Televisions', 'Phones and tablets', 'Let in']);
  });

  test('a screen that shows its digits is said on the button; where one does as the panel opens, it is open', () => {
    const coach = folded(told({ devices: [device()] }));
    coach.sharing(told({ devices: [device()], showing: 1 }));
    expect(button('Devices')?.textContent).toBe('Devices1 let in, a screen shows digits');
    cleanup();
    folded(told({ devices: [device()], showing: 1 }));
    expect(groups()).toContain('Televisions');
  });

  test('trouble is said all the same', () => {
    folded(told({ state: 'ask', address: null, devices: [device()] }));
    expect(goes()).toMatch(/^This machine has another address now/);
  });
});

describe('[sharing] another window on this machine', () => {
  test('is opened by an address that works once, and gets nothing of this one’s', () => {
    const { coach } = panel(told());
    press('Another window on this machine');
    expect(coach.shared).toEqual([{ do: 'another-window' }]);
    expect(screen.queryByRole('link')).toBeNull();
    coach.sharing(told(), 'http://localhost:7525/#7K2QM0H3TZ4RVD8XWB5C');
    const link = screen.getByRole('link', { name: 'Open it (works once)' });
    expect(link.getAttribute('href')).toBe('http://localhost:7525/#7K2QM0H3TZ4RVD8XWB5C');
    expect(link.getAttribute('rel')).toContain('noopener');
  });

  test('its address goes once it was used, and with the panel', () => {
    const { coach } = panel(told());
    const link = (): HTMLElement | null => screen.queryByRole('link', { name: 'Open it (works once)' });
    coach.sharing(told(), 'http://localhost:7525/#7K2QM0H3TZ4RVD8XWB5C');
    // Nothing is opened here.
    link()!.addEventListener('click', (event) => event.preventDefault());
    fireEvent.click(link()!);
    expect(link()).toBeNull();
    coach.sharing(told(), 'http://localhost:7525/#8K2QM0H3TZ4RVD8XWB5C');
    expect(link()).toBeTruthy();
    cleanup();
    render(<Sharing link={coach.tools.link} />);
    expect(link()).toBeNull();
  });

  test('is not offered in the desktop program, which has its windows', () => {
    vi.stubGlobal('lanecallWindow', {});
    panel(told());
    expect(button('Another window on this machine')).toBeNull();
    vi.unstubAllGlobals();
  });
});
