/*
 * The checks of the smoke, in the order of an evening: the program opens, shows, runs, saves, is left and comes back.
 */

import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Page } from 'playwright';
import { button } from '../support/coach/coach-hand.ts';
import { DesktopProgram, ROOT } from '../support/desktop/desktop-program.ts';
import { commands } from '../support/desktop/desktop-sight.ts';
import { failed, held, unseen, type Outcome, type Report } from './report.ts';
import { bounds, displays, isNear, painted } from './sights.ts';

const SESSION = 'Smoke\nstart on 1\nlane 1\nlane 2\nMain set\n60 x 25 free @ 0:10\nSwim-down\n100 easy';

/** folder: for the pictures. */
export async function smoke(engine: string, folder: string, report: Report): Promise<void> {
  const data = mkdtempSync(join(tmpdir(), 'lanecall-smoke-'));
  const file = join(data, 'smoke.lanecall');
  writeFileSync(file, SESSION);
  const program = await DesktopProgram.asItIs(engine, [file, '--data', data]);
  try {
    await opened(program, folder, report);
    await shown(program, folder, report);
    await withSecond(engine, program, data, report);
    await run(engine, program, data, report);
    await saved(program, data, report);
    await left(program, report);
  } finally {
    await program.kill();
  }
  await cameBack(engine, data, folder, report);
  rmSync(data, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });
}

async function opened(program: DesktopProgram, folder: string, report: Report): Promise<void> {
  for (const [path, name] of [
    ['/', 'coach'],
    ['/display', 'wall'],
  ] as const) {
    await report.check(`the ${name}'s window is painted`, () => painted(program, path, join(folder, `${name}.png`)));
  }
  await report.check('the session of the command line is open', async () => {
    const desk = await program.page('/');
    await until(async () => (await desk.locator('body').innerText()).includes('Smoke'));
    return held();
  });
  await report.check('a process for graphics lives', () =>
    program.app.evaluate(({ app }) => {
      // The stand-in has none.
      const all = app.getAppMetrics?.();
      if (!all) return { kind: 'unseen', what: 'no runtime' } as const;
      const lives = all.some(({ type }) => type === 'GPU');
      return { kind: lives ? 'held' : 'failed', what: '' } as const;
    }),
  );
  // Before anything has been pressed: afterwards the engine would let every page sound.
  await report.check('a tone sounds without a tap', async () => soundsUntouched(await program.page('/')));
  await report.check('pages are shut in', async () => shutIn(program));
}

async function shutIn(program: DesktopProgram): Promise<Outcome> {
  for (const path of ['/', '/display'] as const) {
    const found = await (
      await program.page(path)
    ).evaluate(() => ['require', 'process', 'module', 'Buffer', '__dirname'].filter((name) => name in window));
    if (found.length > 0) return failed(`${path} has ${found.join(', ')}`);
  }
  // Linux does not say which process is in its sandbox.
  const open = await program.app.evaluate(({ app }) =>
    (app.getAppMetrics?.() ?? []).filter(({ type, sandboxed }) => type === 'Tab' && sandboxed === false),
  );
  return open.length === 0 ? held() : failed(`${open.length} page processes are out of the sandbox`);
}

/** The first sound of the build, played on a context of its own; its time must go on. */
async function soundsUntouched(desk: Page): Promise<Outcome> {
  const name = readdirSync(join(ROOT, 'dist', 'pages', 'assets')).find((each) => each.endsWith('.wav'));
  if (!name) return failed('the build has no sound');
  const state = await desk.evaluate(async (address) => {
    const context = new AudioContext();
    const source = context.createBufferSource();
    source.buffer = await context.decodeAudioData(await (await fetch(address)).arrayBuffer());
    source.connect(context.destination);
    source.start();
    await new Promise((resolve) => setTimeout(resolve, 3000));
    const { state, currentTime } = context;
    await context.close();
    return { state, currentTime };
  }, `/assets/${name}`);
  const says = `context ${state.state}, ${state.currentTime.toFixed(1)} s played in 3`;
  return state.state === 'running' && state.currentTime > 0.5 ? held(says) : failed(says);
}

async function shown(program: DesktopProgram, folder: string, report: Report): Promise<void> {
  const all = await displays(program);
  const second = all.find(({ isCoachs }) => !isCoachs);
  const isFullOn = (wanted: { readonly id: number }) => async (): Promise<boolean> => {
    const wall = await bounds(program);
    return wall.full && wall.display === wanted.id;
  };
  await report.check('the wall screen is full screen on the second display', async () => {
    if (!second) return unseen('there is one display');
    await until(isFullOn(second));
    return stillSo(isFullOn(second));
  });
  await report.check('the wall screen goes into a window', async () => {
    await program.menu('Wall screen', 'In a window');
    const isWindow = async (): Promise<boolean> => {
      const { full, bounds: now, wanted } = await bounds(program);
      return !full && (wanted === null || isNear(now, wanted));
    };
    await until(isWindow);
    await painted(program, '/display', join(folder, 'wall-in-a-window.png'));
    return stillSo(isWindow);
  });
  await report.check('the wall screen moves to a display', async () => {
    if (!second) return unseen('there is one display');
    await program.menu('Wall screen', 'Full screen');
    await program.app.evaluate(({ Menu }, index) => {
      const wall = Menu.getApplicationMenu()!.items.find(({ label }) => label === 'Wall screen')!;
      wall.submenu!.items.find(({ label }) => label === 'Move to')!.submenu!.items[index]!.click();
    }, all.indexOf(second));
    await until(isFullOn(second));
    return stillSo(isFullOn(second));
  });
}

