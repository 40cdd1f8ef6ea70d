// @vitest-environment happy-dom
/*
 * The settings of a screen's sound, by the names and roles that a coach and assistive technology have.
 */

import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { SoundPanel } from '../../../../renderer/sound/panel/sound-panel.tsx';
import { runOf } from '../../../support/coach/coach-run.ts';
import { Page } from '../fake-page.ts';

const SET = 'lane 1\nlane 2\nSet\n4 x 50 @ 1:00';
const ON = { 'lanecall.sound': 'on' };
const GOING = 'A session is going: this would be taken for a leave.';
const NOT_ON = 'The sound is not on here.';

let closed: number;

function open(page: Page): Page {
  render(<SoundPanel sound={page.sound} onClose={() => closed++} />);
  return page;
}

const button = (name: string | RegExp): HTMLElement => screen.getByRole('button', { name, hidden: true });
const box = (name: string): HTMLInputElement => screen.getByRole('checkbox', { name, hidden: true });
const slider = (name: string): HTMLInputElement => screen.getByRole('slider', { name, hidden: true });
const press = (name: string | RegExp): void => act(() => button(name).click());
const tick = (name: string): void => act(() => box(name).click());
const slide = (name: string, value: number): void => void fireEvent.change(slider(name), { target: { value } });

beforeEach(() => {
  closed = 0;
  vi.useFakeTimers();
});

afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

describe('[sound] the panel', () => {
  test('has the keyboard when it opens; Escape and its button close it, and nobody else hears that Escape', () => {
    open(new Page());
    const panel = screen.getByRole('group', { name: 'Sound' });
    expect(document.activeElement).toBe(panel);
    const elsewhere = vi.fn();
    document.addEventListener('keydown', elsewhere);
    fireEvent.keyDown(panel, { key: 'Escape' });
    expect([closed, elsewhere.mock.calls.length]).toEqual([1, 0]);
    fireEvent.keyDown(panel, { key: 'a' });
    expect([closed, elsewhere.mock.calls.length]).toEqual([1, 1]);
    document.removeEventListener('keydown', elsewhere);
    press('Close');
    expect(closed).toBe(2);
  });

  test('switches the sound of this screen on and off, and says how it stands', () => {
    const page = open(new Page());
    expect(screen.getByText('No screen sounds.')).toBeTruthy();
    press('Sound on this screen: off');
    expect(page.state.status).toBe('running');
    expect(screen.getByText('Only this screen sounds.')).toBeTruthy();
    expect(button('Sound on this screen: on').getAttribute('aria-pressed')).toBe('true');
    press('Sound on this screen: on');
    expect(page.state.status).toBe('off');
  });

  test('makes it louder and softer, in per cent', () => {
    const page = open(new Page({ 'lanecall.volume': '0.4' }));
    expect([slider('Volume').value, slider('Volume').getAttribute('aria-valuetext')]).toEqual(['40', '40 %']);
    slide('Volume', 75);
    expect(page.state.volume).toBe(0.75);
  });

  test('plays a test tone; where it cannot, it says why', () => {
    const page = open(new Page(ON, runOf(SET)));
    press('Test tone');
    expect(page.files()).toEqual(['leave 5400']);
    act(() => {
      page.follow(runOf(SET, [0, { do: 'start' }]));
      vi.advanceTimersByTime(500);
    });
    press('Test tone');
    expect(page.files()).toHaveLength(1);
    expect(screen.getByText(GOING)).toBeTruthy();
    cleanup();
    open(new Page({}, runOf(SET)));
    press('Test tone');
    expect(screen.getByText(NOT_ON)).toBeTruthy();
  });

  test('lets more than one screen sound', () => {
    const page = open(new Page());
    expect(box('More than one screen may sound').checked).toBe(false);
    tick('More than one screen may sound');
    expect(page.reports[page.reports.length - 1]).toEqual({ status: 'off', asked: true });
    act(() => page.deck.setState({ sound: { more: true, screens: [] } }));
    expect(box('More than one screen may sound').checked).toBe(true);
  });
});

describe('[sound] what sounds', () => {
  test.each([
    ['A softer tone for each further swimmer', 'followers'],
    ['Two notes on Stop and Resume', 'signs'],
    ['A pitch for each lane', 'pitches'],
  ] as const)('%s is chosen and given up', (name, choice) => {
    const page = open(new Page());
    expect(box(name).checked).toBe(false);
    tick(name);
    expect([page.state.choice[choice], box(name).checked]).toEqual([true, true]);
    tick(name);
    expect(page.state.choice[choice]).toBe(false);
  });

  test('lanes are silenced one by one, where there are several', () => {
    const page = open(new Page({}, runOf(SET)));
    press('Lane 2 sounds');
    expect(page.state.choice.muted).toEqual([2]);
    expect(button('Lane 2 silent').getAttribute('aria-pressed')).toBe('false');
    press('Lane 1 sounds');
    press('Lane 2 silent');
    expect(page.state.choice.muted).toEqual([1]);
    cleanup();
    open(new Page({}, runOf('lane 1\nSet\n4 x 50 @ 1:00')));
    expect(screen.queryByRole('button', { name: /^Lane/, hidden: true })).toBeNull();
    cleanup();
    open(new Page());
    expect(screen.queryByRole('button', { name: /^Lane/, hidden: true })).toBeNull();
  });
});

describe('[sound] where it comes out', () => {
  test('is kept awake where that is chosen', () => {
    const page = open(new Page());
    tick('Keep it awake between tones');
    expect(page.state.choice.outputs.own.keepAwake).toBe(true);
    expect(box('Keep it awake between tones').checked).toBe(true);
  });

  test('is sent earlier or later, up to three tenths of a second, in steps that can be heard', () => {
    const page = open(new Page());
    const name = 'Sent earlier or later';
    const { min, max, step } = slider(name);
    expect([min, max, step]).toEqual(['-300', '300', '10']);
    expect(slider(name).getAttribute('aria-valuetext')).toBe('as it comes');
    slide(name, -120);
    expect(page.state.choice.outputs.own.offset).toBe(-120);
    expect(slider(name).getAttribute('aria-valuetext')).toBe('120 ms earlier');
    slide(name, 80);
    expect(slider(name).getAttribute('aria-valuetext')).toBe('80 ms later');
  });

  test('flashes and beeps while that is wanted, at most until the panel is closed', () => {
    const page = open(new Page(ON, runOf(SET)));
    press('Flash and beep');
    expect(page.state.pulsing).toBe(true);
    expect(screen.getByText('Move the slider until you see the flash and hear the beep together.')).toBeTruthy();
    press('Flash and beep');
    expect(page.state.pulsing).toBe(false);
    press('Flash and beep');
    cleanup();
    expect(page.state.pulsing).toBe(false);
  });

  test('does not beep where the sound is off, and says why', () => {
    const page = open(new Page());
    press('Flash and beep');
    expect(page.state.pulsing).toBe(false);
    expect(screen.getByText(NOT_ON)).toBeTruthy();
  });
});
