/*
 * Taps what a page sends to its loudspeaker, after everything is mixed, and says when by the page's clock
 * each sample is heard: from the browser's own word on how far its sound has come, read all the while.
 */

import type { Page } from 'playwright';
import { onsetsOf, type Pitch } from './onsets.ts';

/** howler's node through which everything goes. */
interface Mixer {
  readonly Howler: { readonly ctx: AudioContext; readonly masterGain: GainNode };
}

interface Tap {
  readonly rate: number;
  /** The context's time of the first sample, in s, and the samples. */
  readonly blocks: [number, readonly number[]][];
  /** The context's time, in s, and when it is heard by the page's clock, in ms. */
  readonly stamps: [number, number][];
}

/** Hands on every sample that is not silent with the time of its block. */
const WORKLET = `registerProcessor('tap', class extends AudioWorkletProcessor {
  process([[samples]]) {
    if (samples && samples.some((sample) => sample !== 0)) this.port.postMessage([currentTime, Array.from(samples)]);
    return true;
  }
});`;

/** Begins to listen on the context that the page has now; the page must have its content policy bypassed. */
export async function tapSound(page: Page): Promise<void> {
  await page.evaluate(async (worklet) => {
    const { Howler } = window as unknown as Mixer;
    const { ctx, masterGain } = Howler;
    const tap: Tap = { rate: ctx.sampleRate, blocks: [], stamps: [] };
    Object.assign(window, { tap });
    await ctx.audioWorklet.addModule(URL.createObjectURL(new Blob([worklet], { type: 'text/javascript' })));
    const node = new AudioWorkletNode(ctx, 'tap', {
      numberOfOutputs: 0,
      channelCount: 1,
      channelCountMode: 'explicit',
    });
    node.port.onmessage = ({ data }) => tap.blocks.push(data as [number, number[]]);
    masterGain.connect(node);
    setInterval(() => {
      const { contextTime, performanceTime } = ctx.getOutputTimestamp();
      if (contextTime && performanceTime) tap.stamps.push([contextTime, performanceTime]);
    }, 25);
  }, WORKLET);
}

/** When tones of a pitch have begun since then, by the page's clock, in ms. */
export async function tappedOnsets(page: Page, pitch: Pitch): Promise<readonly number[]> {
  const { rate, blocks, stamps } = await page.evaluate(() => (window as unknown as { tap: Tap }).tap);
  const [first] = blocks;
  const last = blocks[blocks.length - 1];
  if (!first || !last) return [];
  // A second of silence before the first sound and after the last one.
  const begin = first[0] - 1;
  const samples = new Float32Array(Math.ceil((last[0] - begin + 1) * rate));
  for (const [time, block] of blocks) samples.set(block, Math.round((time - begin) * rate));
  return onsetsOf(samples, rate, pitch).map(({ at }) => heardAt(begin + at, stamps));
}

/** In s of the context: so near to a sound its stamps are taken together. */
const NEAR = 1.5;

function heardAt(contextTime: number, stamps: readonly (readonly [number, number])[]): number {
  const near = stamps.filter(([time]) => Math.abs(time - contextTime) < NEAR);
  const behind = near.map(([time, page]) => page - time * 1000).sort((a, b) => a - b);
  const middle = behind[behind.length >>> 1];
  if (middle === undefined) throw new Error('no word of the output around a sound');
  return contextTime * 1000 + middle;
}
