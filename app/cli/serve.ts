/*
 * `lanecall serve`: the host without a window. It opens the session, if one is given, serves the pages and runs until
 * it is told to end.
 */

import { existsSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { homedir } from 'node:os';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Source } from '../core/plan/plan.ts';
import { systemClock } from '../host/time/clock.ts';
import { dataFolder } from '../host/lock/data-folder.ts';
import { openDeck } from '../host/deck/deck-opening.ts';
import { startLoop } from '../host/time/loop.ts';
import { readPages } from '../host/web/pages.ts';
import { lifeSigns } from '../host/journal/life-signs.ts';
import { DEFAULT_PORT } from '../host/web/http-server.ts';
import { PortTaken, startServer, type DeckServer } from '../host/web/server.ts';
import { openSharing } from '../host/web/share.ts';
import { likeliestFirst, systemAddresses, type Addresses } from '../host/sharing/address/addresses.ts';
import type { Sharing } from '../host/sharing/sharing.ts';
import { systemTimers } from '../host/time/timers.ts';
import type { SessionFile } from '../wire/window-bridge.ts';
import { readArguments } from './arguments.ts';
import { complain, EXIT, pathFrom, write, type Io } from './io.ts';
import { readPlan, STANDARD_INPUT } from './session-file.ts';
import { help, wrongUsage } from './usage.ts';

/** What the host begins with; null for nothing. */
interface Beginning {
  readonly source: Source | null;
  /** A session with faults, for the coach's editor. */
  readonly draft: SessionFile | null;
}

export interface Surroundings {
  /** Gets the address of the coach's window, without anything that lets somebody in: it may go where others can read it. */
  readonly served?: (address: string) => void;
  readonly addresses?: Addresses;
}

/**
 * Runs `serve` with the words after it; gives the exit status once the host has been told to end. `npm start` adds an
 * option: with `--draft` a session with faults goes into the coach's editor.
 */
export async function serve(args: readonly string[], io: Io, surroundings: Surroundings = {}): Promise<number> {
  const read = readArguments(args, {
    lanes: 'value',
    port: 'value',
    data: 'value',
    share: 'flag',
    draft: 'flag',
  });
  if (!read.ok) return wrongUsage(io, 'serve', read.faults);
  const { positionals, values, flags } = read.value;
  if (flags.has('help')) return help(io, 'serve');
  const [session, ...more] = positionals;
  if (more.length > 0) return wrongUsage(io, 'serve', `takes one session, not ${positionals.length}`);
  const lanes = values.get('lanes') ?? null;
  if (lanes !== null && session === undefined) return wrongUsage(io, 'serve', '--lanes needs a session');
  if (session === STANDARD_INPUT && lanes === STANDARD_INPUT) {
    return wrongUsage(io, 'serve', 'only one of session and lanes can be standard input');
  }
  const port = portOf(values.get('port'));
  if (port === null) return wrongUsage(io, 'serve', '--port needs a number from 0 to 65535');
  const plan = session === undefined ? null : await readPlan(io, session, lanes);
  if (plan && !plan.ok && !(plan.source && flags.has('draft'))) return plan.status;
  const data = values.get('data');
  if (data !== undefined && !(await makeFolder(io, data))) return EXIT.failed;
  const machine = { platform: process.platform, env: process.env, home: homedir() };
  const beginning = {
    source: plan?.ok ? plan.plan.source : null,
    draft: plan && !plan.ok && plan.source ? draftOf(session!, plan.source) : null,
  };
  const folder = data === undefined ? dataFolder(machine) : pathFrom(io, data);
  return runHost(io, beginning, { port, share: flags.has('share') }, folder, surroundings);
}

