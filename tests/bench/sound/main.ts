/*
 * `npm run bench:sound`: records what the machine really plays while a session runs, finds every tone in
 * the recording, and holds it against the host's leave times; idle and with one core kept busy, beside
 * the naive way. Takes about seven minutes. `-- --detail` lists by how much each tone was off.
 */

import { spawn } from 'node:child_process';
import { cpus, loadavg } from 'node:os';
import { setTimeout as pause } from 'node:timers/promises';
import type { Browser, Page } from 'playwright';
import type { Cue } from '../../../app/core/sound/cues.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { onsetsOf, type Pitch } from '../../support/sound/onsets.ts';
import { ServedHost } from '../../support/host/served-host.ts';
import { row, tableText, type Row } from '../table.ts';
import { errorsOf, spreadOf, type Errors } from '../../support/sound/heard-and-due.ts';
import { unplug } from './device.ts';
import { openEvening, played, playEvening } from './evening.ts';
import { NAIVE_HERTZ, openNaive, type Naive } from './naive.ts';
import { RATE, type Recording } from './recording.ts';
import { missing, Studio } from './studio.ts';

const LEAVE = { hertz: 1600, least: 0.2 };
const PIP = { hertz: 1000, least: 0.1 };
const NAIVE = { hertz: NAIVE_HERTZ, least: 0.1 };

const absent = missing();
if (absent !== null) {
  process.stderr.write(`${absent}\n`);
  process.exit(1);
}
process.stdout.write(await bench());

async function bench(): Promise<string> {
  const studio = await Studio.open();
  const data = freshDataFolder();
  const host = await ServedHost.start(data);
  try {
    const screen = await openScreen(studio.browser, host.origin);
    const naive = await openNaive(studio.browser);
    const rows: Row[] = [];
    for (const condition of ['nothing else to do', 'one core busy']) {
      const stop = condition === 'one core busy' ? keepOneCoreBusy() : () => undefined;
      rows.push(...(await record(studio, host, data, naive, condition)));
      stop();
    }
    await openEvening(host);
    rows.push(await unplug(studio, screen, LEAVE));
    const chromium = studio.browser.version();
    await screen.close();
    return `Node ${process.versions.node}, Chromium ${chromium}, ${cpus().length} cores\n${tableText(rows)}`;
  } finally {
    await host.kill();
    await studio.close();
  }
}

/** A wall screen whose sound is switched on as somebody at it does. */
async function openScreen(browser: Browser, origin: string): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 } });
  const page = await context.newPage();
  await page.goto(`${origin}/display`);
  const control = page.getByRole('button', { name: 'Sound on this screen: off' });
  // The page shows its switch when somebody moves the pointer, once it is there itself.
  for (let x = 200; (await control.count()) === 0; x = 500 - x) {
    await page.mouse.move(x, 200);
    await pause(100);
  }
  await control.click();
  await page.getByRole('button', { name: 'Sound on this screen: on' }).waitFor();
  return page;
}

async function record(
  studio: Studio,
  host: ServedHost,
  data: string,
  naive: Naive,
  condition: string,
): Promise<readonly Row[]> {
  const before = loadavg()[0]!;
  const recorder = studio.record();
  let naiveTimes: readonly number[] = [];
  await playEvening(host, async () => {
    const { ahead } = await host.sight();
    naiveTimes = await naive.play(4500 - ahead, 85);
  });
  // What was on its way to the loudspeaker, and nothing of the next second.
  await pause(300);
  const recording = await recorder.stop();
  const { cues, ahead } = await played(host, data);
  const ours = errorsOf(
    cues.map(({ at }) => at - ahead),
    heardAt(recording, LEAVE, PIP),
  );
  const theirs = errorsOf(naiveTimes, heardAt(recording, NAIVE));
  const tones = cues.filter(({ kind }) => kind === 'leave');
  const leaves = tones.reduce((sum, { lanes }) => sum + lanes.length, 0);
  const load = `load ${before.toFixed(1)} before, ${loadavg()[0]!.toFixed(1)} after`;
  if (process.argv.includes('--detail')) process.stdout.write(detail(cues, ours));
  return [
    row(`${condition}, ${leaves} leaves in ${tones.length} tones, ${cues.length - tones.length} pips`, load),
    row('  ours', text(ours)),
    row('  howler play() from a timer', text(theirs)),
    row('  recorder', `${(recording.samples.length / RATE).toFixed(0)} s, ${recording.fast.toFixed(0)} ppm fast`),
  ];
}

/** When tones of these pitches begin, by the bench's clock, in ms. */
function heardAt({ samples, timeOf }: Recording, ...pitches: readonly Pitch[]): readonly number[] {
  const onsets = pitches.flatMap((pitch) => onsetsOf(samples, RATE, pitch));
  return onsets.map(({ at }) => timeOf(at)).sort((a, b) => a - b);
}

/** One line a tone that was heard: the run's second, what it was, and by how many ms it was off. */
function detail(cues: readonly Cue[], { errors, missing: gone, due }: Errors): string {
  const heard = due.map((time, index) => ({ time, cue: cues[index]! })).filter(({ time }) => !gone.includes(time));
  return heard
    .map(
      ({ cue }, index) =>
        `${(cue.at / 1000).toFixed(1).padStart(6)} ${cue.kind.padEnd(6)} ${errors[index]!.toFixed(2)}\n`,
    )
    .join('');
}

function text({ errors, delay, missing: gone, extra }: Errors): string {
  const { p50, p99, max, sd } = spreadOf(errors);
  const [a, b, c, d] = [p50, p99, max, sd].map((value) => value.toFixed(2));
  const sizes = `off by p50 ${a}, p99 ${b}, max ${c} ms, sd ${d}`;
  return `${sizes}; ${errors.length} heard, ${gone.length} missing, ${extra.length} extra; delay ${delay.toFixed(0)} ms`;
}

function keepOneCoreBusy(): () => void {
  const child = spawn(process.execPath, ['-e', 'for (;;);'], { stdio: 'ignore' });
  return () => void child.kill('SIGKILL');
}
