/*
 * What both doors have in common: they hear a screen that has not proved who it is, turn it away, or let it in.
 */

import { fromJoiner, JOINING_VERSION, type FromDoor, type FromJoiner } from '../../../wire/sharing/joining.ts';
import type { ScreenChannel } from '../../deck/telling/screen.ts';
import type { Devices } from '../devices/devices.ts';
import type { Inside, LetIn, Line, Reception } from './door.ts';
import type { Visitors } from './visitors.ts';

/** What the doors need of the host. */
export interface DoorPorts {
  readonly devices: Devices;
  readonly visitors: Pick<Visitors, 'note'>;
}

export type ComeIn = Parameters<Reception['meet']>[1];

/** What a frame says; a sentence where it is nothing that this host can follow. */
export type Heard = { readonly message: FromJoiner } | { readonly why: string };

export class Doorway {
  private readonly line: Line;
  private readonly comeIn: ComeIn;
  private readonly ports: DoorPorts;
  private leave: (() => void) | null = null;
  private isClosed = false;

  constructor(line: Line, comeIn: ComeIn, ports: DoorPorts) {
    this.line = line;
    this.comeIn = comeIn;
    this.ports = ports;
  }

  /** Whether the connection has ended, from whichever side. */
  isOver(): boolean {
    return this.isClosed;
  }

  say(message: FromDoor): void {
    if (!this.isClosed) this.line.send(JSON.stringify(message), () => undefined);
  }

  /** `again`: what the screen has (its key, its code) is not valid; a number: in how many ms it is to ask again. */
  turnAway(why: string, again: 'again' | number | null = null): void {
    const when = typeof again === 'number' ? { wait: again } : again ? { again: true as const } : {};
    this.say({ say: 'bye', why, version: JOINING_VERSION, ...when });
    this.hangUp(why);
  }

  /** Without a word that the screen could read. */
  hangUp(why: string): void {
    if (this.isClosed) return;
    this.gone();
    this.ports.visitors.note({ what: 'refused', from: this.line.from, why });
    this.line.close(why);
  }

  /** The device has proved who it is. */
  letIn(device: LetIn, channel: ScreenChannel): Inside {
    this.leave = this.ports.devices.came(device.id);
    const guest = {
      role: device.role,
      // The coach may rename it while it is connected.
      get name() {
        return device.name;
      },
      device: device.id,
    };
    return this.comeIn(guest, channel);
  }

  /** It has just been given its first key. */
  noteLetIn({ role, name }: Pick<LetIn, 'role' | 'name'>): void {
    this.ports.visitors.note({ what: 'let in', role, name, from: this.line.from });
  }

  /** The channel of one whose frames are not sealed. */
  plainChannel(): ScreenChannel {
    const { line } = this;
    return {
      isOwnWindow: false,
      waiting: () => line.waiting(),
      send: (text, sent) => line.send(text, sent),
      close: (why) => line.close(why),
      terminate: () => line.terminate(),
    };
  }

  gone(): void {
    this.isClosed = true;
    this.leave?.();
    this.leave = null;
  }
}

/** Its version is read first, because in another one nothing else may mean the same. */
export function heardAtDoor(text: string): Heard {
  const json = jsonIn(text);
  const { version } = Object(json) as { readonly version?: unknown };
  if (Number.isSafeInteger(version) && version !== JOINING_VERSION) {
    const age = Number(version) > JOINING_VERSION ? 'newer' : 'older';
    return { why: `This page is ${age} than the program: reload it.` };
  }
  const read = fromJoiner.safeParse(json);
  return read.success ? { message: read.data } : { why: 'That was not a message of a screen at the door.' };
}

function jsonIn(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
