/*
 * How a wall is let in: it shows digits until the coach has typed them in, and gets a key; later it brings that key. What
 * it is told can be read by anyone who listens, and holds no names.
 */

import { JOINING_TIME } from '../../../wire/sharing/joining.ts';
import type { Inside, LetIn, Line, Reception, Visit } from './door.ts';
import { Doorway, heardAtDoor, type ComeIn, type DoorPorts } from './doorway.ts';
import type { WallDigits } from './wall-digits.ts';

export interface WallDoorPorts extends DoorPorts {
  readonly digits: WallDigits;
}

const NOT_LET_IN = 'This screen is not let in, or was thrown out: let it in again by its digits.';
const TOO_MANY = 'All 256 screens that can be let in are connected: throw one out first.';
const TEXT_ONLY = 'A message must be text.';
const NO_MORE_TO_SAY = 'A screen that shows its digits says nothing until it is let in.';
const WRONG_DOOR = 'A wall screen shows digits, or brings its key.';

/** In ms: how much longer than its digits a wall may stay, for new ones to be made. */
const RENEWED_WITHIN = 5000;

export function wallDoor(
  line: Line,
  comeIn: ComeIn,
  lasts: Parameters<Reception['meet']>[2],
  ports: WallDoorPorts,
): Visit {
  const doorway = new Doorway(line, comeIn, ports);
  let inside: Inside | null = null;
  let stopShowing: (() => void) | null = null;

  const enter = (wall: LetIn): void => {
    const heardName = (name: string): void => ports.devices.isCalled(wall.id, name);
    inside = doorway.letIn(wall, { ...doorway.plainChannel(), heardName });
  };

  const turnAway = (why: string, again: 'again' | number | null = null): void => {
    stopShowing?.();
    doorway.turnAway(why, again);
  };

  const showDigits = (): void => {
    stopShowing = ports.digits.add({
      from: line.from,
      show(digits) {
        lasts(JOINING_TIME + RENEWED_WITHIN);
        doorway.say({ say: 'digits', digits, left: JOINING_TIME });
      },
      letIn() {
        const given = ports.devices.letIn('wall');
        if (!given) return turnAway(TOO_MANY);
        doorway.noteLetIn(given);
        doorway.say({ say: 'let-in', key: given.key });
        enter(ports.devices.wallWith(given.key)!);
      },
      sendAway: turnAway,
    });
  };

  const look = (key: string): void => {
    const wall = ports.devices.wallWith(key);
    if (!wall) return turnAway(NOT_LET_IN, 'again');
    doorway.say({ say: 'welcome' });
    enter(wall);
  };

  return {
    receive(frame) {
      if (doorway.isOver()) return;
      if (typeof frame !== 'string') return inside ? doorway.hangUp(TEXT_ONLY) : turnAway(TEXT_ONLY);
      if (inside) return inside.receive(frame);
      if (stopShowing) return turnAway(NO_MORE_TO_SAY);
      const heard = heardAtDoor(frame);
      if ('why' in heard) return turnAway(heard.why);
      switch (heard.message.say) {
        case 'show':
          return showDigits();
        case 'look':
          return look(heard.message.key);
        case 'join':
        case 'return':
        case 'proof':
          return turnAway(WRONG_DOOR);
      }
    },
    gone() {
      stopShowing?.();
      doorway.gone();
    },
  };
}
