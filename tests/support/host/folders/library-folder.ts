/*
 * A library on a disk in memory, at a time of day that the test sets.
 */

import { Library } from '../../../../app/host/library/library.ts';
import type {
  LibraryAnswer,
  LibraryGiven,
  LibraryRequest,
  LibraryWish,
  ShelfKind,
} from '../../../../app/wire/library.ts';
import { FakeDisk } from './fake-disk.ts';

export const SESSION = `Harbour squad, Thursday
# for Thursday 26 November 2026
start 19:30
finish 20:30
lane 1 base 1:30, 4 swimmers
lane 2 base 1:40

Main set
8/6 x 100 free @ base
`;

export class LibraryUnderTest {
  readonly disk = new FakeDisk();
  library!: Library;
  private time = Date.parse('2026-11-26T18:00:00Z');

  constructor() {
    this.restart();
  }

  /** The program is killed and started again on what is on the disk. */
  restart(): void {
    this.disk.wall = this.time;
    this.library = new Library({ disk: this.disk, folder: '/data', wall: () => this.time });
  }

  pass(ms: number): void {
    this.time += ms;
    this.disk.wall = this.time;
  }

  ask<Wish extends LibraryWish>(asked: Extract<LibraryRequest, { do: Wish }>): Promise<LibraryAnswer<Wish>> {
    return this.library.ask<Wish>(asked);
  }

  /** What is given; throws where it is refused. */
  async get<Wish extends LibraryWish>(asked: Extract<LibraryRequest, { do: Wish }>): Promise<LibraryGiven[Wish]> {
    const answer = await this.ask<Wish>(asked);
    if (!answer.ok) throw new Error(answer.why);
    return answer;
  }

  async names(find = ''): Promise<readonly string[]> {
    return (await this.get({ do: 'list', find, most: 100 })).sessions.map(({ name }) => name);
  }

  /** A file as another program writes it. */
  write(name: string, text: string, kind: ShelfKind = 'session'): void {
    this.disk.put(this.path(name, kind), Buffer.from(text));
  }

  /** What stands in a file; null for none. */
  text(name: string, kind: ShelfKind = 'session'): string | null {
    return this.disk.files.has(this.path(name, kind)) ? this.disk.text(this.path(name, kind)) : null;
  }

  path(name: string, kind: ShelfKind = 'session'): string {
    return `/data/${kind === 'session' ? 'sessions' : 'pieces'}/${name}.txt`;
  }
}
