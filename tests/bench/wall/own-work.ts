/*
 * How long the page's own main thread was at each of its frames, by that thread's own clock: what other programs take of
 * the machine, or the browser waits for, is not in it. A slowed-down thread spins away what it is slowed down by, and
 * that is in it.
 */

import type { Browser, Page } from 'playwright';

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** In microseconds: when, and how long by the thread's own clock. */
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
}

/** Traces a page until what it returns is called. */
export async function traceWork(browser: Browser, page: Page): Promise<() => Promise<readonly number[]>> {
  await browser.startTracing(page, { categories: ['toplevel', 'cc'] });
  return async () => workOfFrames(await browser.stopTracing());
}

/** In ms, of each frame but the first: all tasks since the one before, its script, style, layout and paint among them. */
function workOfFrames(trace: Buffer): readonly number[] {
  const { traceEvents } = JSON.parse(trace.toString()) as { readonly traceEvents: readonly TraceEvent[] };
  const begun = traceEvents.filter(({ name }) => name === 'ProxyMain::BeginMainFrame');
  const threads = new Map<string, number>();
  const threadOf = ({ pid, tid }: TraceEvent): string => `${pid} ${tid}`;
  for (const event of begun) threads.set(threadOf(event), (threads.get(threadOf(event)) ?? 0) + 1);
  const [main] = [...threads].sort(([, a], [, b]) => b - a)[0]!;
  const frames = begun.filter((event) => threadOf(event) === main).map(({ ts }) => ts);
  frames.sort((a, b) => a - b);
  const tasks = traceEvents.filter((event) => event.name === TASK && event.ph === 'X' && threadOf(event) === main);
  tasks.sort((a, b) => a.ts - b.ts);
  const work: number[] = [];
  let frame = 0;
  let sum = 0;
  for (const { ts, dur = 0, tdur = dur } of tasks) {
    sum += tdur / 1000;
    if (frame >= frames.length || ts + dur < frames[frame]!) continue;
    if (frame > 0) work.push(sum);
    sum = 0;
    while (frame < frames.length && frames[frame]! <= ts + dur) frame++;
  }
  return work;
}

const TASK = 'ThreadControllerImpl::RunTask';
