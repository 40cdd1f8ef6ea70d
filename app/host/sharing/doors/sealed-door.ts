/*
 * How a remote, a tablet or a page of this machine is let in: it proves that it knows a code, and gets a key, or that it
 * has the key that it got. Everything after that is sealed. Whoever only listens learns nothing that lets them in.
 */

import { JOINING_PAGES, type CodePage, type FromJoiner, type KeyGiven } from '../../../wire/sharing/joining.ts';
import { hearScreen } from '../../../wire/messages.ts';
import type { Nonces } from '../../../wire/sealing/derived-key.ts';
import { sealedKey } from '../../../wire/sealing/given-key.ts';
import { isProof } from '../../../wire/sealing/proof.ts';
import { sealedEnd, type SealedEnd } from '../../../wire/sealing/sealed-channel.ts';
import type { ScreenChannel } from '../../deck/telling/screen.ts';
import { randomHex, type Chance } from '../chance.ts';
import type { CodeRole, Codes } from './codes.ts';
import type { Inside, LetIn, Line, Visit } from './door.ts';
import { Doorway, heardAtDoor, type ComeIn, type DoorPorts } from './doorway.ts';
import { KEYLESS } from './guest.ts';

export interface SealedDoorPorts extends DoorPorts {
  readonly chance: Chance;
  /** Those that are valid on this listener. */
  readonly codes: Pick<Codes<CodeRole>, 'find' | 'use' | 'latest'>;
}

/** What the screen has said it will prove. */
type Asked =
  | { readonly say: 'join'; readonly page: CodePage | undefined }
  | { readonly say: 'return'; readonly id: string; readonly key: string };

/** As a coach calls them. */
const DEVICES = { remote: 'phone', tablet: 'tablet' } as const;

const NOT_VALID = 'This code has been used by another device, or is too old: ask the coach for a new one.';
const USED = 'This address was used already, or is too old: it works once.';
const NOT_SHOWN = 'That is not the code that the coach’s window shows now: look at it again, or ask for a new one.';
const NOT_LET_IN = 'This device is not let in any more: ask the coach for a code.';
const NO_KEY =
  'While Lanecall is shared, a page here needs a key: open the address that was printed, or “Another window” in a page that has a key. ' +
  'With neither, end Lanecall and start it again: a run goes on.';
const TOO_MANY = 'As many devices as there can be are connected: close one of them, then ask for a new code.';
const BROKEN_SEAL = 'A frame was not the next one of this device.';
const WRONG_ORDER = 'That was not what comes next at the door.';

