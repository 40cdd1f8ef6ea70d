/*
 * The codes that are valid now, each for one device. A code is forgotten as soon as it has been used, or is late.
 */

import type { Role } from '../../../wire/sharing/joining.ts';
import { CODE_LENGTH } from '../../../wire/sharing/joining.ts';
import { codeOf } from '../../../wire/sealing/code.ts';
import type { Clock } from '../../time/clock.ts';
import type { Timer, Timers } from '../../time/timers.ts';
import type { Chance } from '../chance.ts';

export type CodeRole = Exclude<Role, 'wall'>;

export interface Code<Kind extends CodeRole = CodeRole> {
  readonly role: Kind;
  readonly letters: string;
  /** Host time. */
  readonly until: number;
}

export interface CodesPorts {
  readonly clock: Clock;
  readonly timers: Timers;
  readonly chance: Chance;
}

export class Codes<Kind extends CodeRole> {
  private readonly ports: CodesPorts;
  private readonly most: number;
  private readonly changed: () => void;
  /** The oldest first. */
  private readonly valid = new Map<Code<Kind>, Timer | null>();

  /** With more than `most`, the oldest is void. `changed`: a code has come or gone. */
  constructor(ports: CodesPorts, most: number, changed: () => void) {
    this.ports = ports;
    this.most = most;
    this.changed = changed;
  }

  /** `lasts`: in ms; Infinity for a code that is valid until it is used. */
  make(role: Kind, lasts: number): Code<Kind> {
    const { clock, timers, chance } = this.ports;
    const code = { role, letters: codeOf(chance.bytes(CODE_LENGTH)), until: clock.now() + lasts };
    this.valid.set(code, lasts === Infinity ? null : timers.set(() => this.forget(code), lasts));
    const [oldest] = this.valid.keys();
    if (this.valid.size > this.most) this.drop(oldest!);
    this.changed();
    return code;
  }

  /** The code that the proof is of, which stays valid. Null if there is none. */
  find(isProof: (letters: string) => boolean): Code<Kind> | null {
    const now = this.ports.clock.now();
    // A timer may be late.
    return [...this.valid.keys()].find(({ until, letters }) => until > now && isProof(letters)) ?? null;
  }

  /** The same; nobody else can use it from now on. */
  use(isProof: (letters: string) => boolean): Code<Kind> | null {
    const code = this.find(isProof);
    if (code) this.forget(code);
    return code;
  }

  /** The latest one; null if there is none. */
  latest(): Code<Kind> | null {
    return [...this.valid.keys()].pop() ?? null;
  }

  clear(): void {
    if (this.valid.size === 0) return;
    for (const code of this.valid.keys()) this.drop(code);
    this.changed();
  }

  private forget(code: Code<Kind>): void {
    this.drop(code);
    this.changed();
  }

  private drop(code: Code<Kind>): void {
    const timer = this.valid.get(code);
    if (timer) this.ports.timers.clear(timer);
    this.valid.delete(code);
  }
}
