/*
 * An evening on which everything happens, walked through on the pages in a minute: the coach's window,
 * the wall screen and a phone of the network stay open all the time, every command is pressed on a button found by
 * its name, some of them on the phone, and what each lane was shown just before each of its leaves is held against the
 * record. In the middle of the main set the host is killed, and started again after swimmers have left meanwhile.
 */

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { rehearsal } from '../../app/cli/rehearse.ts';
import { readScript, type ScriptLine } from '../../app/cli/script.ts';
import type { Command } from '../../app/core/run/command/command.ts';
import { readCommand } from '../../app/core/run/command/read-command.ts';
import { reading, readingLeft } from '../../app/core/words/time/reading.ts';
import { leavesOf, type Leave } from '../../app/core/run/record.ts';
import { settle } from '../../app/core/run/settle.ts';
import { view } from '../../app/core/run/view.ts';
import { HOUR, SECOND, type Millis } from '../../app/core/units.ts';
import { BOUNCE_TIME } from '../../renderer/ui/coach/commands/bounce.ts';
import { launched } from '../support/system/launched.ts';
import { button, giveByHand, giveByThumb, looksAfterAll } from '../support/coach/coach-hand.ts';
import { planOf } from '../support/run/deck.ts';
import { wronglyCalled } from '../support/sound/called-leaves.ts';
import { MortalDeck } from '../support/host/deck/mortal-deck.ts';
import { writeOn } from '../support/coach/write-window/written-page.ts';

const folder = new URL('../cases/eventful-evening/', import.meta.url);
const SESSION = readFileSync(fileURLToPath(new URL('session.txt', folder)), 'utf8');

/** The round is cut in the outline; the 75 by the offer that brings the hour back. */
const OUTLINE: { readonly [line: number]: RegExp } = { 22: /^3 rounds/ };

/** Screens are looked at between a leave and the one before: at most so long before it, in ms, the clock is moved to. */
const BEFORE = 8000;
/** The least of that which is left where the leave before has just passed, in ms. */
const AFTER = 100;

/** The host dies before the next leave after this, since 19:30: in the main set, every lane under way. */
const DEATH: Millis = 1_700_000;

/** What the coach gives on the phone, by the times of the script; a stop and a resume of all lanes after the host has come back. */
const ON_PHONE: readonly Millis[] = [328_000, 343_000, 1_070_000, 1_599_000, 1_603_000, 1_860_000, 2_106_000];

/** A busy machine is slow, not wrong: how long is waited for what does not hang on a time of the run, in ms. */
const SLOW = 15_000;

/** Longer than two taps in one place are one double tap for a browser, in ms. */
const DOUBLE_TAP = 600;

/** Before this command the coach skips a rep on the phone, and thinks again. */
const SECOND_THOUGHTS: Millis = 1_070_000;

interface Shown {
  readonly clock: string;
  /** The text of the next leave, by lane; of those that show one. */
  readonly leaves: { readonly [lane: string]: string };
}

let browser: Browser;
let deck: MortalDeck;
let coach: Page;
let wall: Page;
let phone: Page;
/** The run's time of the leave that was looked at last, in ms. */
let lastLeave: Millis = 0;
/** Leaves that fell due while the host was dead. */
const uncalled: string[] = [];
/** The same as the coach is told of them. */
let uncalledText = '';
/** What was shown as a lane's next leave just before a leave, with what its clock shows then, by lane and time. */
const observed = new Map<string, { readonly shown: string | undefined; readonly reading: string }>();

beforeAll(async () => {
  browser = await launched();
  deck = await MortalDeck.start();
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  wall = await deck.openPage(context, '/display');
  coach = await deck.openPage(context, '/');
});

afterAll(async () => {
  await browser?.close();
  await deck?.kill();
});

