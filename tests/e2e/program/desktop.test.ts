/*
 * The desktop program as it is shipped, main process, preload scripts and pages: on Electron where its
 * runtime is, and everywhere on a stand-in for the electron module, whose windows are real Chromium pages.
 */

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { WindowBridge } from '../../../app/wire/window-bridge.ts';
import { button } from '../../support/coach/coach-hand.ts';
import { editorOn } from '../../support/coach/write-window/written-page.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import {
  DesktopProgram,
  ENGINES,
  LAPTOP,
  RUNTIME,
  STAND_IN,
  TELEVISION,
} from '../../support/desktop/desktop-program.ts';
import { commands, secondsOf, sight } from '../../support/desktop/desktop-sight.ts';

const SESSION =
  'Harbour squad\nstart on 1\nlane 1\nlane 2\nMain set\n90 x 25 free @ 0:05/0:07\nSwim-down\n100 easy choice';
const NAME = RUNTIME === null ? 'skipped: no Electron runtime' : 'has the version that package.json wants';

test.skipIf(RUNTIME === null)(`[desktop] the Electron runtime (${NAME})`, () => {
  const { devDependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as {
    devDependencies: Record<string, string>;
  };
  const dist = join(RUNTIME!, RUNTIME!.includes('.app') ? '../../../../..' : '..');
  expect(readFileSync(join(dist, 'version'), 'utf8').replace(/^v/, '').trim()).toBe(devDependencies['electron']);
});

describe.each(ENGINES)('[desktop] on $name: two displays and a run', ({ path: engine }) => {
  const data = freshDataFolder();
  const file = join(data, 'harbour.lanecall');
  // Made-up displays do not move the real runtime's windows.
  const onTelevision = { full: true, ...(engine === STAND_IN ? { bounds: TELEVISION.bounds } : {}) };
  let program: DesktopProgram;
  let desk: Page;

  beforeAll(async () => {
    writeFileSync(file, SESSION);
    program = await DesktopProgram.start(engine, [file, '--data', data], [LAPTOP, TELEVISION]);
    desk = await program.page('/');
  });

  afterAll(() => program?.close());

  const wallPage = (): Promise<Page> => program.page('/display');

  test('the session is open, the wall screen fills the second display, the coach is on the first', async () => {
    await expect.poll(() => desk.locator('body').innerText()).toContain('Harbour squad');
    await expect.poll(() => program.wall()).toMatchObject(onTelevision);
    expect((await program.windows())[0]!.bounds.x).toBeLessThan(LAPTOP.bounds.width);
    await expect.poll(async () => (await wallPage()).locator('body').innerText()).toContain('Main set');
    expect(await desk.getByRole('status').allInnerTexts()).not.toContainEqual(expect.stringContaining('display'));
  });

  test('a command goes through to the wall screen, and no display goes to sleep any more', async () => {
    expect(await blockers(program)).toBe(0);
    await button(desk, 'Start').click();
    await expect.poll(async () => nextLeave(await wallPage(), 1)).toBe('0:00');
    await expect.poll(() => blockers(program)).toBe(2);
  });

  test('the policy lets the style sheet of the text editor in, under the word that came with the page', async () => {
    await button(desk, 'Edit').click();
    const box = editorOn(desk);
    expect(await box.evaluate((element) => getComputedStyle(element.parentElement!).display)).toBe('flex');
    await button(desk, 'Back to the lanes').click();
  });

  test('the wall screen has no way to command: neither by a message nor by a question', async () => {
    const wall = await wallPage();
    const before = commands(data);
    const offered = await wall.evaluate(() => Object.keys(window.lanecallWindow!).sort());
    expect(offered).toEqual(['connect', 'hangUp', 'onWoken', 'say']);
    await wall.evaluate(() => {
      window.lanecallWindow!.say(JSON.stringify({ say: 'command', id: 'from-the-wall', command: { do: 'stop' } }));
    });
    // It is hung up on, and comes back by itself.
    await expect.poll(() => sight(wall)).toMatch(/^\d+:\d\d$/);
    await wall.waitForTimeout(1500);
    expect(commands(data)).toEqual(before);
    expect(await button(desk, 'Stop all lanes').count()).toBe(1);
  });

  test('a television that is unplugged and plugged in again has the wall screen again; the run goes on', async () => {
    const before = commands(data);
    await program.plug([LAPTOP]);
    await expect.poll(() => program.wall()).toMatchObject({ full: false });
    const rightEdge = async (): Promise<number> => {
      const { x, width } = (await program.wall())!.bounds;
      return x + width;
    };
    await expect.poll(rightEdge).toBeLessThanOrEqual(LAPTOP.bounds.width);
    await expect
      .poll(() => desk.getByRole('status').allInnerTexts())
      .toContainEqual(expect.stringMatching(/Pool TV.*in a window here until it is.*extend/s));
    await program.plug([LAPTOP, TELEVISION]);
    await expect.poll(() => program.wall()).toMatchObject(onTelevision);
    await expect.poll(async () => (await desk.getByRole('status').allInnerTexts()).join()).not.toContain('Pool TV');
    expect(commands(data)).toEqual(before);
    expect(await sight(await wallPage())).toMatch(/^\d+:\d\d$/);
  });

  test('the menu puts the wall screen into a window, and back', async () => {
    await program.menu('Wall screen', 'In a window');
    await expect.poll(() => program.wall()).toMatchObject({ full: false });
    await program.menu('Wall screen', 'Full screen');
    await expect.poll(() => program.wall()).toMatchObject(onTelevision);
    await program.menu('Wall screen', 'Show');
    await expect.poll(() => program.wall()).toBeUndefined();
    await program.menu('Wall screen', 'Show');
    await expect.poll(() => program.wall()).toMatchObject(onTelevision);
  });

  test('a second start hands its file to the first; the run that is going stays', async () => {
    const other = join(data, 'friday.txt');
    writeFileSync(other, 'Friday\nMain set\n4 x 100 free @ 2:00');
    expect(await DesktopProgram.startSecond(engine, [other, '--data', data])).toBe(0);
    await expect
      .poll(() => desk.getByRole('status').allInnerTexts())
      .toContainEqual(expect.stringContaining('friday.txt is in the editor'));
    expect(await desk.locator('body').innerText()).toContain('Harbour squad');
    await button(desk, 'Close this').click();
  });

  test('a second start without a file opens none, whatever its words have become on the way', async () => {
    expect(await DesktopProgram.startSecond(engine, ['--data', data])).toBe(0);
    await desk.waitForTimeout(500);
    expect((await desk.getByRole('status').allInnerTexts()).join()).not.toMatch(/editor|folder|no such file/);
  });

  test('a file that the system hands over goes the same way', async () => {
    const other = join(data, 'sunday.lanecall');
    writeFileSync(other, 'Sunday\nMain set\n4 x 100 free @ 2:00');
    // As macOS does it.
    await program.app.evaluate(
      ({ app }, path) => void app.emit('open-file', { preventDefault: () => undefined }, path),
      other,
    );
    await expect
      .poll(() => desk.getByRole('status').allInnerTexts())
      .toContainEqual(expect.stringContaining('sunday.lanecall is in the editor'));
    await button(desk, 'Close this').click();
  });

  test("the coach's window does not close at one press during a run, and a fault ends nothing", async () => {
    await program.app.evaluate(({ BrowserWindow }) => {
      BrowserWindow.getAllWindows()
        .find(({ webContents }) => webContents.getURL().endsWith('lanecall/'))
        ?.close();
      setTimeout(() => {
        throw new Error('a fault of the test');
      });
    });
    await expect
      .poll(async () => (await desk.getByRole('status').allInnerTexts()).join())
      .toMatch(/Close this window or quit again.*\(a fault of the test\)\. The run goes on/s);
    expect(await program.windows()).toHaveLength(2);
  });

  test('nor does the program end by its menu, and the window that asks comes to the front', async () => {
    // Until what was said of the window is over.
    await expect.poll(async () => (await desk.getByRole('status').allInnerTexts()).join()).not.toContain('quit again');
    await program.app.evaluate(({ app }) => app.quit());
    await expect.poll(async () => (await desk.getByRole('status').allInnerTexts()).join()).toContain('quit again');
    expect(await program.windows()).toHaveLength(2);
  });

  test("a click on the Dock brings the coach's window to the front", async () => {
    await program.app.evaluate(({ app, BrowserWindow }) => {
      const all = BrowserWindow.getAllWindows();
      all.find(({ webContents }) => webContents.getURL().endsWith('/display'))?.focus();
      app.emit('activate');
    });
    const inFront = (): Promise<string | undefined> =>
      program.app.evaluate(({ BrowserWindow }) => {
        const window = BrowserWindow.getAllWindows().find((each) => each.isFocused());
        return window?.webContents.getURL();
      });
    await expect.poll(inFront).toBe('app://lanecall/');
  });

  test('a main process that is held up for ten seconds disturbs neither the wall screen nor the sound', async () => {
    const wall = await wallPage();
    await watchCues(desk);
    await desk.getByRole('button', { name: /^Sound/ }).click();
    await desk.getByRole('button', { name: /^Sound on this screen/ }).click();
    await desk.keyboard.press('Escape');
    await expect.poll(() => desk.evaluate(() => window.seenCues!.length)).toBeGreaterThan(0);
    await watchCues(desk);
    await watchClock(wall);
    await program.app.evaluate(() => {
      const end = Date.now() + 10_000;
      while (Date.now() < end);
    });
    const { readings, longest, lost } = await wall.evaluate(() => window.seenClock!);
    expect(readings.length).toBeGreaterThanOrEqual(9);
    // A second, and what a busy machine adds to it.
    expect(longest).toBeLessThan(2500);
    expect(lost).toBe(false);
    const cues = await desk.evaluate(() => window.seenCues!);
    const ahead = cues.map(({ heardAt, seenAt }) => heardAt - seenAt);
    // Two lanes at 0:05 and 0:07 leave at least twice in ten seconds, together or not.
    expect(ahead.length).toBeGreaterThanOrEqual(2);
    expect(Math.min(...ahead), JSON.stringify(cues)).toBeGreaterThan(200);
    // Pressed as a leave is on its way it is refused, because that rep is no longer next: then once more.
    const skipped = async (): Promise<readonly string[]> => {
      await button(desk, 'Skip rep').click();
      await desk.waitForTimeout(700);
      return commands(data);
    };
    await expect.poll(skipped).toContain('skip');
  });

  test('a file that is dropped on the window while a run goes is put into the editor', async () => {
    await desk.evaluate(() => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File(['Saturday\nMain set\n4 x 50 free @ 1:00'], 'saturday.txt'));
      const dropped = new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true });
      document.querySelector('main, header')!.dispatchEvent(dropped);
      return dropped.defaultPrevented;
    });
    await expect
      .poll(() => desk.getByRole('status').allInnerTexts())
      .toContainEqual(expect.stringContaining('saturday.txt is in the editor'));
    await button(desk, 'Close this').click();
  });

  test("a clicker works while the wall screen has the keyboard: Stop and Resume are the coach's", async () => {
    const press = (keyCode: string): Promise<void> =>
      program.app.evaluate(({ BrowserWindow }, key) => {
        const contents = BrowserWindow.getAllWindows().map(({ webContents }) => webContents);
        // As the system's own keys come; the runtime takes made-up ones only in a window with the focus.
        const wall = contents.find((each) => each.getURL().endsWith('/display'))!;
        const off = { shift: false, control: false, alt: false, meta: false, isAutoRepeat: false, isComposing: false };
        wall.emit(
          'before-input-event',
          { preventDefault: () => undefined },
          { type: 'keyDown', key, code: '', ...off },
        );
      }, keyCode);
    await press('b');
    await expect.poll(() => commands(data)).toContain('stop');
    // Resume is not taken within a second of the Stop.
    await desk.waitForTimeout(1100);
    await press('b');
    await expect.poll(() => commands(data)).toContain('resume');
  });

  test('a navigation that is refused leaves the page as it was, and heard', async () => {
    const skips = (): number => commands(data).filter((name) => name === 'skip').length;
    const before = skips();
    await desk.evaluate(() => location.assign('/display'));
    await desk.waitForTimeout(500);
    expect(new URL(desk.url()).pathname).toBe('/');
    // Pressed as a leave is on its way it is refused, because that rep is no longer next: then once more.
    const skipped = async (): Promise<number> => {
      await button(desk, 'Skip rep').click();
      await desk.waitForTimeout(700);
      return skips();
    };
    await expect.poll(skipped).toBeGreaterThan(before);
  });

  test('sleep: the journal is written before, and the screens jump to the true position after', async () => {
    const wall = await wallPage();
    const written = await program.app.evaluate(
      ({ powerMonitor }, runs) => {
        const fs = process.getBuiltinModule('node:fs');
        const [name] = fs.readdirSync(runs);
        const lines = (): number => fs.readFileSync(`${runs}/${name}`, 'utf8').split('\n').length;
        const before = lines();
        powerMonitor.emit('suspend');
        return lines() - before;
      },
      join(data, 'runs'),
    );
    expect(written).toBe(1);
    const before = secondsOf(await sight(wall));
    await program.app.evaluate(({ powerMonitor }) => {
      const os = process.getBuiltinModule('node:os');
      const { uptime } = os;
      // What a machine under Linux sees that has slept for a minute: only the uptime has gone on.
      os.uptime = () => uptime() + 60;
      powerMonitor.emit('resume');
    });
    await expect.poll(async () => secondsOf(await sight(wall)) - before).toBeGreaterThanOrEqual(60);
    expect(secondsOf(await sight(wall)) - before).toBeLessThan(80);
  });

  test('a page that dies comes back by itself with the truth; at the fourth time within a minute it is a plain one', async () => {
    const before = commands(data);
    for (let death = 1; death <= 3; death++) {
      const dead = await wallPage();
      await crash(program, 'display');
      await expect.poll(async () => (await wallPage()) !== dead).toBe(true);
      await expect.poll(async () => secondsOf(await sight(await wallPage()))).toBeGreaterThan(60);
      await expect.poll(() => program.wall()).toMatchObject(onTelevision);
    }
    await crash(program, 'display');
    await expect
      .poll(() =>
        program.app
          .windows()
          .map((page) => page.url())
          .join(),
      )
      .toContain('/stopped');
    const plain = program.app.windows().find((page) => page.url().includes('/stopped'))!;
    await expect.poll(() => plain.locator('body').innerText()).toContain('The run goes on');
    expect(commands(data)).toEqual(before);
    await plain.getByRole('link', { name: 'Open it again' }).click();
    await expect.poll(async () => secondsOf(await sight(await wallPage()))).toBeGreaterThan(60);
  });

  test("the coach's own page that dies comes back too", async () => {
    await crash(program, 'lanecall/');
    await expect.poll(async () => (await program.page('/')) !== desk).toBe(true);
    desk = await program.page('/');
    await expect.poll(() => button(desk, 'Stop all lanes').count()).toBe(1);
  });

  test('nothing was asked of anybody else, and no page complained', () => {
    const strangers = program.requests.filter(
      (url) => !/^(app:\/\/lanecall|https:\/\/lanecall\.app\.localhost)\//.test(url),
    );
    expect(strangers).toEqual([]);
    expect(program.requests.length).toBeGreaterThan(10);
    expect(program.complaints).toEqual([]);
  });
});

