/*
 * Somebody who reads: a worker beside the page, or the page itself where there can be none. One question at a time.
 */

import { createReading, type Answer, type Answered, type Asked } from './reading.ts';

export type Hear = (answer: Answered[Asked['do']]) => void;

export class ReadingHand {
  private worker: Worker | null = null;
  /** In place of a worker. */
  private own: Answer | null = null;
  private readonly waiting: { readonly asked: Asked; readonly hear: Hear }[] = [];
  private isAnswering = false;

  get isBusy(): boolean {
    return this.waiting.length > 0;
  }

  ask(asked: Asked, hear: Hear): void {
    this.waiting.push({ asked, hear });
    if (!this.isAnswering) this.next();
  }

  /** Gives up what it is asked, also in the midst of it. A worker that has nothing to give up stays for the next question. */
  drop(): void {
    if (this.isAnswering) this.end();
  }

  end(): void {
    this.worker?.terminate();
    this.worker = null;
    this.waiting.length = 0;
    this.isAnswering = false;
  }

  private next(): void {
    const first = this.waiting[0];
    if (!first) return;
    this.isAnswering = true;
    this.worker = this.own ? null : (this.worker ?? this.open());
    if (this.worker) this.worker.postMessage(first.asked);
    else this.heard((this.own = this.own ?? createReading())(first.asked));
  }

  private heard(answer: Answered[Asked['do']]): void {
    const first = this.waiting.shift();
    this.isAnswering = false;
    first?.hear(answer);
    if (!this.isAnswering) this.next();
  }

  private open(): Worker | null {
    try {
      const worker = new Worker(new URL('./reading-worker.ts', import.meta.url));
      worker.onmessage = ({ data }: MessageEvent<Answered[Asked['do']]>) => this.heard(data);
      // It could not be loaded, or has failed: the page reads by itself from now on.
      worker.onerror = () => {
        worker.terminate();
        this.worker = null;
        this.own = createReading();
        this.next();
      };
      return worker;
    } catch {
      return null;
    }
  }
}
