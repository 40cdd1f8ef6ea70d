/*
 * The built program that shares, as a process of its own, with the coach's page of this machine connected to it.
 */

import { DoorSocket } from '../../support/host/sharing/door-socket.ts';
import { ServedHost } from '../../support/host/served-host.ts';

/** Of the machine that shares, in the namespace. */
export const ADDRESS = '10.77.0.1';

/** Two swimmers by name, who must not be heard of on the air. */
export const NAMES = ['Quillon', 'Zephyrine'] as const;
const SESSION = `lane 1: ${NAMES[0]}\nlane 2: ${NAMES[1]}\nMain set\n20 x 50 @ 1:00\n`;

export class SharedPool {
  readonly served: ServedHost;
  /** Address and port on the network. */
  readonly network: string;
  /** The coach's page, which has come in by the claim that was printed. */
  readonly coach: DoorSocket;

  private constructor(served: ServedHost, coach: DoorSocket) {
    this.served = served;
    this.network = served.shared!.network;
    this.coach = coach;
  }

  /** `load`: a module that the program loads before itself. */
  static async open(data: string, { port = 0, load = null as URL | null } = {}): Promise<SharedPool> {
    const served = await ServedHost.start(data, { session: SESSION, port, share: true, load });
    const { host, hash } = new URL(served.shared!.claim);
    const coach = await DoorSocket.open({ host });
    if (!(await coach.join(hash.slice(1)))) throw new Error('The claim that was printed lets nobody in.');
    coach.hello('desk');
    await coach.hears('snapshot');
    return new SharedPool(served, coach);
  }

  async end(): Promise<void> {
    this.coach.close();
    await this.served.kill();
  }
}
