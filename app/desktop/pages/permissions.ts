/*
 * What pages may do beyond drawing: go full screen, and nothing else. Electron allows everything unless
 * both handlers are set.
 */

import type { Session } from 'electron';
import { ownAddress } from '../windows/window-kind.ts';

const ALLOWED: readonly string[] = ['fullscreen'];

/** address: of the page that asks. */
export function mayHave(permission: string, address: string): boolean {
  return ALLOWED.includes(permission) && ownAddress(address) !== null;
}

export function guardPermissions(session: Session): void {
  session.setPermissionRequestHandler((_, permission, answer, details) =>
    answer(mayHave(permission, details.requestingUrl)),
  );
  session.setPermissionCheckHandler((_, permission, origin, details) =>
    mayHave(permission, details.requestingUrl ?? origin),
  );
  session.setDevicePermissionHandler(() => false);
}
