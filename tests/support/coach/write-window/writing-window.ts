/*
 * A window that writes, with the library on a disk in memory and what its browser keeps in a map.
 */

import { Writing } from '../../../../renderer/desk/write/writing.ts';
import type { AskLibrary, LibraryRequest, LibraryWish } from '../../../../renderer/link/requests/library.ts';
import { FakeClock } from '../../clock/fake-clock.ts';
import { LibraryUnderTest } from '../../host/folders/library-folder.ts';

export class WritingWindow {
  readonly library = new LibraryUnderTest();
  readonly clock = new FakeClock({ timeOfDay: 19 * 3_600_000 });
  readonly asked: LibraryRequest[] = [];
  /** Whether the host answers. */
  isUp = true;
  /** What is asked is done, and the host dies before it answers. */
  losesAnswers = false;
  readonly kept = new Map<string, string>();
  writing: Writing;

  constructor() {
    this.writing = this.open();
  }

  /** Opened anew, as after a crash of the page. */
  reopen(): void {
    this.writing = this.open();
  }

  get state() {
    return this.writing.state();
  }

  get name(): string | undefined {
    return this.state.saving.file?.name;
  }

  /** Lets time pass and the library answer. */
  async pass(ms: number): Promise<void> {
    for (let passed = 0; passed <= ms; passed += 100) {
      this.clock.advance(passed === 0 ? 0.001 : 100);
      await this.answers();
    }
  }

  async answers(): Promise<void> {
    for (let turn = 0; turn < 60; turn++) await Promise.resolve();
    await new Promise((resolve) => setImmediate(resolve));
  }

  async type(text: string): Promise<void> {
    this.writing.type({ text }, null);
    await this.pass(400);
  }

  private readonly ask: AskLibrary = async <Wish extends LibraryWish>(asked: Extract<LibraryRequest, { do: Wish }>) => {
    this.asked.push(asked);
    const answer = this.isUp ? await this.library.ask<Wish>(asked) : null;
    return answer && !this.losesAnswers ? answer : { ok: false, why: 'The program does not answer.' };
  };

  private open(): Writing {
    const { kept, clock } = this;
    return new Writing({
      memory: { getItem: (key) => kept.get(key) ?? null, setItem: (key, value) => void kept.set(key, value) },
      ask: this.ask,
      timers: clock.timers,
      wall: () => clock.wall().epochMs,
    });
  }
}