export function sealedDoor(line: Line, comeIn: ComeIn, ports: SealedDoorPorts): Visit {
  const doorway = new Doorway(line, comeIn, ports);
  let asked: Asked | null = null;
  let nonces: Nonces = { screen: '', host: '' };
  let sealed: { readonly end: SealedEnd; readonly inside: Inside } | null = null;
  let plain: Inside | null = null;

  const ask = (what: Asked, nonce: string): void => {
    asked = what;
    nonces = { screen: nonce, host: randomHex(ports.chance, 16) };
    doorway.say({ say: 'prove', nonce: nonces.host });
  };

  /** `welcome`: said first of all that is sealed. */
  const enter = (id: string, key: string, welcome: 'welcome' | null): void => {
    const found = ports.devices.withId(id);
    if (!found) return doorway.turnAway(NOT_LET_IN, 'again');
    const end = sealedEnd('host', key, nonces);
    const channel = sealedChannel(line, end);
    if (welcome) channel.send(JSON.stringify({ say: 'welcome' }), () => undefined);
    sealed = { end, inside: doorway.letIn(found.device, channel) };
  };

  const join = (mac: string, page: CodePage | undefined): void => {
    const isOf = (code: string): boolean => isProof(mac, { say: 'join', code }, nonces, line.host);
    const wrongPage = whyWrongPage(page, ports.codes.find(isOf)?.role);
    if (wrongPage !== null) return doorway.turnAway(wrongPage, 'again');
    const code = ports.codes.use(isOf);
    if (!code) return doorway.turnAway(whyNotValid(), 'again');
    const given: KeyGiven | null = ports.devices.letIn(code.role);
    // The code is used up: what the screen says next is not that it is too old.
    if (!given) return doorway.turnAway(TOO_MANY, 'again');
    doorway.noteLetIn(given);
    doorway.say({ say: 'key', sealed: sealedKey(given, code.letters, nonces) });
    enter(given.id, given.key, null);
  };

  /** Pages of this machine have their code from an address, and no window shows it. */
  const whyNotValid = (): string => {
    if (line.listener === 'machine') return USED;
    return ports.codes.latest() === null ? NOT_VALID : NOT_SHOWN;
  };

  /** What to do where a phone's page has a tablet's code, or the other way round. */
  const whyWrongPage = (page: CodePage | undefined, role: CodeRole | undefined): string | null => {
    if (page === undefined || page === 'coach' || role === undefined || role === 'coach' || page === role) return null;
    const [its, own] = [DEVICES[role], DEVICES[page]];
    const address = `http://${line.host}${JOINING_PAGES[role]}`;
    return `This code is for a ${its}: open ${address} on the ${its}, or ask the coach for a ${own}’s code.`;
  };

  /** The key of a page of this machine commands from this machine alone, that of a device from the network. */
  const isAtItsDoor = ({ role }: LetIn): boolean => (role === 'coach') === (line.listener === 'machine');

  const prove = (mac: string): void => {
    if (!asked) return doorway.turnAway(WRONG_ORDER);
    if (asked.say === 'join') return join(mac, asked.page);
    if (!isProof(mac, asked, nonces, line.host)) return doorway.turnAway(NOT_LET_IN, 'again');
    enter(asked.id, asked.key, 'welcome');
  };

  const hear = (message: FromJoiner): void => {
    if ((message.say === 'proof') !== (asked !== null)) return doorway.turnAway(WRONG_ORDER);
    switch (message.say) {
      case 'join':
        return ask({ say: 'join', page: message.page }, message.nonce);
      case 'return': {
        const found = ports.devices.withId(message.id);
        if (!found || !isAtItsDoor(found.device)) return doorway.turnAway(NOT_LET_IN, 'again');
        return ask({ say: 'return', id: message.id, key: found.key }, message.nonce);
      }
      case 'proof':
        return prove(message.mac);
      case 'show':
      case 'look':
        return doorway.turnAway(WRONG_ORDER);
    }
  };

  /** A page of this machine that has no key may be a wall screen. */
  const comeKeyless = (text: string): boolean => {
    if (line.listener !== 'machine' || asked) return false;
    const heard = hearScreen(text);
    if (heard.kind !== 'message' || heard.message.say !== 'hello') return false;
    if (heard.message.screen !== 'wall') doorway.turnAway(NO_KEY, 'again');
    else {
      plain = comeIn(KEYLESS, doorway.plainChannel());
      plain.receive(text);
    }
    return true;
  };

  return {
    receive(frame) {
      if (doorway.isOver()) return;
      if (sealed) {
        const text = typeof frame === 'string' ? null : sealed.end.open(frame);
        return text === null ? doorway.hangUp(BROKEN_SEAL) : sealed.inside.receive(text);
      }
      if (typeof frame !== 'string') return doorway.turnAway(WRONG_ORDER);
      if (plain) return plain.receive(frame);
      if (comeKeyless(frame)) return;
      const heard = heardAtDoor(frame);
      if ('why' in heard) doorway.turnAway(heard.why);
      else hear(heard.message);
    },
    gone: () => doorway.gone(),
  };
}

function sealedChannel(line: Line, end: SealedEnd): ScreenChannel {
  return {
    isOwnWindow: false,
    waiting: () => line.waiting(),
    send: (text, sent) => line.send(end.seal(text), sent),
    close: (why) => line.close(why),
    terminate: () => line.terminate(),
  };
}