test('[crash] an eventful evening with a host that dies in it: every lane was shown each of its leaves as it happened, and nobody had to reload', async () => {
  await open();
  await letPhoneIn();
  for (const line of commands()) await carryOut(line);
  await coach.getByRole('heading', { name: /: done$/ }).waitFor();
  await wall.getByRole('heading', { name: 'Session done' }).waitFor();

  const missed = coach.getByRole('region', { name: 'Not called', exact: true }).getByRole('listitem');
  expect(await missed.allTextContents()).toEqual([expect.stringMatching(/^19:58:\d\d to 19:58:\d\d lane/)]);
  expect(await missed.allTextContents()).toEqual([expect.stringContaining(uncalledText)]);

  const record = leavesOf(deck.run().state);
  expect([...observed.keys()].sort()).toEqual(record.map(nameOf).sort());
  for (const [leave, { shown, reading: wanted }] of observed) expect(`${leave}: ${shown}`).toBe(`${leave}: ${wanted}`);
  expect(record.map(placeOf)).toEqual(rehearsed());
  expect(uncalled.length, 'leaves that fell due while the host was dead').toBeGreaterThan(0);
  const called = record.filter((leave) => !uncalled.includes(nameOf(leave)));
  expect(wronglyCalled('host', called, deck.handedOver())).toEqual([]);
  const onPhone = ['stop', 'resume', 'skip', 'undo', 'stop', 'move-on', 'undo', 'stop', 'resume'];
  expect(deck.givenOn('Remote 1')).toEqual(onPhone);
  expect(deck.complaints).toEqual([]);
  expect([...deck.loads.values()]).toEqual([1, 1, 1]);
}, 180_000);

async function open(): Promise<void> {
  await writeOn(coach, SESSION);
  await button(coach, 'Run this session').click();
  await button(coach, 'Start').waitFor();
  await expect.poll(() => deck.hasRun()).toBe(true);
  // The clock of the run never starts anew: by it one sees that the window has followed.
  await coach.getByRole('combobox', { name: 'Which clock' }).selectOption('since opening');
}

/** By the letters of the code, as where a camera cannot read it. */
async function letPhoneIn(): Promise<void> {
  await button(coach, 'Screens').click();
  await button(coach, 'Share with other screens').click();
  const network = await coach.getByText(/^http:\/\/[\d.]+:\d+\/$/).innerText();
  await button(coach, 'Let a phone in').click();
  const letters = await coach.getByText(/^[0-9A-Z]{5}( [0-9A-Z]{5}){3}$/).innerText();
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true });
  phone = await deck.openPage(context, 'remote', network);
  await phone.getByLabel('The 20 characters').fill(letters);
  await button(phone, 'Join').tap();
  await expect.poll(phoneShows).toBe('waits');
  await button(coach, 'Screens').click();
}

function commands(): readonly ScriptLine[] {
  const script = readScript(readFileSync(fileURLToPath(new URL('script.jsonl', folder)), 'utf8'));
  if (!script.ok) throw new Error(JSON.stringify(script.faults));
  return script.value;
}

/** Lets the evening go on to a command of the script, looking at every leave until then, and gives it. */
async function carryOut({ atMs, fields }: ScriptLine): Promise<void> {
  const command = readCommand(fields);
  if (!command.ok) throw new Error(command.faults);
  const until = atMs - sinceHalfPastSeven();
  for (const leaves of leavesTo(until)) {
    await lookAt(leaves);
    if (uncalled.length === 0 && leaves[0]!.at > DEATH - sinceHalfPastSeven()) await outlive(leaves);
  }
  deck.moveTo(until + deck.run().openedAt);
  await followed();
  if (atMs === SECOND_THOUGHTS) for (const name of ['skip', 'undo']) await give(named(name), phone);
  await give(command.value, ON_PHONE.includes(atMs) ? phone : coach);
}

function named(name: string): Command {
  const command = readCommand({ do: name });
  if (!command.ok) throw new Error(command.faults);
  return command.value;
}

/** Script and clock count from 19:30; the run was opened a moment later. */
function sinceHalfPastSeven(): Millis {
  return deck.run().openedAtTimeOfDay - 19.5 * HOUR;
}