/** Serves until a signal comes; the exit status. */
async function runHost(
  io: Io,
  { source, draft }: Beginning,
  { port, share }: { readonly port: number; readonly share: boolean },
  folder: string,
  { served = () => undefined, addresses = systemAddresses }: Surroundings,
): Promise<number> {
  const clock = systemClock();
  const timers = systemTimers;
  const opening = await openDeck(folder, clock, timers);
  if (!opening.ok) {
    await complain(io, opening.why);
    return EXIT.failed;
  }
  const { host, journal, library, squads, records, cameBack, unattended, close } = opening.deck;
  const told = untilTold();
  const pages = readPages(pagesFolder());
  const ports = () => ({ network: server.port, pages: server.port });
  const sharable = { deck: opening.deck, clock, timers, pages, ports, file: draft, addresses };
  const { sharing, company, takeUp } = openSharing(sharable);
  let server: DeckServer;
  try {
    const sharedWith = { entrance: sharing, company };
    server = await startServer(
      { host, clock, timers, pages, library, squads, records, file: draft, ...sharedWith },
      port,
    );
  } catch (error) {
    told.forget();
    await sharing.end('');
    await close();
    if (!(error instanceof PortTaken)) throw error;
    await complain(io, error.message);
    return EXIT.failed;
  }
  for (const run of unattended) await complain(io, `Left unattended and closed: ${run}`);
  if (source && cameBack === null) await host.open(source, { replace: false });
  if (source && cameBack !== null) await complain(io, notOpened(cameBack));
  if (draft) await complain(io, inEditor(draft.name, cameBack));
  const loop = startLoop(clock, timers, [lifeSigns(host, clock, journal)]);
  const stopListening = host.onChange(() => loop.wake());
  const end = async (): Promise<void> => {
    stopListening();
    loop.stop();
    await Promise.all([server.close(ENDED), sharing.end(ENDED)]);
    await close();
  };
  await takeUp();
  const notShared = share ? await startSharing(io, sharing, addresses()) : null;
  if (notShared !== null) {
    told.forget();
    await end();
    await complain(io, notShared);
    return EXIT.failed;
  }
  const address = `http://127.0.0.1:${server.port}`;
  const all = `${address}/ (coach), ${address}/display (wall screen), ${address}/remote (remote)`;
  await write(io.stdout, `Lanecall is at ${all}\n`);
  const claim = sharing.isOn() ? sharing.claim('while sharing') : null;
  if (claim !== null) await write(io.stdout, sharedText(sharing.address()!, claim));
  served(`${address}/`);
  await told.told;
  await end();
  return EXIT.done;
}

const ENDED = 'The program has ended.';

/** Shares where others most likely are. A sentence where that cannot be. */
async function startSharing(io: Io, sharing: Sharing, all: ReturnType<Addresses>): Promise<string | null> {
  const [first, ...others] = likeliestFirst(all);
  const why = sharing.isOn() ? null : await sharing.share(first?.address ?? null);
  if (why === null && others.length > 0) {
    const named = others.map(({ address, name }) => `${address} (${name})`).join(', ');
    await complain(
      io,
      `This machine is on other networks too: ${named}. Choose one in the coach's window, under Screens.`,
    );
  }
  return why;
}

function sharedText(address: string, claim: string): string {
  return `Televisions open ${address} and show digits for the coach to type in\nThe coach's window on this machine: ${claim} (usable once)\n`;
}

function draftOf(session: string, { text, lanesText }: Source): SessionFile {
  const name = session === STANDARD_INPUT ? 'The session' : basename(session);
  return { name, text, lanesText, why: `${name} has faults: they are marked in the editor.` };
}

/** Starting the program never loses a run. Says what to do if the run is not wanted any more. */
function notOpened(cameBack: string): string {
  return (
    `The unfinished run of ${cameBack} has come back, so the session you named is not opened: ` +
    'hold "Leave it" in the coach\'s window and open the session there, or name another folder with --data.'
  );
}

/** Of a session with faults. */
function inEditor(name: string, cameBack: string | null): string {
  const now = `${name} is in the coach's editor, with its faults marked`;
  return cameBack === null ? `${now}.` : `The unfinished run of ${cameBack} has come back. ${now}, for after that run.`;
}

/** Resolves on Ctrl-C, or when the system asks the program to end. A second time ends the program at once. */
function untilTold(): { readonly told: Promise<void>; forget(): void } {
  const signals = ['SIGINT', 'SIGTERM'] as const;
  let end = (): void => undefined;
  const forget = (): void => signals.forEach((signal) => process.off(signal, heard));
  const heard = (): void => {
    forget();
    end();
  };
  const told = new Promise<void>((resolve) => (end = resolve));
  for (const signal of signals) process.on(signal, heard);
  return { told, forget };
}

/** The folder of the pages: beside the built program, or where the build puts it when run from source. */
function pagesFolder(): string {
  const [beside, built] = ['./pages', '../../dist/pages'].map((path) => fileURLToPath(new URL(path, import.meta.url)));
  return existsSync(beside!) ? beside! : built!;
}

async function makeFolder(io: Io, path: string): Promise<boolean> {
  try {
    await mkdir(pathFrom(io, path), { recursive: true, mode: 0o700 });
    return true;
  } catch (error) {
    await complain(
      io,
      `${path}: the folder cannot be made (${error instanceof Error ? error.message : String(error)})`,
    );
    return false;
  }
}

/** The port, 0 for any free one; null if the text is not a port. */
function portOf(text: string | undefined): number | null {
  if (text === undefined) return DEFAULT_PORT;
  return /^\d{1,5}$/.test(text) && Number(text) <= 65_535 ? Number(text) : null;
}
