/*
 * A wall screen as somebody sees it who tells no colours apart: in greys, as they are drawn.
 */

import type { Page } from 'playwright';

export interface Clip {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** No more frames are drawn: what stands there can be looked at from all sides. */
export async function freeze(page: Page): Promise<void> {
  await page.evaluate(() => {
    window.requestAnimationFrame = () => 0;
  });
}

/** Of each area, row by row: 0 to 1 of the light that comes from each pixel. All of one picture. */
export async function greysOf(
  page: Page,
  clips: readonly Clip[],
): Promise<readonly (readonly (readonly number[])[])[]> {
  await page.evaluate(() => void (document.documentElement.style.filter = 'grayscale(1)'));
  const picture = await page.screenshot({ animations: 'allow' });
  await page.evaluate(() => void (document.documentElement.style.filter = ''));
  const other = await page.context().browser()!.newPage();
  const areas = await other.evaluate(
    async ([data, boxes]) => {
      const image = new Image();
      image.src = `data:image/png;base64,${data}`;
      await image.decode();
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [image.width, image.height];
      const context = canvas.getContext('2d')!;
      context.drawImage(image, 0, 0);
      const light = (value: number): number => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4);
      return boxes.map(({ x, y, width, height }) => {
        const area = context.getImageData(Math.round(x), Math.round(y), Math.ceil(width), Math.ceil(height));
        return Array.from({ length: area.height }, (_, row) =>
          Array.from({ length: area.width }, (__, at) => light(area.data[(row * area.width + at) * 4]! / 255)),
        );
      });
    },
    [picture.toString('base64'), clips] as const,
  );
  await other.close();
  return areas;
}

/** By WCAG 2.2. */
export function contrastOf(a: number, b: number): number {
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}

/** What most of an area is like. */
export function ground(rows: readonly (readonly number[])[]): number {
  const all = rows.flat().sort((a, b) => a - b);
  return all[Math.floor(all.length / 2)] ?? 0;
}
