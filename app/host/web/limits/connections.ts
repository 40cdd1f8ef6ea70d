/*
 * The connections that are not screens, on all addresses together. Node's `maxConnections` would turn away the newest;
 * here the oldest is ended. A connection that asks nothing never takes the place of one that is being answered. Node
 * limits how long each may take (`headersTimeout`, `requestTimeout`).
 */

import type { Socket } from 'node:net';
import type { Duplex } from 'node:stream';
import type { ServerResponse } from 'node:http';
import { Doorstep, type Place } from './doorstep.ts';

/** The most connections of each kind: enough for every screen to load its pictures and sounds at once. */
const MOST_CONNECTIONS = 128;

export class Connections {
  /** Connections that have not asked for anything yet, or not since their last answer. */
  private readonly silent: Doorstep;
  private readonly answered: Doorstep;
  /** For each connection, its place in the group it is in. */
  private readonly places = new Map<Duplex, Place>();

  /** `ofOne`: the most of each kind that one address may have. */
  constructor(ofOne = MOST_CONNECTIONS) {
    this.silent = new Doorstep(MOST_CONNECTIONS, ofOne);
    this.answered = new Doorstep(MOST_CONNECTIONS, ofOne);
  }

  came(connection: Socket): void {
    this.move(connection, this.silent);
    connection.on('close', () => this.gone(connection));
  }

  asks(connection: Socket, response: ServerResponse): void {
    this.move(connection, this.answered);
    response.on('close', () => {
      if (this.places.has(connection)) this.move(connection, this.silent);
    });
  }

  /** To be called when it has ended, or has become a screen's. */
  gone(connection: Duplex): void {
    this.places.get(connection)?.leave();
    this.places.delete(connection);
  }

  private move(connection: Socket, to: Doorstep): void {
    this.places.get(connection)?.leave();
    this.places.set(
      connection,
      to.enter(() => connection.destroy(), connection.remoteAddress),
    );
  }
}
