/*
 * The wall screen as it is seen: how large it is drawn, what overlaps, and how its colours stand against each other.
 */

import type { Locator, Page } from 'playwright';
import { expect } from 'vitest';

/** A session of so many lanes with one line in it. */
export function squad(lanes: number, line: string): string {
  const header = Array.from({ length: lanes }, (_, lane) => `lane ${lane + 1} base 1:30, 4 swimmers`);
  return `start on 1\n${header.join('\n')}\n\nMain set\n${line}\n`;
}

/** From the first to the last row on which digits are drawn, in px. Their box is moved up from them by a little. */
export async function drawnHeight(target: Locator): Promise<number> {
  await target.waitFor();
  // A screen that has just changed its size lays itself out anew, and digits that go on are drawn anew.
  let found: Awaited<ReturnType<Locator['boundingBox']>> = null;
  await expect.poll(async () => (found = await target.boundingBox())).not.toBeNull();
  const box = found!;
  const clip = { ...box, height: box.height * 1.1 };
  const picture = await target.page().screenshot({ clip, animations: 'allow' });
  const other = await target.page().context().browser()!.newPage();
  const rows = await other.evaluate(async (data) => {
    const image = new Image();
    image.src = `data:image/png;base64,${data}`;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = image.width;
    canvas.height = image.height;
    const context = canvas.getContext('2d')!;
    context.drawImage(image, 0, 0);
    const { data: pixels } = context.getImageData(0, 0, image.width, image.height);
    let first = -1;
    let last = -1;
    for (let y = 0; y < image.height; y++) {
      for (let x = 0; x < image.width; x++) {
        // Red tells white and amber digits from water and ropes.
        if (pixels[(y * image.width + x) * 4]! < 128) continue;
        if (first < 0) first = y;
        last = y;
      }
    }
    return last - first + 1;
  }, picture.toString('base64'));
  await other.close();
  return rows;
}

/** What overlaps, stands outside the inset of 5 %, or is cut by its own box, in words. */
export async function misplaced(on: Page): Promise<string[]> {
  return on.evaluate(() => {
    const found: string[] = [];
    const [width, height] = [innerWidth, innerHeight];
    const isDrawing = (element: HTMLElement): boolean =>
      element.matches('.strip-dots') && element.childElementCount > 0;
    const places = Array.from(document.querySelectorAll<HTMLElement>('[data-place], .strip-number'))
      .filter((element) => element.childElementCount === 0 || element.matches('.digits, .strip-dots'))
      .filter((element) => element.textContent !== '' || isDrawing(element))
      .filter((element) => element.getClientRects().length > 0)
      .filter((element) => getComputedStyle(element).visibility === 'visible')
      .map((element) => {
        const range = document.createRange();
        range.selectNodeContents(element);
        const box = range.getBoundingClientRect();
        const size = parseFloat(getComputedStyle(element).fontSize);
        // The typeface leaves 0.28 em above its capitals, and 0.2 em below digits, which descend nowhere.
        const isDigits = element.matches('.digits, .strip-number');
        const isOneLine = box.height < size * 1.6 && !isDrawing(element);
        const top = box.top + (isOneLine ? size * 0.28 : 0);
        const bottom = box.bottom - (isOneLine ? size * (isDigits ? 0.18 : 0.03) : 0);
        const lane = element.closest<HTMLElement>('[data-lane]')?.dataset['lane'] ?? '';
        const said = element.textContent || element.getAttribute('aria-label')!;
        return { name: `${lane} ${said.slice(0, 40)}`, left: box.left, right: box.right, top, bottom };
      });
    places.forEach((one, index) => {
      const { left, right, top, bottom } = one;
      if (left < width * 0.05 - 1 || right > width * 0.95 + 1 || top < height * 0.05 - 1 || bottom > height * 0.95 + 1)
        found.push(`${one.name} stands outside`);
      for (const other of places.slice(index + 1)) {
        const across = Math.min(right, other.right) - Math.max(left, other.left);
        const down = Math.min(bottom, other.bottom) - Math.max(top, other.top);
        if (across > 1 && down > 1) found.push(`${one.name} overlaps ${other.name}`);
      }
    });
    return found;
  });
}

export interface Contrast {
  readonly state: string;
  readonly text: string;
  readonly ratio: number;
  readonly least: number;
}

/** Of everything that is read in the strips, against the strip and, where there is water, against that too. */
export async function contrasts(on: Page): Promise<Contrast[]> {
  return on.evaluate(() => {
    const luminance = (colour: string): number => {
      const [red = 0, green = 0, blue = 0] = (colour.match(/[\d.]+/g) ?? []).slice(0, 3).map((part) => {
        const value = Number(part) / 255;
        return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
    };
    const ratioOf = (a: string, b: string): number => {
      const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
      return (light + 0.05) / (dark + 0.05);
    };
    const found: Contrast[] = [];
    document.querySelectorAll<HTMLElement>('[data-lane]').forEach((strip) => {
      const state = strip.dataset['state'] ?? '';
      const water = strip.querySelector<HTMLElement>('.strip-water')!;
      // Of hatching the lighter stripe.
      const style = getComputedStyle(strip);
      const own = /rgb\([^)]*\)/.exec(style.backgroundImage)?.[0] ?? style.backgroundColor;
      const isWet = water.getClientRects().length > 0 && getComputedStyle(water).opacity !== '0';
      const grounds = isWet ? [own, getComputedStyle(water).backgroundColor] : [own];
      strip.querySelectorAll<HTMLElement>('.strip-number, .digits, .strip-word, p').forEach((element) => {
        if (element.textContent === '' || element.getClientRects().length === 0) return;
        if (getComputedStyle(element).visibility === 'hidden') return;
        const least = element.matches('p') ? 4.5 : 7;
        // The number of a lane that is ready stands on a plate.
        const plate = getComputedStyle(element, '::before');
        const hasPlate = plate.content !== 'none' && plate.backgroundColor !== 'rgba(0, 0, 0, 0)';
        const behind = hasPlate ? [plate.backgroundColor] : grounds;
        for (const ground of behind) {
          found.push({
            state,
            text: element.textContent ?? '',
            least,
            ratio: ratioOf(getComputedStyle(element).color, ground),
          });
        }
      });
    });
    return found;
  });
}
