/*
 * The connections that are no screens, on all addresses together. Node's `maxConnections` would turn the newest
 * away; here the oldest goes, and one that asks nothing never takes the place of one that is being answered.
 * How long each may take is Node's to watch (`headersTimeout`, `requestTimeout`).
 */

import type { Socket } from 'node:net';
import type { Duplex } from 'node:stream';
import type { ServerResponse } from 'node:http';
import { Doorstep } from './doorstep.ts';

/** Of each kind: every screen with its pictures and sounds in flight. */
const MOST_CONNECTIONS = 128;

export class Connections {
  /** Have not asked for anything yet, or not since they were answered. */
  private readonly silent = new Doorstep(MOST_CONNECTIONS);
  private readonly answered = new Doorstep(MOST_CONNECTIONS);
  /** Takes each from where it is now. */
  private readonly leave = new Map<Duplex, () => void>();

  came(connection: Socket): void {
    this.move(connection, this.silent);
    connection.on('close', () => this.gone(connection));
  }

  asks(connection: Socket, response: ServerResponse): void {
    this.move(connection, this.answered);
    response.on('close', () => {
      if (this.leave.has(connection)) this.move(connection, this.silent);
    });
  }

  /** It has ended, or is a screen's from now on. */
  gone(connection: Duplex): void {
    this.leave.get(connection)?.();
    this.leave.delete(connection);
  }

  private move(connection: Socket, to: Doorstep): void {
    this.leave.get(connection)?.();
    this.leave.set(
      connection,
      to.enter(() => connection.destroy()),
    );
  }
}
