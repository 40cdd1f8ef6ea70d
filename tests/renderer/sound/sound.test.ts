/*
 * The sound of a page: what switches it on and off, what it keeps, what it makes of its output and what it plays.
 */

import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { AudioOutput } from '../../../renderer/sound/output/howler-output.ts';
import { PLAIN_CHOICE, withOutput, writeChoice } from '../../../renderer/sound/sound-choice.ts';
import { openSound } from '../../../renderer/sound/sound.ts';
import { runOf } from '../../support/coach/coach-run.ts';
import { KEYS, Page } from './fake-page.ts';

const SET = 'lane 1\nlane 2\nSet\n4 x 50 @ 1:00/1:10';
const waiting = runOf(SET);
const going = runOf(SET, [0, { do: 'start' }]);

const ON = { [KEYS.on]: 'on' };
let window: EventTarget;

beforeEach(() => {
  window = new EventTarget();
  vi.stubGlobal('window', window);
});

afterEach(() => {
  vi.unstubAllGlobals();
});

describe('[sound] on and off', () => {
  test('off until it is switched on: no output is opened', () => {
    const page = new Page();
    page.pass();
    page.calls.get(50)!();
    expect([page.state.status, page.told]).toEqual(['off', []]);
  });

  test('switched on it opens the output, within the tap, tells the host that it was asked for, and is remembered', () => {
    const page = new Page();
    page.sound.turnOn();
    expect(page.told.filter((each) => /open|unlock/.test(each))).toEqual(['open 1', 'unlock']);
    expect(page.state.status).toBe('running');
    expect(page.reports.slice(1)).toEqual([
      { status: 'starting', asked: true },
      { status: 'running', asked: false },
    ]);
    expect(page.kept.get(KEYS.on)).toBe('on');
  });

  test('switched off it is silent at once, dozes, and stays off the next time', () => {
    const page = new Page(ON, going);
    page.t = 8_500;
    page.pass();
    expect(page.files()).toEqual(['pip 5500', 'leave 6500']);
    page.sound.turnOff();
    expect([page.state.status, page.files(), page.kept.get(KEYS.on)]).toEqual(['off', [], 'off']);
    expect(page.told[page.told.length - 1]).toBe('keep awake false');
    expect(page.count('unlock')).toBe(0);
    expect(page.reports[page.reports.length - 1]).toEqual({ status: 'off', asked: false });
  });

  test('is on again where this screen remembers it', () => {
    expect([new Page(ON).state.status, new Page({ [KEYS.on]: 'off' }).state.status]).toEqual(['running', 'off']);
  });

  test('gives way to another screen, says so, and is asked for again by its own button', () => {
    const page = new Page(ON);
    const told = { id: page.sound.id, screen: 'wall', status: 'running', on: false } as const;
    const n = page.reports.length;
    page.deck.setState({ sound: { more: null, screens: [{ ...told, n }] } });
    expect([page.state.status, page.state.yielded]).toEqual(['off', true]);
    // The next time this screen is opened it may be the one that sounds.
    expect(page.kept.get(KEYS.on)).toBe('on');
    page.sound.turnOn();
    expect([page.state.status, page.state.yielded]).toEqual(['running', false]);
  });

  test('works where the browser keeps nothing', () => {
    const page = new Page();
    const sound = openSound({ ...page.sound.link }, null, {
      now: () => 0,
      every: () => undefined,
      isHidden: () => false,
      onHidden: () => undefined,
      openOutput: () => ({ state: () => 'running' }) as unknown as AudioOutput,
    });
    expect(() => sound.setVolume(0.5)).not.toThrow();
    expect([sound.store.getState().volume, sound.store.getState().status]).toEqual([0.5, 'off']);
    sound.turnOff();
    sound.choose({ pitches: true });
    expect(sound.store.getState().choice.pitches).toBe(true);
  });

  test('has a name of 128 bits of chance', () => {
    const [first, second] = [new Page().sound.id, new Page().sound.id];
    expect(first).toMatch(/^[0-9a-f]{32}$/);
    expect(second).not.toBe(first);
  });
});

