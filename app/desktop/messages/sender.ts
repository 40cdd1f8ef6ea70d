/*
 * Which window may send what. Every message is checked against the window it came from, the frame in it and the page
 * that the frame shows. The wall screen has no way to change anything.
 */

import type { WebFrameMain } from 'electron';
import { MAY_SAY, MESSAGE_LIMIT, readFromScreen } from '../../wire/messages.ts';
import { CHANNELS } from '../../wire/window-bridge.ts';
import { isPageOf, type WindowKind } from '../windows/window-kind.ts';

export interface Sender {
  /** null for a window that is none of ours. */
  readonly kind: WindowKind | null;
  /** What the sending frame shows; null where it is gone already. */
  readonly address: string | null;
  /** Whether it is the window's own frame and not one inside it. */
  readonly isTop: boolean;
}

const FOR_ALL: readonly string[] = [CHANNELS.connect, CHANNELS.say, CHANNELS.hangUp, CHANNELS.painted];
const FOR_COACH: readonly string[] = [CHANNELS.ask];

/** Call it while the event is being handled: after a navigation the frame is another one. */
export function senderOf(kind: WindowKind | null, frame: WebFrameMain | null): Sender {
  return { kind, address: frame?.url ?? null, isTop: frame !== null && frame.parent === null };
}

export function mayUse(channel: string, { kind, address, isTop }: Sender): boolean {
  if (kind === null || address === null || !isTop || !isPageOf(kind, address)) return false;
  return FOR_ALL.includes(channel) || (kind === 'desk' && FOR_COACH.includes(channel));
}

/** Whether a window may say this deck message: it names itself as what it is, and only the coach commands. */
export function maySay(kind: WindowKind, text: string): boolean {
  if (Buffer.byteLength(text) > MESSAGE_LIMIT) return false;
  const message = readFromScreen(text);
  if (!message) return false;
  return MAY_SAY[message.say].includes(kind) && (message.say !== 'hello' || message.screen === kind);
}
