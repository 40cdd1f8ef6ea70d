/*
 * The output on howler's context, with howler, the browser's contexts and the files handed in.
 */

import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { openHowler, type AudioOutput } from '../../../../renderer/sound/output/howler-output.ts';
import { FakeContext } from '../fake-context.ts';

const howler = vi.hoisted(() => {
  const Howler = {
    ctx: null as unknown,
    masterGain: null as unknown as { gain: { value: number } },
    autoSuspend: true,
    autoUnlock: true,
    loud: 1,
    unloads: 0,
    /** Makes howler's own context. */
    open: () => undefined as unknown,
    unload(): void {
      Howler.unloads++;
      Howler.ctx = null;
    },
    volume(to?: number): number {
      if (to === undefined) return Howler.loud;
      Howler.loud = to;
      Howler.ctx ??= Howler.open();
      return to;
    },
  };
  return { Howler };
});

vi.mock('howler', () => howler);

const { Howler } = howler;

/** What the files hold; by default their own names. */
let files: (url: string) => Promise<Response>;
let fetched: string[];

const named = (url: string): Promise<Response> => Promise.resolve(new Response(url.replace(/.*\/|\.wav.*/g, '')));

beforeEach(() => {
  FakeContext.all = [];
  FakeContext.callsBack = false;
  Object.assign(Howler, { ctx: null, loud: 1, unloads: 0, autoSuspend: true, autoUnlock: true });
  Howler.open = () => new FakeContext();
  files = named;
  fetched = [];
  vi.stubGlobal('AudioContext', FakeContext);
  vi.stubGlobal('navigator', {});
  vi.stubGlobal('fetch', (url: string) => {
    fetched.push(url.replace(/.*\/|\.wav.*/g, ''));
    return files(url);
  });
});

afterEach(() => {
  vi.unstubAllGlobals();
});

const settled = async (): Promise<void> => {
  for (let turn = 0; turn < 20; turn++) await Promise.resolve();
};

/** The context in use. */
const inUse = (): FakeContext => Howler.ctx as FakeContext;

/** Looks often enough that the two clocks are known; the page's and the context's go on together. */
function look(output: AudioOutput, times = 4): void {
  for (let time = 0; time < times; time++) {
    inUse().pass(50);
    output.look(inUse().heardAt);
    output.state(inUse().heardAt);
  }
}

/** An output that plays: the page's clock shows 5000 ms where the context's begins. */
async function playing(): Promise<AudioOutput> {
  const output = openHowler(0.8);
  inUse().heardAt = 5000;
  await settled();
  look(output);
  return output;
}

describe('[sound] the context', () => {
  test('has longer buffers than howler’s own, which is closed, and its volume', () => {
    openHowler(0.6);
    const [short, long] = FakeContext.all;
    expect([short!.closes, long!.closes]).toEqual([1, 0]);
    expect(long!.options).toEqual({ latencyHint: 0.08 });
    expect(Howler.ctx).toBe(long);
    expect([Howler.masterGain.gain.value, Howler.loud]).toEqual([0.6, 0.6]);
  });

  test('is neither put to sleep in silence nor unlocked by howler', () => {
    openHowler(1);
    expect([Howler.autoSuspend, Howler.autoUnlock]).toEqual([false, false]);
  });

  test('stays howler’s where the browser gives no other', () => {
    vi.stubGlobal('AudioContext', undefined);
    openHowler(1);
    expect(FakeContext.all).toHaveLength(1);
    expect(Howler.ctx).toBe(FakeContext.all[0]);
    expect(FakeContext.all[0]!.closes).toBe(0);
  });

  test('is missing where the browser has no Web Audio: nothing is opened, played or thrown', () => {
    Howler.open = () => undefined;
    const output = openHowler(1);
    output.look(5000);
    output.unlock();
    output.loadPitches();
    output.renew();
    const sound = output.schedule({ file: 'leave', gain: 1 }, 6000);
    sound.retime(6001);
    sound.release();
    sound.cancel();
    expect([output.state(5000), fetched, FakeContext.all.length]).toEqual(['missing', [], 0]);
  });
});

