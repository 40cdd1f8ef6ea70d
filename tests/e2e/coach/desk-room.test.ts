/*
 * What ten lanes, long sessions and small screens leave room for on the coach's window and the remote, as a browser
 * lays them out.
 */

import type { Locator } from 'playwright';
import { expect, test } from 'vitest';
import { button } from '../../support/coach/coach-hand.ts';
import { deskForEach } from '../../support/coach/desk-for-each.ts';
import type { DeskPage } from '../../support/coach/desk-page.ts';
import { writeOn } from '../../support/coach/write-window/written-page.ts';

const TEN_LANES = `Ten lanes
${Array.from({ length: 10 }, (_, lane) => `lane ${lane + 1} base 1:30, 4 swimmers`).join('\n')}

Main set
12 x 100 steady @ 1:30 hold 1:15
`;

let desk: DeskPage;
deskForEach((opened) => (desk = opened));

/** Whether nothing lies over the middle of it. */
function onTop(what: Locator): Promise<boolean> {
  return what.evaluate((element) => {
    const { left, top, width, height } = element.getBoundingClientRect();
    return element.contains(document.elementFromPoint(left + width / 2, top + height / 2));
  });
}

test('with ten lanes the remote needs no scrolling on any phone, nothing is cut or lies over another, and every target is 48 px', async () => {
  await desk.start(TEN_LANES);
  const remote = await desk.openPage('/remote');
  // The lane stays chosen when the page is loaded again.
  await button(remote, 'Lane 10').click();
  await button(remote, 'Stop lane 10').click();
  const fits = (): Promise<unknown> =>
    remote.evaluate(() => {
      const boxes = Array.from(document.querySelectorAll('button'), (each) => ({
        name: each.ariaLabel,
        box: each.getBoundingClientRect(),
        cut: each.scrollHeight > each.clientHeight,
      }));
      const under = ({ name, box }: (typeof boxes)[number], index: number): string[] =>
        boxes
          .slice(index + 1)
          .filter(({ box: other }) => box.left < other.right && other.left < box.right)
          .filter(({ box: other }) => box.top < other.bottom && other.top < box.bottom)
          .map((other) => `${name} under ${other.name}`);
      return {
        high: document.documentElement.scrollHeight - innerHeight,
        out: boxes.filter(({ box }) => box.bottom > innerHeight || box.right > innerWidth).map(({ name }) => name),
        cut: boxes.filter(({ box, cut }) => box.width > 0 && cut).map(({ name }) => name),
        under: boxes.flatMap(under),
        small: boxes.filter(({ box }) => box.width > 0 && (box.width < 48 || box.height < 48)).map(({ name }) => name),
      };
    });
  for (const [width, height] of [
    [390, 844],
    [390, 780],
    [375, 667],
    [320, 844],
    [360, 640],
    [320, 568],
  ] as const) {
    await remote.setViewportSize({ width, height });
    await remote.reload();
    await button(remote, 'Rejoin lane 10').waitFor();
    expect(await fits(), `${width} × ${height}`).toEqual({ high: 0, out: [], cut: [], under: [], small: [] });
    await button(remote, 'More').click();
    await button(remote, 'Move on').waitFor();
    expect(await fits(), `More at ${width} × ${height}`).toEqual({ high: 0, out: [], cut: [], under: [], small: [] });
  }
});

test('[timetable] ten lanes beside the text scroll in a place of their own, whose edge is shaded, by keys too', async () => {
  await writeOn(desk.page, TEN_LANES);
  const place = desk.page.getByRole('group', { name: 'By part and lane' });
  const tenth = place.getByRole('columnheader', { name: 'Lane 10' });
  await tenth.waitFor();
  expect(await place.evaluate((own) => own.scrollWidth - own.clientWidth)).toBeGreaterThan(0);
  expect(await place.evaluate((own) => getComputedStyle(own).backgroundImage)).toContain('gradient');
  await place.focus();
  for (let presses = 0; presses < 12; presses++) await desk.page.keyboard.press('ArrowRight');
  await expect.poll(() => place.evaluate((own) => own.scrollWidth - own.clientWidth - own.scrollLeft)).toBeLessThan(2);
  // A long one is drawn only where it is in sight: each of its cells would cost every key.
  await desk.page
    .getByRole('textbox', { name: 'Session', exact: true })
    .fill(TEN_LANES + '\nSwim\n1 x 50 @ 1:00\n'.repeat(200));
  const last = desk.page.getByRole('rowheader', { name: 'In all' });
  await expect.poll(() => place.evaluate((own) => own.scrollHeight)).toBeGreaterThan(400 * 30);
  expect(await place.locator('tr').count()).toBeLessThan(150);
  await last.scrollIntoViewIfNeeded();
  await expect.poll(() => place.locator('tbody').last().locator('tr').count()).toBeGreaterThan(1);
  expect(await place.locator('tr').count()).toBeLessThan(250);
});

