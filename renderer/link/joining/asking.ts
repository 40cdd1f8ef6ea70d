/*
 * Questions to the host, and its answers, through a page's own socket: where a page needs a key, it asks nothing by
 * HTTP. What is asked before the connection is there waits for it a while, as the page opens.
 */

import type { FromScreen } from '../../../app/wire/messages.ts';
import type { ToCarrier } from '../connection/carrier.ts';
import type { AskHost, HostReply } from '../connection/own-window.ts';

export interface Asking {
  readonly ask: AskHost;
  /** The host has been greeted: what waits is sent, and everything from now on. */
  opened(send: (message: string) => void): void;
  answered(reply: Extract<ToCarrier, { say: 'reply' }>): void;
  /** What was sent and not answered will not be. */
  closed(): void;
}

interface Question {
  readonly message: string;
  sent: boolean;
  settle(reply: HostReply | null): void;
}

interface AskingPorts {
  newId(): string;
  /** Calls back once after so many ms; returns what cancels it. */
  after(delay: number, call: () => void): () => void;
}

/** In ms: for how long a question waits for a connection. */
const WAITS = 5000;

export function createAsking({ newId, after }: AskingPorts): Asking {
  const questions = new Map<string, Question>();
  let send: ((message: string) => void) | null = null;

  function sendOut(question: Question): void {
    if (!send || question.sent) return;
    question.sent = true;
    try {
      send(question.message);
    } catch {
      // It is too large for a sealed frame.
      question.settle(null);
    }
  }

  return {
    ask: (method, path, body) =>
      new Promise((resolve, reject) => {
        const id = newId();
        const question: Question = {
          message: JSON.stringify({ say: 'ask', id, method, path, body } satisfies FromScreen),
          sent: false,
          settle(reply) {
            stopWaiting();
            questions.delete(id);
            if (reply) resolve(reply);
            else reject(new Error('The program does not answer.'));
          },
        };
        const stopWaiting = after(WAITS, () => {
          if (!question.sent) question.settle(null);
        });
        questions.set(id, question);
        sendOut(question);
      }),
    opened(by) {
      send = by;
      questions.forEach(sendOut);
    },
    answered: ({ id, status, body }) => questions.get(id)?.settle({ status, body }),
    closed() {
      send = null;
      questions.forEach((question) => {
        if (question.sent) question.settle(null);
      });
    },
  };
}