declare global {
  interface Window {
    lanecallWindow?: WindowBridge;
    seenClock?: { readings: string[]; longest: number; lost: boolean };
    seenCues?: { key: string; heardAt: number; seenAt: number }[];
  }
}

/** From now on the page writes down what its clock reads and for how long it stood still. */
function watchClock(wall: Page): Promise<void> {
  return wall.evaluate(() => {
    const seen: NonNullable<Window['seenClock']> = { readings: [], longest: 0, lost: false };
    window.seenClock = seen;
    let changedAt = performance.now();
    const look = (): void => {
      const now = performance.now();
      const text = document.querySelector('[role=timer]')?.textContent ?? '';
      if (text !== seen.readings[seen.readings.length - 1]) {
        seen.readings.push(text);
        changedAt = now;
      }
      seen.longest = Math.max(seen.longest, now - changedAt);
      seen.lost ||= document.body.innerText.includes('Link lost');
      requestAnimationFrame(look);
    };
    look();
  });
}

function watchCues(desk: Page): Promise<void> {
  return desk.evaluate(() => {
    const seen: NonNullable<typeof window.seenCues> = (window.seenCues = []);
    window.addEventListener('lanecall:cue-scheduled', (event) => {
      const { key, heardAt } = (event as CustomEvent<{ key: string; heardAt: number }>).detail;
      seen.push({ key, heardAt, seenAt: performance.now() });
    });
  });
}

function nextLeave(wall: Page, lane: number): Promise<string | null> {
  return wall
    .getByRole('region', { name: `Lane ${lane}`, exact: true })
    .getByLabel('Next leave')
    .textContent();
}

/** How many of the system's blockers are at work. */
function blockers(program: DesktopProgram): Promise<number> {
  return program.app.evaluate(
    ({ powerSaveBlocker }) =>
      Array.from({ length: 50 }, (_, id) => id).filter((id) => powerSaveBlocker.isStarted(id)).length,
  );
}

function crash(program: DesktopProgram, address: string): Promise<void> {
  return program.app.evaluate(({ webContents }, part) => {
    webContents
      .getAllWebContents()
      .find((contents) => contents.getURL().endsWith(part))
      ?.forcefullyCrashRenderer();
  }, address);
}
