/*
 * What a page's main thread does while keys come: the processor time, in ms, of each task that takes a key, and of each
 * other one, which may hold up the next key. Time in which other programs have the processor does not count, so that a busy
 * machine changes little. Tracing costs some time itself.
 */

import type { Page } from 'playwright';

export interface Tasks {
  readonly keys: readonly number[];
  readonly others: readonly number[];
}

interface Traced {
  readonly name: string;
  readonly pid: number;
  readonly tid: number;
  /** In µs, as all times here. */
  readonly ts: number;
  readonly dur?: number;
  /** Of the processor alone. */
  readonly tdur?: number;
  readonly args?: { readonly name?: string; readonly data?: { readonly type?: string } };
}

export async function tasksDuring(page: Page, type: () => Promise<void>): Promise<Tasks> {
  return sorted(await traceOf(page, type));
}

async function traceOf(page: Page, during: () => Promise<void>): Promise<readonly Traced[]> {
  const browser = await page.context().newCDPSession(page);
  const traced: Traced[] = [];
  browser.on('Tracing.dataCollected', ({ value }) => traced.push(...(value as unknown as Traced[])));
  await browser.send('Tracing.start', {
    traceConfig: { includedCategories: ['devtools.timeline', 'toplevel'], recordMode: 'recordAsMuchAsPossible' },
  });
  await during();
  const isComplete = new Promise((resolve) => browser.once('Tracing.tracingComplete', resolve));
  await browser.send('Tracing.end');
  await isComplete;
  return traced;
}

/** On the page's main thread, in ms. */
export async function longestTask(page: Page, during: () => Promise<void>): Promise<number> {
  const traced = await traceOf(page, during);
  const main = traced.filter(({ name, args }) => name === 'thread_name' && args?.name === 'CrRendererMain');
  const tasks = traced.filter(({ pid, tid, name, tdur }) => {
    return name.endsWith('RunTask') && tdur !== undefined && main.some((each) => each.pid === pid && each.tid === tid);
  });
  return Math.max(...tasks.map(({ tdur }) => tdur! / 1000));
}

function sorted(traced: readonly Traced[]): Tasks {
  const downs = traced.filter(({ name, args }) => name === 'EventDispatch' && args?.data?.type === 'keydown');
  const first = downs[0];
  if (!first) throw new Error('The trace has no key.');
  const keys: number[] = [];
  const others: number[] = [];
  for (const { name, pid, tid, ts, dur, tdur } of traced) {
    if (pid !== first.pid || tid !== first.tid || !name.endsWith('RunTask') || tdur === undefined) continue;
    const end = ts + (dur ?? 0);
    (downs.some((down) => ts <= down.ts && down.ts <= end) ? keys : others).push(tdur / 1000);
  }
  return { keys, others };
}
