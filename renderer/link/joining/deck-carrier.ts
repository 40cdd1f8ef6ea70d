/*
 * The carrier of a remote, a tablet or the coach's page of this machine. With a code that was scanned or typed it joins,
 * with a key it returns, both sealed; on this machine it needs neither while nothing is shared. With nothing that lets
 * it in it asks for a code.
 */

import type { KeyGiven, Role } from '../../../app/wire/sharing/joining.ts';
import type { Known } from '../../../app/wire/sealing/proof.ts';
import {
  LONGEST_PAUSE,
  SILENCE,
  type Carrier,
  type Connection,
  type Heard,
  type ToCarrier,
} from '../connection/carrier.ts';
import type { AskHost } from '../connection/own-window.ts';
import type { Asking } from './asking.ts';
import type { Joining } from './joining.ts';
import type { KeptKey } from './kept-key.ts';
import type { SealedHeard } from './sealed-carrier.ts';

export type ConnectSealed = (known: Known, heard: SealedHeard) => Connection;

export interface DeckDoor {
  readonly role: Role;
  /** From the address that the page was opened with. */
  readonly code: string | null;
  readonly kept: KeptKey<KeyGiven>;
  readonly joining: Joining;
  readonly asking: Asking;
  /** As on this machine while nothing is shared; null on the network. */
  readonly plain: Carrier | null;
  /** Loads what seals. */
  load(): Promise<ConnectSealed>;
  /** Questions go through the socket from now on; null: as ever. */
  askBy(ask: AskHost | null): void;
  /** This page was used for a code of another role: its key is for that role's page. */
  handOver(key: KeyGiven): void;
}

/** In ms: a code works once, so a phone that is slow with it is not hurried. */
const JOINS = 10_000;

export interface DeckCarrier extends Carrier {
  /** Joins by a code that was typed, or scanned again. */
  enter(code: string): void;
}

export function deckCarrier(door: DeckDoor): DeckCarrier {
  const { role, kept, joining, asking, plain, load } = door;
  let { code } = door;
  // Why what let it in does so no longer.
  let why: string | null = null;
  let refusedCode: string | null = null;
  let connectAgain = (): void => {};

  function known(): Known | null {
    if (code !== null) return { say: 'join', code };
    const key = kept.now();
    return key && { say: 'return', id: key.id, key: key.key };
  }

  function stand(): void {
    const lacks = known() === null && plain === null;
    joining.setState(
      lacks ? { step: 'asks', why, ...(refusedCode === null ? {} : { code: refusedCode }) } : { step: 'in' },
      true,
    );
    door.askBy(known() === null && plain ? null : asking.ask);
  }

  function refused(reason: string): void {
    if (code === null) kept.drop();
    refusedCode = code;
    code = null;
    why = reason;
    stand();
  }

  function given(key: KeyGiven): void {
    code = null;
    why = null;
    if (key.role !== role) return door.handOver(key);
    kept.keep(key);
  }

  function sealed(by: Known, heard: SealedHeard): Connection {
    let inner: Connection | null = null;
    let over = false;
    load().then(
      (connect) => {
        if (!over) inner = connect(by, heard);
      },
      () => {
        if (!over) heard.closed();
      },
    );
    return {
      send: (message) => inner?.send(message),
      close() {
        over = true;
        inner?.close();
      },
    };
  }

  function begin(heard: SealedHeard): Connection {
    const by = known();
    if (by) return sealed(by, heard);
    // Without anything that lets it in it waits for a code.
    return plain?.connect(heard) ?? { send: () => undefined, close: () => undefined };
  }

  function connect(heard: Heard): Connection {
    let over = false;
    const end = (): void => {
      over = true;
      asking.closed();
    };
    const closed = (): void => {
      if (over) return;
      end();
      heard.closed();
    };
    const connection = begin({
      opened() {
        heard.opened();
        asking.opened((message) => connection.send(message));
      },
      message: (text) => heard.message(text),
      closed,
      given,
      refused,
    });
    const close = (): void => {
      end();
      connection.close();
    };
    connectAgain = () => {
      if (over) return;
      close();
      heard.closed();
    };
    return { send: (message) => connection.send(message), close };
  }

  function hear(message: ToCarrier): string | undefined {
    switch (message.say) {
      case 'reply':
        asking.answered(message);
        return undefined;
      case 'own-key':
        given(message.given);
        return undefined;
      case 'bye':
        if (!message.again) why = null;
        // A page of this machine that has nothing needs something now; why what it had is void is worth saying first.
        else if (plain && known() === null) return why ?? undefined;
        else refused(message.why);
        return undefined;
    }
  }

  stand();
  return {
    get patience() {
      if (joining.getState().step === 'asks') return Infinity;
      return code === null ? SILENCE : JOINS;
    },
    longestPause: plain ? LONGEST_PAUSE.here : LONGEST_PAUSE.network,
    connect,
    told(message) {
      const first = hear(message);
      stand();
      return first;
    },
    enter(typed) {
      code = typed;
      stand();
      connectAgain();
    },
  };
}