describe('[sound] how the output stands', () => {
  test('starts until its sounds are there and its clock is known, then runs', async () => {
    const output = openHowler(1);
    inUse().heardAt = 5000;
    look(output);
    expect(output.state(inUse().heardAt)).toBe('starting');
    await settled();
    expect(output.state(inUse().heardAt)).toBe('running');
    expect(fetched).toEqual(['leave', 'pip', 'stop', 'resume']);
  });

  test('starts while its clock is not known, though its sounds are there', async () => {
    const output = openHowler(1);
    inUse().heardAt = 5000;
    await settled();
    expect(output.state(5000)).toBe('starting');
    look(output, 2);
    expect(output.state(inUse().heardAt)).toBe('starting');
    look(output, 2);
    expect(output.state(inUse().heardAt)).toBe('running');
  });

  test.each<[string, (url: string) => Promise<Response>]>([
    ['does not come', (url) => (url.includes('pip') ? Promise.reject(new Error('gone')) : named(url))],
    ['cannot be read', (url) => (url.includes('pip') ? Promise.resolve(new Response('broken')) : named(url))],
  ])('starts for good where a sound %s', async (_, given) => {
    for (const callsBack of [false, true]) {
      FakeContext.callsBack = callsBack;
      files = given;
      expect((await playing()).state(inUse().heardAt)).toBe('starting');
    }
  });

  test('reads its sounds in old browsers, which call back and give no promise', async () => {
    FakeContext.callsBack = true;
    expect((await playing()).state(inUse().heardAt)).toBe('running');
  });

  test('is blocked until a tap, in which the context is resumed', async () => {
    const output = openHowler(1);
    inUse().state = 'suspended';
    await settled();
    expect([output.state(0), inUse().resumes]).toEqual(['blocked', 0]);
    output.unlock();
    expect(inUse().resumes).toBe(1);
  });

  test('tries by itself to go on where it ran before, and takes no look at a clock that stands', async () => {
    const output = await playing();
    inUse().state = 'interrupted';
    expect([output.state(inUse().heardAt), inUse().resumes]).toEqual(['blocked', 1]);
  });

  test('is gone with its device: an error, a closed context, or a clock that stands for more than two seconds', async () => {
    const failed = await playing();
    inUse().fail();
    expect(failed.state(inUse().heardAt)).toBe('gone');
    const closed = await playing();
    inUse().state = 'closed';
    expect(closed.state(inUse().heardAt)).toBe('gone');
    const still = await playing();
    const now = inUse().heardAt;
    expect([still.state(now + 2000), still.state(now + 2001)]).toEqual(['running', 'gone']);
  });

  test('is gone where the last loudspeaker is, and stays so until it is renewed', async () => {
    let kinds = ['audiooutput'];
    const enumerateDevices = () => Promise.resolve(kinds.map((kind) => ({ kind })));
    vi.stubGlobal('navigator', { mediaDevices: { enumerateDevices } });
    const output = await playing();
    kinds = [];
    inUse().pass(1000);
    output.look(inUse().heardAt);
    await settled();
    expect(output.state(inUse().heardAt)).toBe('gone');
    kinds = ['audiooutput'];
    inUse().pass(1000);
    output.look(inUse().heardAt);
    await settled();
    expect(output.state(inUse().heardAt)).toBe('gone');
    output.renew();
    expect(output.state(0)).toBe('starting');
  });

  test('renewed, it is a new context with the volume and the sounds, the pitches among them; the old one’s errors are not its', async () => {
    const output = await playing();
    const old = inUse();
    output.setVolume(0.3);
    output.loadPitches();
    fetched = [];
    output.renew();
    expect(Howler.unloads).toBe(1);
    expect(inUse()).not.toBe(old);
    expect(Howler.masterGain.gain.value).toBe(0.3);
    expect(fetched).toHaveLength(10);
    old.fail();
    inUse().heardAt = 9000;
    await settled();
    look(output);
    expect(output.state(inUse().heardAt)).toBe('running');
  });

  test('the pitches are loaded when they are wanted, once', async () => {
    const output = await playing();
    fetched = [];
    output.loadPitches();
    output.loadPitches();
    expect(fetched).toEqual([1, 2, 3, 4, 5, 6].map((lane) => `leave-${lane}`));
  });
});

