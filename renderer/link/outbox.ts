/*
 * Commands on their way: each keeps its id and is sent again after every reconnection until it is
 * answered, so that it takes effect once; after a while it has failed, and says so.
 */

import { MESSAGE_LIMIT, type Answer } from '../../app/wire/messages.ts';
import type { Command } from '../../app/core/run/command/command.ts';
import type { Seen } from './seen.ts';

/** What became of a command: `at` (ms since the run was opened) where it was accepted, `why` where not. */
export interface CommandAnswer {
  readonly ok: boolean;
  readonly at: number | null;
  readonly why: string | null;
}

export interface OutboxPorts {
  /** Sends now, or does nothing where there is no connection. */
  send(message: string): void;
  /** Posts what is too large for a message; gives the answer as it came, or rejects. */
  post(message: string): Promise<unknown>;
  /** Calls back once after so many ms; returns what cancels it. */
  after(delay: number, call: () => void): () => void;
  newId(): string;
}

export interface Outbox {
  /** `run`: the one the command is meant for; `madeFrom`: the hash of the text that a rewrite was made from. */
  give(command: Command, run: string | null, seen?: Seen, madeFrom?: string): Promise<CommandAnswer>;
  /** Says what is answered as a command is; its id, a new one unless it has one already, is put into it. */
  ask(message: object, id?: string): Promise<CommandAnswer>;
  answered(answer: Answer): void;
  /** Sends everything unanswered again. */
  resend(): void;
}

interface Waiting {
  readonly message: string;
  readonly settle: (answer: CommandAnswer) => void;
}

/** In ms. A coach who has heard nothing for so long must be told, and looks at the clock. */
export const PATIENCE = 5000;

export const UNHEARD = 'The program has not answered: check whether it was done before you give it again.';

export function createOutbox(ports: OutboxPorts): Outbox {
  const waiting = new Map<string, Waiting>();

  function sendOut(id: string, message: string): void {
    // A character is at most three bytes in UTF-8.
    if (message.length * 3 <= MESSAGE_LIMIT) ports.send(message);
    else
      ports.post(message).then(
        (answer) => waiting.get(id)?.settle(readAnswer(answer)),
        () => {}, // No connection: it is sent again after the next one, or runs out of time.
      );
  }

  function ask(content: object, id = ports.newId()): Promise<CommandAnswer> {
    const message = JSON.stringify({ ...content, id });
    return new Promise((resolve) => {
      const settle = (answer: CommandAnswer): void => {
        giveUp();
        waiting.delete(id);
        resolve(answer);
      };
      const giveUp = ports.after(PATIENCE, () => settle({ ok: false, at: null, why: UNHEARD }));
      waiting.set(id, { message, settle });
      sendOut(id, message);
    });
  }

  return {
    ask,
    give: (command, run, seen = {}, madeFrom) =>
      ask({
        say: 'command',
        command,
        ...(run === null ? {} : { run }),
        ...seen,
        ...(madeFrom === undefined ? {} : { madeFrom }),
      }),
    answered: ({ id, ok, at, why }) => waiting.get(id)?.settle({ ok, at, why }),
    resend: () => waiting.forEach(({ message }, id) => sendOut(id, message)),
  };
}

function readAnswer(answer: unknown): CommandAnswer {
  const { ok, at, why } = Object(answer) as { readonly [field: string]: unknown };
  if (typeof ok !== 'boolean') return { ok: false, at: null, why: UNHEARD };
  return { ok, at: typeof at === 'number' ? at : null, why: typeof why === 'string' ? why : null };
}