describe('[sound] a browser that wants a tap', () => {
  test.each(['pointerup', 'keydown', 'touchend'])('is unlocked by the next %s', (gesture) => {
    const page = new Page(ON);
    page.output = 'blocked';
    page.pass();
    window.dispatchEvent(new Event(gesture));
    expect(page.count('unlock')).toBe(1);
  });

  test('and by none where the sound is off or runs already', () => {
    const page = new Page(ON);
    window.dispatchEvent(new Event('pointerup'));
    page.output = 'blocked';
    page.pass();
    page.sound.turnOff();
    window.dispatchEvent(new Event('pointerup'));
    expect(page.count('unlock')).toBe(0);
  });
});

describe('[sound] the output', () => {
  test('is told to the host whenever it stands otherwise, once', () => {
    const page = new Page(ON);
    page.output = 'starting';
    page.pass();
    page.pass();
    expect(page.reports.slice(-1)).toEqual([{ status: 'starting', asked: false }]);
    expect(page.state.status).toBe('starting');
    page.output = 'running';
    page.pass();
    expect(page.reports.slice(-2)).toEqual([
      { status: 'starting', asked: false },
      { status: 'running', asked: false },
    ]);
  });

  test('that is gone is tried anew at once, and then every five seconds', () => {
    const page = new Page(ON, going);
    page.t = 8_500;
    page.pass();
    page.output = 'gone';
    page.pass();
    expect([page.count('renew'), page.files(), page.state.status]).toEqual([1, [], 'gone']);
    page.now += 5000;
    page.pass();
    expect(page.count('renew')).toBe(1);
    page.now += 1;
    page.pass();
    expect(page.count('renew')).toBe(2);
  });

  test('has its clock looked at between passes, and what is scheduled put right', () => {
    const page = new Page(ON, going);
    page.t = 9_500;
    page.pass();
    page.told.length = 0;
    page.now = 5050;
    page.calls.get(50)!();
    expect(page.told).toEqual(['look 5050', 'retime 5500']);
  });

  test('is opened as loud as this screen remembers; what cannot be a volume is full', () => {
    const opened = (volume?: string): string | undefined =>
      new Page(volume === undefined ? ON : { ...ON, [KEYS.volume]: volume }).told[0];
    expect(['0', '0.4', '1', '1.5', '-0.1', 'loud', undefined].map(opened)).toEqual([
      'open 0',
      'open 0.4',
      'open 1',
      'open 1',
      'open 1',
      'open 1',
      'open 1',
    ]);
  });

  test('is made louder or softer, between silence and full, and that is kept', () => {
    const page = new Page(ON);
    for (const volume of [0.3, 1.2, -1]) {
      page.sound.setVolume(volume);
      const to = Math.min(1, Math.max(0, volume));
      expect([page.told[page.told.length - 1], page.state.volume, page.kept.get(KEYS.volume)]).toEqual([
        `volume ${to}`,
        to,
        `${to}`,
      ]);
    }
    const off = new Page();
    off.sound.setVolume(0.3);
    expect(off.state.volume).toBe(0.3);
  });

  test('has the pitches where they are chosen, and is kept awake where that is', () => {
    const page = new Page(ON);
    expect([page.count('pitches'), page.told[page.told.length - 1]]).toEqual([0, 'keep awake false']);
    page.sound.choose({ ...withOutput(page.state.choice, { keepAwake: true }), pitches: true });
    expect([page.count('pitches'), page.told[page.told.length - 1]]).toEqual([1, 'keep awake true']);
    expect(page.kept.get(KEYS.choice)).toBe(writeChoice(page.state.choice));
  });
});

