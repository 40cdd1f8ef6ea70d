/*
 * The naive way beside it: a page of its own in the same browser that lets howler play a tone from a
 * timer, at each time worked out anew from the clock. Its tone is lower than all of ours, and sounds on
 * the half second, where none of ours does.
 */

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser } from 'playwright';

export const NAIVE_HERTZ = 600;

/** In ms. */
const EVERY = 2000;
const LENGTH = 120;
const RAMP = 15;

const HOWLER = readFileSync(createRequire(import.meta.url).resolve('howler'), 'utf8');

const SCRIPT = `
  const tone = new Howl({ src: ['/tone.wav'] });
  window.play = (due) => setTimeout(() => tone.play(), due - performance.now());
`;

export interface Naive {
  /** Lets it play from the bench's time `from` on, `count` times; gives the times, in ms. */
  play(from: number, count: number): Promise<readonly number[]>;
  close(): Promise<void>;
}

export async function openNaive(browser: Browser): Promise<Naive> {
  const context = await browser.newContext({ viewport: { width: 300, height: 200 } });
  const page = await context.newPage();
  await page.route('**/*', (route) => {
    const { pathname } = new URL(route.request().url());
    if (pathname === '/tone.wav') return route.fulfill({ contentType: 'audio/wav', body: toneFile() });
    const body = `<button>On</button><script>${HOWLER}</script><script>${SCRIPT}</script>`;
    return route.fulfill({ contentType: 'text/html', body });
  });
  await page.goto('http://127.0.0.1:9/');
  // The tap that howler waits for.
  await page.getByRole('button').click();
  return {
    async play(from, count) {
      const before = performance.now();
      const there = await page.evaluate(() => performance.now());
      const ahead = there - (before + performance.now()) / 2;
      const times = Array.from({ length: count }, (_, n) => from + n * EVERY);
      const dues = times.map((time) => time + ahead);
      await page.evaluate((all) => {
        const { play } = window as unknown as { play(due: number): void };
        for (const due of all) play(due);
      }, dues);
      return times;
    },
    close: () => context.close(),
  };
}

/** 16 bit, one channel. */
function toneFile(): Buffer {
  const rate = 48_000;
  const count = (LENGTH * rate) / 1000;
  const file = Buffer.alloc(44 + count * 2);
  file.write('RIFF', 0);
  file.writeUInt32LE(36 + count * 2, 4);
  file.write('WAVEfmt ', 8);
  file.writeUInt32LE(16, 16);
  file.writeUInt16LE(1, 20);
  file.writeUInt16LE(1, 22);
  file.writeUInt32LE(rate, 24);
  file.writeUInt32LE(rate * 2, 28);
  file.writeUInt16LE(2, 32);
  file.writeUInt16LE(16, 34);
  file.write('data', 36);
  file.writeUInt32LE(count * 2, 40);
  for (let n = 0; n < count; n++) {
    const near = Math.min(n, count - 1 - n) / ((RAMP * rate) / 1000);
    const level = near >= 1 ? 1 : 0.5 - 0.5 * Math.cos(Math.PI * near);
    file.writeInt16LE(Math.round(16_000 * level * Math.sin((2 * Math.PI * NAIVE_HERTZ * n) / rate)), 44 + n * 2);
  }
  return file;
}
