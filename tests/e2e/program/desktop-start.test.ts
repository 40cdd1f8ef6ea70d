/*
 * How the desktop program starts, is refused and comes back, on Electron where its runtime is and everywhere on
 * the stand-in.
 */

import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { systemAddresses } from '../../../app/host/sharing/address/addresses.ts';
import { button } from '../../support/coach/coach-hand.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { DesktopProgram, ENGINES, LAPTOP, ROOT, STAND_IN, TELEVISION } from '../../support/desktop/desktop-program.ts';
import { commands, sight } from '../../support/desktop/desktop-sight.ts';

const SESSION =
  'Harbour squad\nstart on 1\nlane 1\nlane 2\nMain set\n90 x 25 free @ 0:05/0:07\nSwim-down\n100 easy choice';

describe.each(ENGINES)('[desktop] on $name: one display', ({ path: engine }) => {
  test('it says how to extend instead of mirror; killed, it comes back where it should be', async () => {
    const data = freshDataFolder();
    const file = join(data, 'harbour.txt');
    writeFileSync(file, SESSION);
    const first = await DesktopProgram.start(engine, [file, '--data', data], [LAPTOP]);
    const desk = await first.page('/');
    await expect
      .poll(() => desk.getByRole('status').allInnerTexts())
      .toContainEqual(expect.stringMatching(/only one display.*extend/s));
    expect(await first.wall()).toMatchObject({ full: false });
    await button(desk, 'Start').click();
    await expect.poll(() => commands(data)).toEqual(['start']);
    await first.kill();
    const second = await DesktopProgram.start(engine, ['--data', data], [LAPTOP, TELEVISION]);
    const again = await second.page('/');
    await expect.poll(() => button(again, 'I have read it').count()).toBe(1);
    await expect.poll(async () => sight(await second.page('/display'))).toMatch(/^\d+:\d\d$/);
    await second.close();
  });
});

describe.each(ENGINES)('[screens] on $name', ({ path: engine }) => {
  test("the Screens panel shows the program's own wall, what is set there holds on it, and it shares and stops", async () => {
    const file = join(freshDataFolder(), 'harbour.txt');
    writeFileSync(file, SESSION);
    const program = await DesktopProgram.start(engine, [file, '--data', freshDataFolder()], [LAPTOP, TELEVISION]);
    const desk = await program.page('/');
    await button(desk, 'Screens').click();
    await desk.getByRole('heading', { name: 'Wall', exact: true }).waitFor();
    const wall = await program.page('/display');
    const sides = (): Promise<(string | null)[]> =>
      Promise.all([wall, desk.frameLocator('iframe')].map((on) => on.locator('.board').getAttribute('data-from')));
    await expect.poll(sides).toEqual(['left', 'left']);
    await desk.getByLabel('Push off').selectOption('at the right');
    await expect.poll(sides).toEqual(['right', 'right']);
    await button(desk, 'Show which is which').click();
    await wall.getByRole('status').getByText('Wall', { exact: true }).waitFor();
    // It shares on the network that the machine is on, and stops; on none it says so.
    const share = button(desk, 'Share with other screens');
    if (systemAddresses().length === 0) {
      expect(await share.getAttribute('title')).toMatch(/^This machine is on no private network: connect/);
    } else {
      await share.click();
      const address = await desk.getByText(/^http:\/\/[\d.]+:\d+\/$/).innerText();
      expect((await fetch(`${address}healthz`)).status).toBe(200);
      await share.click();
      const asked = (): Promise<unknown> => fetch(`${address}healthz`).catch(() => 'nobody listens');
      await expect.poll(asked).toBe('nobody listens');
    }
    // A text is read by a worker in these windows too: one that cannot be loaded is ended, and the page reads.
    await button(desk, 'Edit').click();
    await desk.getByRole('region', { name: 'What it comes to' }).getByText('Main set').first().waitFor();
    expect(desk.workers().map((worker) => worker.url())).toEqual([expect.stringContaining('reading-worker')]);
    await program.close();
  });
});

describe.each(ENGINES)('[start] on $name', ({ path: engine }) => {
  test('a data folder that cannot be made is one line and the end, at once', () => {
    const file = join(freshDataFolder(), 'a-file');
    writeFileSync(file, '');
    const words = [...(engine === STAND_IN ? [] : ['--no-sandbox']), ROOT, '--data', join(file, 'data')];
    const { status, stderr } = spawnSync(engine, words, { encoding: 'utf8', timeout: 20_000 });
    expect(status).toBe(1);
    expect(stderr.trim().split('\n')).toEqual([expect.stringMatching(/no folder can be made there \(ENOTDIR/)]);
  });

  test('a sandbox that was switched off is not switched on beside it', async () => {
    const program = await DesktopProgram.start(engine, ['--data', freshDataFolder()], [LAPTOP]);
    // The test library gives the switch under Linux.
    const isOff = await program.app.evaluate(({ app }) => app.commandLine.hasSwitch('no-sandbox'));
    expect(isOff).toBe(process.platform === 'linux');
    await program.close();
  });

  test('npm start waits until the program is open, hands on the word to end, and ends with it', async () => {
    const desktop = new URL('../../../app/cli/start/desktop.ts', import.meta.url);
    const words = [...(engine === STAND_IN ? [] : ['--no-sandbox']), ROOT, '--data', freshDataFolder()];
    const script = `const { runDesktop } = await import(${JSON.stringify(desktop.href)});
      const opening = await runDesktop(${JSON.stringify(engine)}, ${JSON.stringify(words)}, '.');
      process.stdout.write(Object.keys(opening).join());
      process.exitCode = await opening.ended;`;
    const child = spawn(process.execPath, ['--import', 'tsx', '--input-type=module', '--eval', script], {
      stdio: 'pipe',
    });
    const [said] = (await once(child.stdout, 'data')) as [Buffer];
    expect(said.toString()).toBe('ended');
    const gone = once(child, 'exit');
    child.kill('SIGTERM');
    expect(await gone).toEqual([0, null]);
  });
});