describe('[sound] what is played', () => {
  test('is the run’s next two seconds, of a hidden page its next minute', () => {
    const page = new Page(ON, going);
    page.t = 69_000;
    page.pass();
    expect(page.files()).toEqual(['leave 6000']);
    page.hide(true);
    expect(page.files()).toEqual(['leave 6000', 'leave 16000', 'leave 66000']);
  });

  test('follows what was kept of the choice, the way’s delay among it', () => {
    const choice = withOutput({ ...PLAIN_CHOICE, pips: 'never' }, { offset: -200 });
    const page = new Page({ ...ON, [KEYS.choice]: writeChoice(choice) }, going);
    page.t = 8_500;
    page.pass();
    expect(page.files()).toEqual(['leave 6300']);
  });

  test('is a pitch a lane where that is chosen', () => {
    const page = new Page({ ...ON, [KEYS.choice]: writeChoice({ ...PLAIN_CHOICE, pitches: true }) }, going);
    page.t = 69_000;
    page.pass();
    expect(page.files()).toEqual(['leave-1 6000']);
  });

  test('is nothing without a run, without a clock to trust, or before the output runs', () => {
    const page = new Page(ON, going);
    page.t = 69_000;
    const sounds = [
      () => (page.output = 'starting'),
      () => ((page.output = 'running'), (page.t = null)),
      () => ((page.t = 69_000), page.follow(null)),
    ].map((change) => {
      change();
      page.pass();
      return page.files();
    });
    expect(sounds).toEqual([[], [], []]);
    page.follow(going);
    expect(page.files()).toEqual(['leave 6000']);
  });

  test('is told to the page, cue by cue, as it is scheduled and taken back', () => {
    const told: string[] = [];
    for (const what of ['scheduled', 'cancelled']) {
      window.addEventListener(`lanecall:cue-${what}`, (event) => {
        const { key, heardAt } = (event as CustomEvent<{ key: string; heardAt: number }>).detail;
        told.push(`${what} ${key} ${heardAt}`);
      });
    }
    const page = new Page(ON, going);
    page.t = 69_000;
    page.pass();
    page.sound.turnOff();
    expect(told).toEqual(['scheduled leave 70000 6000', 'cancelled leave 70000 6000']);
  });
});

describe('[sound] the test tone', () => {
  test('is the tone of a leave, as soon as nearly all devices can', () => {
    const page = new Page(ON, waiting);
    page.sound.test();
    expect(page.files()).toEqual(['leave 5400']);
  });

  test('would be taken for a leave while a session is going, and is nothing where the sound does not run', () => {
    const page = new Page(ON, going);
    page.t = 30_000;
    expect(page.sound.isGoing()).toBe(true);
    page.sound.test();
    const off = new Page({}, waiting);
    off.sound.test();
    expect([page.files(), off.files()]).toEqual([[], []]);
  });

  test('a session goes from its start to its end, as far as its clock is known', () => {
    const page = new Page(ON, going);
    const goes = [0, 500_000, null].map((t) => {
      page.t = t;
      return page.sound.isGoing();
    });
    page.t = 0;
    page.follow(waiting);
    goes.push(page.sound.isGoing());
    page.follow(null);
    goes.push(page.sound.isGoing());
    expect(goes).toEqual([true, false, false, false, false]);
  });
});

describe('[sound] the pulse of the settings', () => {
  test('beeps at whole seconds while it is wanted, and ends with the sound', () => {
    const page = new Page(ON, waiting);
    page.now = 5100;
    page.sound.setPulsing(true);
    expect([page.state.pulsing, page.files()]).toEqual([true, ['pip 6000', 'pip 7000']]);
    page.sound.setPulsing(false);
    expect([page.state.pulsing, page.files()]).toEqual([false, []]);
    page.sound.setPulsing(true);
    page.sound.turnOff();
    expect([page.state.pulsing, page.files()]).toEqual([false, []]);
    page.sound.setPulsing(true);
    expect(page.state.pulsing).toBe(false);
  });

  test('beeps only where the sound runs, and is put right by the device’s clock', () => {
    const page = new Page(ON, waiting);
    page.now = 5100;
    page.sound.setPulsing(true);
    page.told.length = 0;
    page.calls.get(50)!();
    expect(page.told).toEqual(['look 5100', 'retime 6000', 'retime 7000']);
    page.output = 'starting';
    page.pass();
    expect(page.files()).toEqual([]);
  });

  test('ends where a session begins: a beep would be taken for a leave', () => {
    const page = new Page(ON, waiting);
    page.now = 5100;
    page.sound.setPulsing(true);
    page.follow(going);
    expect([page.state.pulsing, page.files()]).toEqual([false, []]);
  });
});

test('[sound] whether more than one screen may sound is told to the host', () => {
  const page = new Page(ON);
  page.sound.allowMore(true);
  expect(page.reports[page.reports.length - 1]).toEqual({ status: 'running', asked: true });
});
