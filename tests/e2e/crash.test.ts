/*
 * The program that dies: what a start makes of it, a disk that is full, two hosts on one folder, and what the pages
 * make of it.
 */

import { execFileSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Browser, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { leavesOf } from '../../app/core/run/record.ts';
import { settle } from '../../app/core/run/settle.ts';
import { lineOf, type JournalEntry } from '../../app/host/journal/journal-line.ts';
import { readJournal } from '../../app/host/journal/journal-text.ts';
import { launched } from '../support/system/launched.ts';
import { freshDataFolder } from '../support/host/folders/data-folder.ts';
import { MortalDeck } from '../support/host/deck/mortal-deck.ts';
import { asPage, ServedHost } from '../support/host/served-host.ts';

/** Longer than a button that ends something is held, in ms. */
const HELD = 700;
const SESSION = 'Harbour squad\nstart on 1\nlane 1\nlane 2\nMain set\n40 x 50 free @ 0:30/0:40\n';

const hosts: ServedHost[] = [];

async function start(...args: Parameters<typeof ServedHost.start>): Promise<ServedHost> {
  const host = await ServedHost.start(...args);
  hosts.push(host);
  return host;
}

afterEach(async () => {
  for (const host of hosts.splice(0)) await host.kill();
});

const journalsIn = (data: string) =>
  readdirSync(join(data, 'runs'))
    .filter((name) => name.endsWith('.jsonl'))
    .map((name) => join(data, 'runs', name));

describe('[crash] at the start', () => {
  test.each([
    ['was killed', 'SIGKILL'],
    ['ended in good order', 'SIGINT'],
  ] as const)(
    'after a host that %s a session given is not opened over an unfinished run, and one line says what to do',
    async (_, signal) => {
      const data = freshDataFolder();
      const first = await start(data, { session: SESSION });
      await first.command('a', { do: 'start' });
      const { id } = (await first.sight()).snapshot.run!;
      await first.end(signal);
      const second = await start(data, { session: 'Another\n50 @ 1:00\n' });
      expect((await second.sight()).snapshot.run).toMatchObject({ id, commands: [{}] });
      await expect
        .poll(() => second.stderr)
        .toMatch(
          /^The unfinished run of Harbour squad has come back, [^\n]+ hold "Leave it" in the coach's window [^\n]+ --data\.\n$/,
        );
      expect(journalsIn(data)).toHaveLength(1);
    },
  );

  test('a second host on the folder says so in one sentence and ends with 1; the first notices nothing', async () => {
    const data = freshDataFolder();
    const first = await start(data, { session: SESSION });
    const { status, stderr } = await ServedHost.refused(data);
    expect({ status, stderr }).toEqual({
      status: 1,
      stderr: expect.stringMatching(/^Another Lanecall is using [^\n]+\n$/) as string,
    });
    expect(await first.command('a', { do: 'start' })).toMatchObject({ ok: true });
  });

  test('a run that is left is closed for good, over HTTP', async () => {
    const data = freshDataFolder();
    const first = await start(data, { session: SESSION });
    await first.command('a', { do: 'start' });
    // A disk that takes longer than 100 ms is not waited for.
    await expect.poll(() => readFileSync(journalsIn(data)[0]!, 'utf8')).toContain('"say":"command"');
    await first.kill();
    const second = await start(data);
    const { run, startUp } = (await second.sight()).snapshot;
    expect(startUp).toEqual({ run: run!.id, unattended: [] });
    expect((await second.post('/leave', { run: 'another' })).status).toBe(409);
    expect((await second.post('/leave', { run: run!.id })).status).toBe(200);
    await expect.poll(() => readFileSync(journalsIn(data)[0]!, 'utf8')).toContain('"why":"left"');
    await second.kill();
    expect((await (await start(data)).sight()).snapshot).toMatchObject({ run: null, notices: [] });
  });

  test('a journal torn on the disk loses its tear and nothing else', async () => {
    const data = freshDataFolder();
    const first = await start(data, { session: SESSION });
    for (const id of ['a', 'b', 'c']) await first.command(id, { do: 'mark', words: id });
    await first.kill();
    const [path] = journalsIn(data);
    const bytes = readFileSync(path!);
    writeFileSync(path!, Buffer.concat([bytes, bytes.subarray(0, 77)]));
    const second = await start(data);
    const { run, notices } = (await second.sight()).snapshot;
    expect(run!.commands).toHaveLength(3);
    expect(notices.join(' ')).toContain('is damaged');
    expect(readFileSync(`${path}.torn`)).toEqual(bytes.subarray(0, 77));
  });
});

describe('[crash] a disk on which nothing more fits', () => {
  test('the run goes on with a warning, and everything is written when there is room again', async () => {
    const data = freshDataFolder();
    const host = await start(data, { session: SESSION, shell: 'ulimit -S -f 4' });
    const words = 'x'.repeat(200);
    for (let index = 0; index < 20; index++) {
      expect(await host.command(`mark-${index}`, { do: 'mark', words })).toMatchObject({ ok: true });
    }
    expect((await host.sight()).snapshot.notices).toEqual([
      expect.stringMatching(/not on the disk .*would not survive/),
    ]);
    const inJournal = (): number => {
      const read = readJournal(readFileSync(journalsIn(data)[0]!));
      return read.kind === 'journal' ? read.entries.filter(({ say }) => say === 'command').length : 0;
    };
    expect(inJournal()).toBeLessThan(20);
    execFileSync('prlimit', ['--pid', String(host.child.pid), '--fsize=unlimited:']);
    await expect.poll(async () => (await host.sight()).snapshot.notices).toEqual([]);
    expect(inJournal()).toBe(20);
  });

  test('a second host sees the first there all the same; when that is killed, one goes on with what was kept', async () => {
    const data = freshDataFolder();
    const first = await start(data, { session: SESSION });
    await first.command('a', { do: 'start' });
    const { status, stderr } = await ServedHost.refused(data, 'ulimit -S -f 0');
    expect({ status, stderr }).toMatchObject({
      status: 1,
      stderr: expect.stringMatching(/^Another Lanecall/) as string,
    });
    await first.kill();
    const second = await start(data, { shell: 'ulimit -S -f 0' });
    const { run, notices } = (await second.sight()).snapshot;
    expect(run!.commands).toHaveLength(1);
    expect(notices).toEqual([
      expect.stringContaining('has come back'),
      expect.stringMatching(/cannot be written to \(the file cannot get any longer\).* would not be noticed/),
      expect.stringMatching(/not on the disk .*would not survive/),
    ]);
    expect(readdirSync(data)).toEqual(['runs']);
  });
});

describe('[wake] a host that is stopped where it is and goes on later', () => {
  test('hands over what fell due meanwhile, each leave once and none before its time', async () => {
    const deck = await MortalDeck.start();
    try {
      await asPage(deck.origin, 'PUT', '/session', { text: SESSION });
      await asPage(deck.origin, 'POST', '/command', { say: 'command', id: 'a', command: { do: 'start' } });
      await expect.poll(() => deck.run().commands.length).toBe(1);
      const { openedAt, state } = deck.run();
      const [first, second, third] = leavesOf(settle(state, 60_000)).map(({ lane, at }) => ({ lane, at }));
      deck.moveTo(openedAt + first!.at - 400);
      await pause(100);
      deck.signal('SIGSTOP');
      await pause(1500);
      expect(deck.handedOver()).toEqual([]);
      deck.signal('SIGCONT');
      await expect.poll(() => deck.handedOver()).toEqual([first, second]);
      // Over the next leave too, and past it while it is stopped.
      deck.signal('SIGSTOP');
      deck.moveTo(openedAt + third!.at + 500);
      deck.signal('SIGCONT');
      await expect.poll(() => deck.handedOver()).toEqual([first, second, third]);
    } finally {
      await deck.kill();
    }
  });
});

describe('[lock] a host that is stopped where it is while another takes its folder', () => {
  test('writes nothing more there when it goes on, and tells the coach', async () => {
    const data = freshDataFolder();
    const host = await start(data, { session: SESSION });
    await host.command('a', { do: 'start' });
    const [path] = journalsIn(data);
    // On a busy disk a command is answered before it is there.
    await expect.poll(() => readFileSync(path!, 'utf8')).toContain('"say":"command"');
    host.child.kill('SIGSTOP');
    const before = readFileSync(path!);
    const other = JSON.stringify({
      pid: 1,
      born: null,
      boot: 'another machine',
      space: null,
      token: 'other',
      beat: '0',
    });
    writeFileSync(join(data, 'host.lock.other'), other);
    renameSync(join(data, 'host.lock.other'), join(data, 'host.lock'));
    host.child.kill('SIGCONT');
    expect(await host.command('late', { do: 'mark' })).toMatchObject({ ok: true });
    await expect
      .poll(async () => (await host.sight()).snapshot.notices)
      .toEqual([
        expect.stringMatching(
          /^Another Lanecall has taken over .*: nothing .* is recorded any more\. Close one of the two/,
        ),
      ]);
    expect(readFileSync(path!)).toEqual(before);
    await host.end('SIGINT');
    expect(readFileSync(join(data, 'host.lock'), 'utf8')).toBe(other);
    expect(readFileSync(path!)).toEqual(before);
  });
});

describe('[crash] the pages', () => {
  let browser: Browser;

  beforeAll(async () => {
    browser = await launched();
  });
  afterAll(() => browser?.close());

  test('take up the truth within two seconds of the host being back, and the coach may leave the run', async () => {
    const data = freshDataFolder();
    const first = await start(data, { session: SESSION });
    const port = Number(new URL(first.origin).port);
    const desk = await browser.newPage();
    await desk.goto(`${first.origin}/`);
    await desk.getByRole('button', { name: 'Start', exact: true }).click();
    await expect.poll(async () => (await first.sight()).snapshot.run?.commands.length).toBe(1);
    await first.kill();
    // Long enough for the pages to have called again in vain a few times, the last waits being the longest there are.
    await desk.waitForTimeout(4000);
    await start(data, { port });
    // A page calls again at least every 1.5 s; the rest is left to a busy machine.
    await comeback(desk).waitFor({ timeout: 5000 });
    const leave = notice(desk).getByRole('button', { name: 'Leave it', exact: true });
    await leave.click();
    await notice(desk).getByText('Hold Leave it for 0.6 s.').waitFor();
    await leave.focus();
    await desk.keyboard.down('Enter');
    await desk.waitForTimeout(HELD);
    await desk.keyboard.up('Enter');
    await desk.getByRole('button', { name: 'Run this session', exact: true }).waitFor();
    expect([await comeback(desk).count(), await leave.count()]).toEqual([0, 0]);
    await desk.close();
  });

  test('list a run that was left unattended until the coach has read it; standard error has it too', async () => {
    const data = freshDataFolder();
    writeYesterdays(data);
    const kept = /Harbour squad, opened on \d+ \w+ \d{4} at 19:30: 1 command, the last leave at 19:31\./;
    const first = await start(data);
    await expect.poll(() => first.stderr).toMatch(/^Left unattended and closed: Harbour squad, [^\n]+\n$/);
    const desk = await browser.newPage();
    await desk.goto(`${first.origin}/`);
    const list = desk.getByRole('region', { name: 'Earlier runs', exact: true });
    await list.getByText(kept).waitFor();
    const read = desk.getByRole('button', { name: 'I have read it', exact: true });
    await read.click();
    await expect.poll(async () => [await list.count(), await read.count()]).toEqual([0, 0]);
    await desk.close();
    await first.kill();
    const second = await start(data);
    expect((await second.sight()).snapshot).toMatchObject({ run: null, startUp: null });
    expect(second.stderr).toBe('');
  });

  test('go on with the run where the coach says so, without another word', async () => {
    const data = freshDataFolder();
    const first = await start(data, { session: SESSION });
    await first.command('a', { do: 'start' });
    await first.kill();
    const second = await start(data);
    const desk = await browser.newPage();
    await desk.goto(`${second.origin}/`);
    const read = notice(desk).getByRole('button', { name: 'I have read it', exact: true });
    await read.click();
    await expect.poll(async () => [await comeback(desk).count(), await read.count()]).toEqual([0, 0]);
    expect((await second.sight()).snapshot.run).not.toBeNull();
    await desk.close();
  });
});

/** A journal of yesterday in the first form, whose lines name no line before, and of another start of the machine: one command, one leave of each lane, then nothing more. */
function writeYesterdays(data: string): void {
  const wall = Date.now() - 24 * 60 * 60_000;
  const stamp = (at: number) => ({ at, mono: at, uptime: at, wall: wall + at, boot: 'yesterday' });
  const entries: readonly JournalEntry[] = [
    {
      ...{ say: 'opened', journal: 1, run: 'old', text: SESSION, lanesText: null, clockPhase: 0 },
      ...{ openedAtTimeOfDay: 19.5 * 60 * 60_000, ...stamp(0) },
    },
    { say: 'command', id: 'a', command: { do: 'start' }, ...stamp(65_000) },
    { say: 'alive', leaves: [], ...stamp(80_000) },
  ];
  mkdirSync(join(data, 'runs'));
  writeFileSync(
    join(data, 'runs', '2020-01-01T00-00-00Z-old.jsonl'),
    entries.map((entry) => lineOf(entry, null).text).join(''),
  );
}

/** It may stay when the news in it is read: on a busy machine it says that the clock of this window is only fair. */
const notice = (desk: Page) => desk.getByRole('status', { name: 'Notices' });

const comeback = (desk: Page) => notice(desk).getByText(/has come back/);
