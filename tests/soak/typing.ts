/*
 * A coach types into the window in a real browser, and the host is killed in the middle of it; every second time the browser
 * too, without a word to either. What was typed more than a second before has to be in the session's file, and in the window
 * that is opened afterwards; where the window lives on, all of it is in the file once a host is back.
 */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { chromium, type BrowserContext, type Page } from 'playwright';
import { browserPath } from '../support/system/browser.ts';
import { editorOn, textOn } from '../support/coach/write-window/written-page.ts';
import { freshDataFolder } from '../support/host/folders/data-folder.ts';
import { ServedHost } from '../support/host/served-host.ts';

const WORDS = 'steady fast easy kick pull drill build choice free back breast fly turns starts paddles buoy'.split(' ');

/** In ms: what was typed longer ago may not be lost. */
const PROMISED = 1000;

/** In ms: a host that is back has to have it all by then. */
const CAUGHT_UP = 5000;

/** What was typed, and when each of its letters was. */
class Typed {
  text = '';
  readonly times: number[] = [];

  type(letter: string): void {
    this.text += letter;
    this.times.push(Date.now());
  }

  /** All that is older than a time. */
  before(time: number): string {
    const count = this.times.findIndex((each) => each > time);
    return count < 0 ? this.text : this.text.slice(0, count);
  }

  /** How long before a time the first letter was typed that a text lacks, in ms; 0 for none. */
  lack(text: string, time: number): number {
    const first = this.times[text.length];
    return first === undefined ? 0 : Math.max(0, time - first);
  }
}

export async function soakTyping(seed: number, kills: number): Promise<readonly string[]> {
  const wrong: string[] = [];
  let longest = 0;
  for (let n = 0; n < kills; n++) {
    const trial = await typeAndKill(seed * 1000 + n, n % 2 === 1);
    wrong.push(...trial.wrong.map((each) => `typing, kill ${n + 1}: ${each}`));
    longest = Math.max(longest, trial.lost);
  }
  if (kills > 0) {
    process.stdout.write(
      `typing: ${kills} kills from seed ${seed}, every second one of the browser too; the first letter that the file ` +
        `lacked was typed at most ${longest} ms before\n`,
    );
  }
  return wrong;
}

interface Trial {
  readonly wrong: readonly string[];
  readonly lost: number;
}

async function typeAndKill(seed: number, alsoBrowser: boolean): Promise<Trial> {
  const data = freshDataFolder();
  const profile = freshDataFolder();
  const first = await ServedHost.start(data);
  const { port } = new URL(first.origin);
  const coach = await openCoach(profile, first.origin);
  const typed = new Typed();
  const wrong: string[] = [];
  await coach.page.getByRole('button', { name: 'New session' }).click();
  await editorOn(coach.page).click();
  const killAfter = 1200 + ((seed * 7919) % 2800);
  const end = Date.now() + killAfter;
  await typeUntil(coach.page, typed, seed, end);
  first.child.kill('SIGKILL');
  if (alsoBrowser) killBrowserOf(profile);
  const killedAt = Date.now();
  const inFile = textIn(data);
  const lost = typed.lack(inFile, killedAt);
  const promised = typed.before(killedAt - PROMISED);
  if (!typed.text.startsWith(inFile)) wrong.push(`the file has what nobody typed: ${inFile.slice(-60)}`);
  if (inFile.length < promised.length) wrong.push(`the file lacks ${promised.length - inFile.length} letters`);
  if (!alsoBrowser) {
    await typeUntil(coach.page, typed, seed + 1, Date.now() + 700);
    // Whatever was typed is older than what may be lost by then.
    await pause(PROMISED);
  }
  await coach.context.close().catch(() => undefined);
  const second = await ServedHost.start(data, { port: Number(port) });
  const again = await openCoach(profile, second.origin);
  await pause(500);
  const shown = await textOn(again.page);
  const wanted = alsoBrowser ? promised : typed.text;
  if (!typed.text.startsWith(shown)) wrong.push(`the window shows what nobody typed: ${shown.slice(-60)}`);
  if (shown.length < wanted.length) wrong.push(`the window lacks ${wanted.length - shown.length} letters`);
  const by = Date.now() + CAUGHT_UP;
  while (textIn(data).length < wanted.length && Date.now() < by) await pause(50);
  const caughtUp = textIn(data).length;
  if (caughtUp < wanted.length) wrong.push(`the file still lacks ${wanted.length - caughtUp} letters after 5 s`);
  await again.context.close();
  await second.kill();
  return { wrong, lost };
}

interface Coach {
  readonly context: BrowserContext;
  readonly page: Page;
}

async function openCoach(profile: string, origin: string): Promise<Coach> {
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: browserPath(),
    args: ['--no-sandbox'],
    viewport: { width: 1280, height: 800 },
  });
  const page = await context.newPage();
  await page.goto(origin);
  await editorOn(page).waitFor();
  return { context, page };
}

/** About eight letters a second and a pause now and then, as people type; a word each in a set of its own. */
async function typeUntil(page: Page, typed: Typed, seed: number, end: number): Promise<void> {
  for (let n = seed; Date.now() < end; n++) {
    for (const letter of typed.text === ''
      ? 'Typed\nSet\n'
      : `${1 + (n % 9)} x 50 ${WORDS[n % WORDS.length]!} @ 1:00\n`) {
      if (Date.now() >= end) return;
      await page.keyboard.press(letter === '\n' ? 'Enter' : letter === ' ' ? 'Space' : letter);
      typed.type(letter);
      await pause(20 + ((n * 37) % 90));
    }
  }
}

/** What is in the one session of a data folder; '' for none. */
function textIn(data: string): string {
  const folder = join(data, 'sessions');
  const files = readdirSync(folder).filter((name) => name.endsWith('.txt'));
  if (files.length > 1) throw new Error(`one session has become ${files.join(', ')}`);
  return files.length === 0 ? '' : readFileSync(join(folder, files[0]!), 'utf8');
}

/** The browser whose profile it is, with nothing said to it. */
function killBrowserOf(profile: string): void {
  for (const pid of readdirSync('/proc').filter((name) => /^\d+$/.test(name))) {
    try {
      const line = readFileSync(`/proc/${pid}/cmdline`, 'utf8');
      if (line.includes(`--user-data-dir=${profile}`) && !line.includes('--type='))
        process.kill(Number(pid), 'SIGKILL');
    } catch {
      // It has ended meanwhile.
    }
  }
}
