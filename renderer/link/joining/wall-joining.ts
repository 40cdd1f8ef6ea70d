/*
 * How the page of a wall screen reaches the host: on the network it is let in first.
 */

import { readWallKey, SOCKETS } from '../../../app/wire/sharing/joining.ts';
import { socketCarrier, type Carrier } from '../connection/carrier.ts';
import { ownCarrier } from '../connection/own-window.ts';
import { pageAlarms } from '../time/knocker.ts';
import { isOnNetwork } from './own-place.ts';
import { createJoining, type Joining } from './joining.ts';
import { keptKey } from './kept-key.ts';
import { wallCarrier } from './wall-carrier.ts';

export function joinAsWall(): { readonly carrier: Carrier; readonly joining: Joining } {
  const joining = createJoining();
  if (!isOnNetwork()) return { carrier: ownCarrier(), joining };
  const carrier = wallCarrier({
    socket: socketCarrier(`ws://${location.host}${SOCKETS.wall}`),
    kept: keptKey('lanecall.key.wall', readWallKey, () => window.localStorage),
    joining,
    now: () => performance.now(),
    after: (delay, call) => pageAlarms().after(delay, call),
  });
  return { carrier, joining };
}