/** Leaves to come up to a time of the run, those of one time together. */
function leavesTo(until: Millis): readonly (readonly Leave[])[] {
  const byTime = new Map<Millis, Leave[]>();
  for (const leave of leavesOf(settle(deck.run().state, until), runTime())) {
    byTime.set(leave.at, [...(byTime.get(leave.at) ?? []), leave]);
  }
  return [...byTime.values()];
}

function runTime(): Millis {
  return Math.floor(deck.now() - deck.run().openedAt);
}

/** Looks at the wall just before leaves of one time, and notes what their lanes were shown. */
async function lookAt(leaves: readonly Leave[]): Promise<void> {
  const { at } = leaves[0]!;
  const { openedAt, state } = deck.run();
  const from = Math.max(at - BEFORE, lastLeave + AFTER);
  deck.moveTo(openedAt + from);
  lastLeave = at;
  const { t0 } = settle(state, at);
  if (t0 === null) throw new Error('a leave without a start');
  const left = (): number => Math.ceil((at - runTime()) / SECOND);
  const isJustBefore = ({ clock }: Shown): boolean =>
    [0, 1].map((ago) => clockBefore(at - t0, left() + ago)).includes(clock);
  await expect.poll(async () => isJustBefore(await shownOnWall()), { timeout: BEFORE, interval: 20 }).toBe(true);
  const shown = await shownOnWall();
  const first = phone.getByLabel('Next leave');
  await expect.poll(() => first.textContent(), { timeout: BEFORE, interval: 20 }).toBe(reading(at - t0));
  expect(runTime(), 'looked at before the leave').toBeLessThan(at);
  for (const leave of leaves) {
    observed.set(nameOf(leave), { shown: shown.leaves[leave.lane], reading: reading(at - t0) });
  }
}

/**
 * The host dies before these leave and is started again when they have: the wall goes on by itself, every
 * page finds the host again, and the coach's window says what was not called.
 */
async function outlive(leaves: readonly Leave[]): Promise<void> {
  const { openedAt } = deck.run();
  await deck.kill();
  expect(runTime(), 'killed before the leave').toBeLessThan(leaves[0]!.at);
  uncalled.push(...leaves.map(nameOf));
  const { lane, at } = leaves[0]!;
  const shown = (await shownOnWall()).leaves[lane];
  await expect
    .poll(async () => (await shownOnWall()).leaves[lane], { timeout: BEFORE + SLOW, interval: 50 })
    .not.toBe(shown);
  expect(runTime(), 'shown as it happened').toBeGreaterThanOrEqual(at);
  await deck.revive();
  expect(Math.abs(deck.run().openedAt - openedAt), 'off its place, in ms').toBeLessThan(50);
  const notice = coach.getByRole('status').filter({ hasText: 'has come back' });
  await notice.waitFor({ timeout: SLOW });
  const told = (await notice.textContent()) ?? '';
  const named = leaves.map(
    ({ lane: number, rep: { distance, rep, words } }) => `lane ${number}: ${distance / 10} ${words}, rep ${rep}`,
  );
  uncalledText = named.join('; ');
  expect(told).toContain(`Not called in that time: ${uncalledText}.`);
  await button(coach, 'I have read it').click();
  await notice.waitFor({ state: 'detached' });
  await wall.getByRole('timer', { name: 'Clock' }).waitFor();
  await followed();
}

/** What the clock shows in the given second before a reading: in a countdown, the seconds left. */
function clockBefore(leave: Millis, seconds: number): string {
  const shown = leave - seconds * SECOND;
  return reading(shown < 0 ? seconds * SECOND : shown);
}

function shownOnWall(): Promise<Shown> {
  return wall.evaluate(() => {
    const text = (root: ParentNode, name: string): string | undefined => {
      const element = root.querySelector<HTMLElement>(`[aria-label="${name}"]`);
      return element && !element.hidden ? (element.textContent ?? undefined) : undefined;
    };
    const leaves: { [lane: string]: string } = {};
    for (const strip of document.querySelectorAll('[aria-label^="Lane "]')) {
      const leave = text(strip, 'Next leave');
      if (leave !== undefined) leaves[(strip.getAttribute('aria-label') ?? '').slice(5)] = leave;
    }
    return { clock: text(document, 'Clock') ?? '', leaves };
  });
}