/** A second later: what a system sets by itself it sets by then. */
async function stillSo(look: () => Promise<boolean>): Promise<Outcome> {
  await pause(1000);
  return (await look()) ? held('and a second later') : failed('not any more a second later');
}

async function withSecond(engine: string, program: DesktopProgram, data: string, report: Report): Promise<void> {
  const desk = await program.page('/');
  await report.check('a second start without a session ends, and the first stays', async () => {
    const status = await DesktopProgram.startSecond(engine, ['--data', data]);
    return status === 0 && (await desk.locator('body').innerText()).includes('Smoke')
      ? held()
      : failed(`it ended with ${status}`);
  });
}

async function run(engine: string, program: DesktopProgram, data: string, report: Report): Promise<void> {
  const desk = await program.page('/');
  await report.check('a run is started, stopped and resumed over the bridge', async () => {
    await button(desk, /^Start( now)?$/).click();
    await until(() => commands(data).includes('start'));
    // Within the first seconds a Stop may be refused as a slip of the hand.
    await pause(4000);
    await button(desk, 'Stop all lanes').click();
    await until(() => commands(data).includes('stop'));
    await pause(1200);
    await button(desk, 'Resume').click();
    await until(() => commands(data).includes('resume'));
    return held();
  });
  await report.check('a second start hands its session to the first', async () => {
    const other = join(data, 'friday.lanecall');
    writeFileSync(other, 'Friday\nMain set\n4 x 100 free @ 2:00');
    const status = await DesktopProgram.startSecond(engine, [other, '--data', data]);
    if (status !== 0) return failed(`it ended with ${status}`);
    await until(async () =>
      (await desk.getByRole('status').allInnerTexts()).join().includes('friday.lanecall is in the editor'),
    );
    await button(desk, 'Close this').click();
    return held();
  });
  await report.check('a command from the wall screen is refused', async () => {
    const before = commands(data).length;
    const wall = await program.page('/display');
    await wall.evaluate(() => {
      const { say } = window.lanecallWindow!;
      say(JSON.stringify({ say: 'command', id: 'from-the-wall', command: { do: 'stop' } }));
    });
    await pause(1500);
    return commands(data).length === before ? held() : failed('it was carried out');
  });
}

async function saved(program: DesktopProgram, data: string, report: Report): Promise<void> {
  await report.check('quitting is refused while a run goes', async () => {
    await program.app.evaluate(({ app }) => app.quit());
    const desk = await program.page('/');
    await until(async () => (await desk.getByRole('status').allInnerTexts()).join().includes('quit again'));
    return held();
  });
  await report.check('the record is saved', async () => {
    const desk = await program.page('/');
    const path = join(data, 'record.csv');
    await program.app.evaluate(({ session }, to) => {
      session.defaultSession.once('will-download', (_, item) => item.setSavePath(to));
    }, path);
    await button(desk, 'Finish').click({ delay: 900 });
    await until(async () => (await button(desk, 'Save as a table').count()) === 1);
    await button(desk, 'Save as a table').click();
    await until(() => existsSync(path) && readFileSync(path, 'utf8').includes('start'));
    return held();
  });
}

async function left(program: DesktopProgram, report: Report): Promise<void> {
  await report.check('quitting is accepted when no run goes', async () => {
    const { child } = program;
    await program.app.evaluate(({ app }) => app.quit()).catch(() => undefined);
    await until(() => child.exitCode !== null);
    return child.exitCode === 0 ? held() : failed(`it ended with ${child.exitCode}`);
  });
}

async function cameBack(engine: string, data: string, folder: string, report: Report): Promise<void> {
  await report.check('killed during a run and started again, the run is back', async () => {
    const file = join(data, 'smoke.lanecall');
    const first = await DesktopProgram.asItIs(engine, [file, '--data', data]);
    try {
      const desk = await first.page('/');
      const before = commands(data).length;
      await button(desk, /^Start( now)?$/).click();
      await until(() => commands(data).length > before);
    } finally {
      await first.kill();
    }
    const second = await DesktopProgram.asItIs(engine, ['--data', data]);
    try {
      const desk = await second.page('/');
      await until(async () => (await button(desk, 'I have read it').count()) === 1);
      await painted(second, '/', join(folder, 'coach-come-back.png'));
      return held();
    } finally {
      await second.close();
    }
  });
}

const PATIENCE_MS = 20_000;

async function until(look: () => boolean | Promise<boolean>): Promise<void> {
  const end = Date.now() + PATIENCE_MS;
  while (!(await look())) {
    if (Date.now() > end) throw new Error(`not within ${PATIENCE_MS / 1000} s`);
    await pause(100);
  }
}