test('ten lanes are in sight at 1280 × 800, and 0 chooses the tenth', async () => {
  await desk.start(TEN_LANES);
  await desk.page.keyboard.press('0');
  expect(await desk.button('Lane 10').getAttribute('aria-pressed')).toBe('true');
  const hidden = await desk.page
    .getByRole('main', { name: 'Lanes' })
    .evaluate((lanes) => lanes.scrollHeight - lanes.clientHeight);
  expect(hidden).toBeLessThanOrEqual(0);
  expect(await onTop(desk.button('Stop lane 10'))).toBe(true);
});

test("at 1024 × 700 a lane's row leaves out whole groups of words, the leave after first, and cuts none", async () => {
  await desk.page.setViewportSize({ width: 1024, height: 700 });
  await desk.start(TEN_LANES);
  const rows = await desk.page.getByRole('main', { name: 'Lanes' }).evaluate((lanes) =>
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
  await desk.page.setViewportSize({ width, height });
  await desk.start(TEN_LANES);
  const lanes = desk.page.getByRole('main', { name: 'Lanes' });
  // A pixel may be rounding.
  await expect.poll(() => lanes.evaluate((own) => own.scrollHeight - own.clientHeight)).toBeLessThanOrEqual(1);
  await expect.poll(() => hidden(lanes.getByRole('button'))).toEqual([]);
  await expect
    .poll(() => hidden(desk.page.getByRole('navigation', { name: 'Actions' }).getByRole('button')))
    .toEqual([]);
  await expect.poll(() => hidden(lanes.locator('p'))).toEqual([]);
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
  await desk.button('Edit').click();
  await expect
    .poll(() => hidden(desk.page.getByRole('region', { name: 'Next leaves' }).getByRole('listitem')))
    .toEqual([]);
});

const lasting = (finish: string): string => `Late
start 19:30
finish ${finish}
lane 1 base 1:30

Warm-up
4 x 50 easy @ 0:50
4 x 50 choice @ 0:50

Main set
${Array.from({ length: 12 }, (_, line) => `3 x 100 pace ${line} @ 1:30`).join('\n')}
`;

test.each([
  // Its deck is at 19:30: late, in hand, late.
  [1280, 800, '19:35'],
  [1024, 700, '22:30'],
  [768, 1024, '19:35'],
])(
  'at %i × %i the outline has its place beside the cuts, and a tapped line its controls in sight',
  async (width, height, finish) => {
    await desk.page.setViewportSize({ width, height });
    await desk.start(lasting(finish));
    const late = desk.page.getByRole('region', { name: 'If you run late' });
    const outline = desk.page.getByRole('complementary', { name: 'Session' });
    const now = outline.getByRole('button', { name: /, now/ }).last();
    await expect.poll(() => hidden(now)).toEqual([]);
    await expect.poll(() => hidden(late.getByRole('button', { name: /^Cut/ }).first())).toEqual([]);
    await outline.getByRole('button', { name: /^Main set/ }).click();
    for (const line of [0, 5, 11]) {
      await outline.getByRole('button', { name: new RegExp(`pace ${line} `) }).click();
      await expect.poll(() => hidden(desk.button('Go to it'))).toEqual([]);
      await expect.poll(() => hidden(desk.button('Cut 1 rep'))).toEqual([]);
      await desk.page.keyboard.press('Escape');
      expect(await desk.button('Go to it').count()).toBe(0);
    }
  },
);

test('the outline goes on with the run, to the line that is going', async () => {
  const { deck, page } = desk;
  await deck.server.host.open({ text: lasting('19:35'), lanesText: null }, { replace: false, clockPhase: 0 });
  await deck.server.host.command('1', { do: 'move-on' });
  await deck.server.host.command('2', { do: 'start' });
  const { openedAt } = deck.run();
  for (const line of [0, 4, 11]) {
    deck.moveTo(openedAt + 60_000 + line * 3 * 90_000);
    const now = page
      .getByRole('complementary', { name: 'Session' })
      .getByRole('button', { name: new RegExp(`pace ${line} , now`) });
    await now.waitFor();
    await expect.poll(() => hidden(now)).toEqual([]);
  }
});