/** Waits until a screen's clock shows the time that it is for the host, in ms since `zero`. */
async function followed(page = coach, zero = 0): Promise<void> {
  const clock = page.getByRole('timer', { name: 'Clock' });
  const now = (): string[] => [0, 1].map((ago) => reading(Math.floor((runTime() - zero) / SECOND - ago) * SECOND));
  await expect
    .poll(async () => now().includes((await clock.textContent()) ?? ''), { timeout: SLOW, interval: 20 })
    .toBe(true);
}

/** Gives a command by hand, and waits until the host has accepted it and every screen shows so. */
async function give(command: Command, on = coach): Promise<void> {
  const before = deck.run().commands.length;
  // The evening was moved on, the page's own time was not: the same press at once would be taken for a bounce.
  const last = deck.run().commands.slice(-3);
  const again = last.some((given) => JSON.stringify(given.command) === JSON.stringify(command));
  if (again) await coach.waitForTimeout(BOUNCE_TIME);
  if (on === phone) await tapped(command);
  else
    await giveByHand(coach, command, {
      swimmers: (lane) => deck.run().state.lanes.find(({ number }) => number === lane)?.swimmers ?? 0,
      outlineName: (line) => OUTLINE[line] ?? null,
    });
  await expect.poll(() => deck.run().commands.length, { timeout: SLOW, interval: 20 }).toBe(before + 1);
  expect(deck.run().commands[before]!.command).toEqual(command);
  if (on !== phone) return;
  await shownOnPhone(laneOf(command));
  await looksAfterAll(phone);
}

async function tapped(command: Command): Promise<void> {
  await shownOnPhone();
  if (command.do === 'resume') {
    // While all lanes stand nothing else tells that the phone has followed.
    await followed(phone, settle(deck.run().state, runTime()).t0 ?? 0);
    // Minutes of the evening pass in less: the browser would count it as the second tap of a double tap on Stop.
    await phone.waitForTimeout(DOUBLE_TAP);
  }
  await giveByThumb(phone, command);
}

function laneOf(command: Command): number | undefined {
  return 'lanes' in command ? command.lanes?.[0] : undefined;
}

/** What the phone says is next. */
function phoneShows(): Promise<string | null> {
  return phone.getByLabel('Next leave').textContent();
}

/** Waits until the phone says what the host has as next. */
async function shownOnPhone(lane?: number): Promise<void> {
  const isTrue = async (): Promise<boolean> => (await phoneShows()) === nextByHost(lane);
  await expect.poll(isTrue, { timeout: SLOW, interval: 20 }).toBe(true);
}

/** Of one lane, or the first of all; in a break, the time left of it. */
function nextByHost(lane?: number): string {
  const { phase, lanes, pauseEnd, t } = view(deck.run().state, runTime());
  if (phase === 'waiting') return 'waits';
  if (pauseEnd !== null) return readingLeft(pauseEnd - t);
  const pending = lanes.filter(({ number, state }) => state === 'pending' && (lane === undefined || number === lane));
  const first = Math.min(...pending.map(({ next }) => next?.at ?? Infinity));
  return first === Infinity ? 'stopped' : reading(first - (settle(deck.run().state, runTime()).t0 ?? 0));
}

/** A leave by its lane and time. */
function nameOf({ lane, at }: Leave): string {
  return `lane ${lane} at ${at}`;
}

/** The same leaves by the time of day, in words that a rehearsal has too. */
function placeOf({ lane, at, rep }: Leave): string {
  return `lane ${lane}, line ${rep.set.line}, rep ${rep.rep}: ${at + sinceHalfPastSeven()}`;
}

/** What the same script comes to in no time. */
function rehearsed(): readonly string[] {
  const { leaves } = rehearsal(planOf(SESSION), 0, commands());
  return leaves.map(({ lane, line, rep, atMs }) => `lane ${lane}, line ${line}, rep ${rep}: ${atMs}`);
}
