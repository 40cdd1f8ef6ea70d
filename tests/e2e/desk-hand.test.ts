/*
 * Fingers, keys and clickers on the coach's window and the remote, with a browser's own events: who has the
 * keyboard, whom the big button is for, and what ten lanes leave room for.
 */

import { chromium, type Browser, type BrowserContext, type Locator, type Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { BOUNCE_TIME } from '../../renderer/ui/coach/commands/bounce.ts';
import { browserPath } from '../support/browser.ts';
import { freshDataFolder } from '../support/host/data-folder.ts';
import { MovingDeck } from '../support/host/moving-deck.ts';
import { ServedHost } from '../support/host/served-host.ts';

const SESSION = `Harbour squad
start on 1
lane 1 base 1:30, 3 swimmers
lane 2 base 1:40

Main set
3 rounds
  4 x 50 fast @ 0:50/1:00
10 x 75 free @ 1:20
`;

const TEN_LANES = `Ten lanes
${Array.from({ length: 10 }, (_, lane) => `lane ${lane + 1} base 1:30, 4 swimmers`).join('\n')}

Main set
12 x 100 steady @ 1:30 hold 1:15
`;

let browser: Browser;
let host: ServedHost;
let context: BrowserContext;
let page: Page;

beforeAll(async () => {
  browser = await chromium.launch({ executablePath: browserPath(), args: ['--no-sandbox'] });
});

afterAll(async () => {
  await browser?.close();
});

beforeEach(async () => {
  host = await ServedHost.start(freshDataFolder());
  context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  page = await openPage('/');
});

afterEach(async () => {
  await context?.close();
  host?.child.kill('SIGKILL');
});

async function openPage(path: string): Promise<Page> {
  const opened = await context.newPage();
  await opened.goto(host.origin + path);
  return opened;
}

const button = (name: string | RegExp, on = page): Locator => on.getByRole('button', { name, exact: true });

/** Whether nothing lies over the middle of it. */
function onTop(what: Locator): Promise<boolean> {
  return what.evaluate((element) => {
    const { left, top, width, height } = element.getBoundingClientRect();
    return element.contains(document.elementFromPoint(left + width / 2, top + height / 2));
  });
}

async function start(text: string): Promise<void> {
  await page.getByRole('textbox', { name: 'Session', exact: true }).fill(text);
  await button('Run this session').click();
  await button('Start').click();
  await said('Started');
  await page.waitForTimeout(BOUNCE_TIME);
}

/** Waits until what is said begins so. */
async function said(begins: string): Promise<void> {
  await page.getByRole('status').last().getByText(begins).waitFor({ timeout: 5_000 });
}

test.each([
  [390, 844],
  [390, 780],
  [375, 667],
  [320, 844],
  [320, 640],
])(
  'with ten lanes the remote needs no scrolling at %i × %i, no hint under More is cut, and every target is 48 px',
  async (width, height) => {
    await start(TEN_LANES);
    const remote = await openPage('/remote');
    await remote.setViewportSize({ width, height });
    await button('Lane 10', remote).click();
    await button('Stop lane 10', remote).click();
    await button('Rejoin lane 10', remote).waitFor();
    const fits = (): Promise<unknown> =>
      remote.evaluate(() => {
        const boxes = Array.from(document.querySelectorAll('button'), (each) => ({
          name: each.ariaLabel,
          box: each.getBoundingClientRect(),
          cut: each.scrollHeight > each.clientHeight,
        }));
        return {
          high: document.documentElement.scrollHeight - innerHeight,
          out: boxes.filter(({ box }) => box.bottom > innerHeight || box.right > innerWidth).map(({ name }) => name),
          cut: boxes.filter(({ box, cut }) => box.width > 0 && cut).map(({ name }) => name),
          small: boxes
            .filter(({ box }) => box.width > 0 && (box.width < 48 || box.height < 48))
            .map(({ name }) => name),
        };
      });
    expect(await fits()).toMatchObject({ high: 0, out: [], small: [] });
    await button('More', remote).click();
    await button('Move on', remote).waitFor();
    expect(await fits()).toEqual({ high: 0, out: [], cut: [], small: [] });
  },
);

test('ten lanes are in sight at 1280 × 800, and 0 chooses the tenth', async () => {
  await start(TEN_LANES);
  await page.keyboard.press('0');
  expect(await button('Lane 10').getAttribute('aria-pressed')).toBe('true');
  const hidden = await page
    .getByRole('main', { name: 'Lanes' })
    .evaluate((lanes) => lanes.scrollHeight - lanes.clientHeight);
  expect(hidden).toBeLessThanOrEqual(0);
  expect(await onTop(button('Stop lane 10'))).toBe(true);
});

test("at 1024 × 700 a lane's row leaves out whole groups of words, the leave after first, and cuts none", async () => {
  await page.setViewportSize({ width: 1024, height: 700 });
  await start(TEN_LANES);
  const rows = await page.getByRole('main', { name: 'Lanes' }).evaluate((lanes) =>
    Array.from(lanes.querySelectorAll('section p'), (line) => {
      const groups = Array.from(line.querySelectorAll<HTMLElement>('span:not(:has(span))'));
      const isSeen = (group: HTMLElement): boolean =>
        group.getBoundingClientRect().top < line.getBoundingClientRect().bottom - 1;
      return {
        text: line.textContent,
        cut: groups.filter((group) => isSeen(group) && group.scrollWidth > group.clientWidth).length,
        seen: groups.filter(isSeen).map((group) => group.textContent),
        left: groups.filter((group) => !isSeen(group)).map((group) => group.textContent),
      };
    }),
  );
  expect(rows.length).toBe(20);
  expect(rows.filter(({ cut }) => cut > 0)).toEqual([]);
  for (const { seen } of rows) expect(seen.length).toBeGreaterThan(0);
  expect(rows.flatMap(({ left }) => left.slice(-1)).filter((words) => words?.startsWith(', then ')).length).toBe(10);
});

test('Stop, Space and the clicker are for all lanes, whichever are chosen', async () => {
  await start(SESSION);
  for (const stop of [
    () => button('Stop all lanes').click(),
    () => page.keyboard.press('Space'),
    () => page.keyboard.press('b'),
  ]) {
    await button('Lane 2').click();
    await page.getByText('Next command: lane 2').waitFor();
    await stop();
    await said('Stopped all lanes.');
    await page.waitForTimeout(BOUNCE_TIME);
    await button('Resume').click();
    await said('Resumed all lanes');
    await page.waitForTimeout(BOUNCE_TIME);
  }
});

test('a double tap on Stop stops, and Resume in its place does not take the second tap', async () => {
  await start(SESSION);
  await button('Stop all lanes').dblclick({ delay: 60 });
  await said('Stopped all lanes.');
  await page.waitForTimeout(300);
  await button('Resume').waitFor();
  expect(await page.getByRole('status').last().textContent()).toBe('Stopped all lanes.');
});

test.each([false, true])(
  'what was used keeps no keyboard (by touch: %s): Space is Stop after each kind of control',
  async (touch) => {
    await context.close();
    context = await browser.newContext({ viewport: { width: 1280, height: 800 }, hasTouch: touch });
    page = await openPage('/');
    await start(SESSION);
    await page.keyboard.press('Enter');
    await said('Start was given');
    const use = (what: Locator): Promise<void> => (touch ? what.tap() : what.click());
    const spaceIsStop = async (): Promise<void> => {
      await page.waitForTimeout(BOUNCE_TIME);
      await page.keyboard.press('Space');
      // Not taken at once: a second press in fright still means Stop.
      await expect.poll(() => button('Resume').getAttribute('aria-disabled')).toBeNull();
      await page.waitForTimeout(BOUNCE_TIME);
      await page.keyboard.press('Space');
      await button('Stop all lanes').waitFor();
    };
    // A select: its list is opened and something chosen by pointer or keys; then the same again is chosen.
    const clock = page.getByRole('combobox', { name: 'Which clock' });
    for (const keys of [['ArrowDown', 'Enter'], ['Enter']]) {
      await use(clock);
      for (const key of keys) await page.keyboard.press(key);
      await spaceIsStop();
    }
    await page.keyboard.press('PageDown');
    expect(await clock.inputValue()).toBe('run');
    // A part of the outline, a stepper in it, a panel and its Close.
    await use(page.getByRole('button', { name: /^3 rounds/ }));
    await spaceIsStop();
    await use(button('Rounds to cut: one more'));
    await spaceIsStop();
    await use(button('Lane 2…'));
    await spaceIsStop();
    await use(button('Close'));
    await spaceIsStop();
    // The sound: a switch, a box, a slider, what folds out, and closing it.
    await use(button(/^Sound/));
    await use(page.getByText('What sounds'));
    await spaceIsStop();
    await use(page.getByRole('checkbox', { name: 'Two notes on Stop and Resume' }));
    await spaceIsStop();
    await use(page.getByRole('slider', { name: 'Volume' }));
    await spaceIsStop();
    await page.keyboard.press('Escape');
    expect(await page.getByRole('group', { name: 'Sound' }).count()).toBe(0);
    await use(button(/^Sound/));
    await use(page.getByRole('group', { name: 'Sound' }).getByRole('button', { name: 'Close', exact: true }));
    await spaceIsStop();
    expect(await page.getByRole('group', { name: 'Sound' }).count()).toBe(0);
  },
  60_000,
);

test('a control reached by Tab is worked by its keys, and Escape gives the keyboard back', async () => {
  await start(SESSION);
  const clock = page.getByRole('combobox', { name: 'Which clock' });
  const hasKeyboard = (): Promise<boolean> => clock.evaluate((select) => select === document.activeElement);
  for (let stops = 0; stops < 60 && !(await hasKeyboard()); stops++) await page.keyboard.press('Tab');
  expect(await hasKeyboard()).toBe(true);
  await page.keyboard.press('ArrowDown');
  expect(await clock.inputValue()).toBe('run');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Space');
  expect(await button('Lane 1').getAttribute('aria-pressed')).toBe('true');
  await page.keyboard.press('Escape');
  expect(await button('Lane 1').getAttribute('aria-pressed')).toBe('false');
  await page.waitForTimeout(BOUNCE_TIME);
  await page.keyboard.press('Space');
  await said('Stopped all lanes.');
});

test('no letter is lost however fast they come, in Write and in Edit', async () => {
  const more = Array.from({ length: 12 }, (_, line) => `4 x 50 back and free by ${line} @ 1:30`).join('\n');
  const box = page.getByRole('textbox', { name: 'Session', exact: true });
  /** All in one task, as by a macro or a fast machine: React has no time of its own between them. */
  const typed = async (): Promise<string> => {
    await box.press('Control+End');
    return box.evaluate((area: HTMLTextAreaElement, text) => {
      for (const letter of text) document.execCommand('insertText', false, letter);
      return area.value;
    }, more);
  };
  await box.fill(SESSION);
  expect(await typed()).toBe(SESSION + more);
  await box.fill('');
  await start(SESSION);
  await button('Edit').click();
  expect(await typed()).toBe(SESSION + more);
  await page.waitForTimeout(200);
  expect(await box.inputValue()).toBe(SESSION + more);
});

/** What of these hangs out of what scrolls round it, or of the window, or has something over it: by its name. */
function hidden(what: Locator): Promise<string[]> {
  return what.evaluateAll((elements) =>
    elements
      .filter((element) => {
        const { left, right, top, bottom, width } = element.getBoundingClientRect();
        const isSeen = (x: number, y: number): boolean => element.contains(document.elementFromPoint(x, y));
        return width === 0 || !isSeen(left + 3, (top + bottom) / 2) || !isSeen(right - 3, (top + bottom) / 2);
      })
      .map((element) => element.ariaLabel ?? element.textContent),
  );
}

test.each([
  [1280, 800],
  [1024, 700],
  [768, 1024],
])('ten lanes are in sight at %i × %i, and no button is nearer than 8 px to the next lane’s', async (width, height) => {
  await page.setViewportSize({ width, height });
  await start(TEN_LANES);
  const lanes = page.getByRole('main', { name: 'Lanes' });
  // A pixel may be rounding.
  expect(await lanes.evaluate((own) => own.scrollHeight - own.clientHeight)).toBeLessThanOrEqual(1);
  expect(await hidden(lanes.getByRole('button'))).toEqual([]);
  expect(await hidden(page.getByRole('navigation', { name: 'Actions' }).getByRole('button'))).toEqual([]);
  expect(await hidden(lanes.locator('p'))).toEqual([]);
  const stops = await lanes.getByRole('button', { name: /^Stop lane/ }).evaluateAll((all) =>
    all.map((each) => ({
      ...each.getBoundingClientRect().toJSON(),
      edge: parseFloat(getComputedStyle(each).borderTopWidth),
    })),
  );
  for (const [index, { top, height: high, edge }] of stops.entries()) {
    expect(high).toBeGreaterThanOrEqual(48);
    if (index > 0) expect(top + edge - (stops[index - 1].bottom - edge)).toBeGreaterThanOrEqual(8);
  }
  await button('Edit').click();
  expect(await hidden(page.getByRole('region', { name: 'Next leaves' }).getByRole('listitem'))).toEqual([]);
});

const LATE = `Late
start 19:30
finish 19:35
lane 1 base 1:30

Warm-up
4 x 50 easy @ 0:50
4 x 50 choice @ 0:50

Main set
${Array.from({ length: 12 }, (_, line) => `3 x 100 pace ${line} @ 1:30`).join('\n')}
`;

test.each([
  [1280, 800],
  [1024, 700],
  [768, 1024],
])(
  'at %i × %i the outline has its place beside the cuts, and a tapped line its controls in sight',
  async (width, height) => {
    await page.setViewportSize({ width, height });
    await start(LATE);
    const late = page.getByRole('region', { name: 'If you run late' });
    const outline = page.getByRole('complementary', { name: 'Session' });
    const now = outline.getByRole('button', { name: /, now/ }).last();
    expect(await hidden(now)).toEqual([]);
    expect(await hidden(late.getByRole('button', { name: /^Cut/ }).first())).toEqual([]);
    await outline.getByRole('button', { name: /^Main set/ }).click();
    for (const line of [0, 5, 11]) {
      await outline.getByRole('button', { name: new RegExp(`pace ${line} `) }).click();
      expect(await hidden(button('Go to it'))).toEqual([]);
      expect(await hidden(button('Cut 1 rep'))).toEqual([]);
      await page.keyboard.press('Escape');
      expect(await button('Go to it').count()).toBe(0);
    }
  },
);

test('the outline goes on with the run, to the line that is going', async () => {
  const deck = await MovingDeck.start();
  try {
    await deck.server.host.open({ text: LATE, lanesText: null }, { replace: false, clockPhase: 0 });
    await deck.server.host.command('1', { do: 'move-on' });
    await deck.server.host.command('2', { do: 'start' });
    const { openedAt } = deck.run();
    const desk = await deck.openPage(context, '/');
    for (const line of [0, 4, 11]) {
      deck.moveTo(openedAt + 60_000 + line * 3 * 90_000);
      const now = desk
        .getByRole('complementary', { name: 'Session' })
        .getByRole('button', { name: new RegExp(`pace ${line} , now`) });
      await now.waitFor();
      await expect.poll(() => hidden(now)).toEqual([]);
    }
  } finally {
    await deck.close();
  }
});