describe('[sound] a sound', () => {
  test('begins when it is to be heard, by the device’s clock, as loud as it is to be', async () => {
    const output = await playing();
    output.schedule({ file: 'pip', gain: 0.32 }, 6000);
    expect(inUse().begun).toMatchObject([{ buffer: 'pip', gain: 0.32, connected: true, stopsAt: null }]);
    expect(inUse().begun[0]!.startsAt).toBeCloseTo(1, 9);
  });

  test('of a pitch that has not come is the usual tone', async () => {
    const output = await playing();
    output.schedule({ file: 'leave-3', gain: 1 }, 6000);
    output.loadPitches();
    await settled();
    output.schedule({ file: 'leave-3', gain: 1 }, 6000);
    expect(inUse().begun.map(({ buffer }) => buffer)).toEqual(['leave', 'leave-3']);
  });

  test('that could only begin late begins at once, up to 60 ms; later than that it is not begun', async () => {
    const output = await playing();
    const { currentTime, heardAt } = inUse();
    output.schedule({ file: 'leave', gain: 1 }, heardAt - 59);
    const late = output.schedule({ file: 'leave', gain: 1 }, heardAt - 61);
    expect(inUse().begun.map(({ startsAt }) => startsAt)).toEqual([currentTime]);
    expect(() => late.cancel()).not.toThrow();
  });

  test('before the clocks are known is not begun', async () => {
    const output = openHowler(1);
    await settled();
    output.schedule({ file: 'leave', gain: 1 }, 6000);
    expect(inUse().begun).toEqual([]);
  });

  test('taken back before its start is never heard', async () => {
    const output = await playing();
    output.schedule({ file: 'leave', gain: 1 }, 6000).cancel();
    expect(inUse().begun).toMatchObject([{ stopsAt: 0, connected: false, fadesAt: null }]);
  });

  test('taken back while it sounds fades out, so that it does not click', async () => {
    const output = await playing();
    const sound = output.schedule({ file: 'leave', gain: 1 }, 6000);
    inUse().pass(1000);
    sound.cancel();
    const { currentTime, begun } = inUse();
    expect(begun[0]).toMatchObject({ fadesAt: currentTime, connected: true });
    expect(begun[0]!.stopsAt! - currentTime).toBeCloseTo(0.025, 9);
  });

  test('that is over leaves nothing behind', async () => {
    const output = await playing();
    output.schedule({ file: 'leave', gain: 1 }, 6000);
    inUse().begun[0]!.ended();
    expect(inUse().begun[0]!.connected).toBe(false);
  });

  test('whose time is past sounds on where it has begun, and is not begun late where it has not', async () => {
    const output = await playing();
    const begun = output.schedule({ file: 'leave', gain: 1 }, 6000);
    inUse().pass(1000);
    begun.release();
    expect(inUse().begun[0]!.stopsAt).toBeNull();
    const slept = output.schedule({ file: 'leave', gain: 1 }, 7000);
    slept.release();
    expect(inUse().begun[1]!.stopsAt).toBe(0);
  });
});

describe('[sound] put right by the device’s clock', () => {
  /** A sound for 7000 ms on a device that then steps by so many ms. */
  async function stepped(ms: number) {
    const output = await playing();
    const sound = output.schedule({ file: 'leave', gain: 1 }, 7000);
    inUse().currentTime += ms / 1000;
    look(output, 20);
    return { output, sound, begun: () => inUse().begun };
  }

  test('a sound is moved where its device has stepped', async () => {
    const { sound, begun } = await stepped(30);
    sound.retime(7000);
    expect(begun()).toHaveLength(2);
    expect(begun()[0]!.stopsAt).toBe(0);
    expect(begun()[1]!.startsAt - begun()[0]!.startsAt).toBeCloseTo(0.03, 9);
    sound.cancel();
    expect(begun()[1]!.stopsAt).toBe(0);
  });

  test('and left where it is off by less than the clocks tremble', async () => {
    const { sound, begun } = await stepped(0);
    sound.retime(7000.19);
    expect(begun()).toHaveLength(1);
    sound.retime(7000.21);
    expect(begun()).toHaveLength(2);
  });

  test('and left alone shortly before its start: it may be rendered this very moment', async () => {
    const output = await playing();
    const sound = output.schedule({ file: 'leave', gain: 1 }, 7000);
    // 20 ms and a buffer of 80 ms.
    inUse().pass(7000 - inUse().heardAt - 99);
    sound.retime(7010);
    expect(inUse().begun).toHaveLength(1);
    inUse().pass(-2);
    sound.retime(7010);
    expect(inUse().begun).toHaveLength(2);
  });

  test('and left where the clocks of a new context are not known yet', async () => {
    const output = await playing();
    const old = inUse();
    const sound = output.schedule({ file: 'leave', gain: 1 }, 7000);
    output.renew();
    sound.retime(7010);
    expect(old.begun).toHaveLength(1);
  });
});

test('[sound] the tone that keeps loudspeakers awake sounds where it is wanted, and goes over to a new context', async () => {
  const output = await playing();
  const tones: string[] = [];
  const oscillator = (name: string) => () => ({
    frequency: { value: 0 },
    connect: () => undefined,
    start: () => void tones.push(`${name} starts`),
    stop: () => void tones.push(`${name} stops`),
  });
  Object.assign(inUse(), { createOscillator: oscillator('first') });
  output.keepAwake(true);
  const wanted = vi.fn(function (this: FakeContext) {
    return oscillator('second')();
  });
  Object.assign(FakeContext.prototype, { createOscillator: wanted });
  output.renew();
  expect(tones).toEqual(['first starts', 'first stops', 'second starts']);
  output.keepAwake(false);
  expect(tones[3]).toBe('second stops');
});
