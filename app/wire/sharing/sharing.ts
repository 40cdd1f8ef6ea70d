/*
 * What the coach's window says about sharing with other screens, and what it is told. On this machine and in the desktop
 * program only: a tablet hears the list and may throw out, and lets nobody in.
 */

import * as z from 'zod/mini';
import { ROLES } from './joining.ts';

/** A device's name as the coach gives it. */
export const deviceName = z.string().check(z.minLength(1), z.maxLength(40));
export const deviceId = z.string().check(z.regex(/^[0-9a-f]{16}$/));

/** Each is answered by an `answer` with its id. */
export const sharingWish = z.discriminatedUnion('do', [
  /** `address`: one of `choices`; null where there is but one. */
  z.strictObject({ do: z.literal('share'), address: z.nullable(z.string().check(z.maxLength(15))) }),
  z.strictObject({ do: z.literal('stop-sharing') }),
  /** Shows a code for one remote or tablet; the one before is no longer valid. */
  z.strictObject({ do: z.literal('show-code'), role: z.enum(['remote', 'tablet']) }),
  z.strictObject({ do: z.literal('hide-code') }),
  /** Lets the wall in that shows these digits. */
  z.strictObject({ do: z.literal('let-in'), digits: z.string().check(z.regex(/^\d{4}$/)) }),
  z.strictObject({ do: z.literal('throw-out'), device: deviceId }),
  z.strictObject({ do: z.literal('rename-device'), device: deviceId, name: deviceName }),
  /** Another window of the coach on this machine: answered by `claim` too. Only where a browser shows the coach's window. */
  z.strictObject({ do: z.literal('another-window') }),
]);

export const CLOCK_QUALITIES = ['good', 'fair', 'poor'] as const;

const device = z.strictObject({
  id: deviceId,
  role: z.enum(ROLES),
  name: deviceName,
  connected: z.boolean(),
  /** Of its clock, as it last said; null before that, or where it is not connected. */
  clock: z.nullable(z.enum(CLOCK_QUALITIES)),
  /** It was let in less than 30 s ago: "Not yours? Throw out". Never of the device that is told. */
  isNew: z.boolean(),
  /** It is the device that is told this. */
  isYours: z.boolean(),
  /** Whether the device that is told this may throw it out: not itself, and a tablet not the coach's page. */
  mayThrowOut: z.boolean(),
});

/** How sharing stands, to the coach's windows; the latest counts. */
export const sharingTold = z.strictObject({
  /** `lost`: the address is gone; it opens again by itself once it is back. `ask`: the machine has other addresses now. */
  state: z.enum(['off', 'open', 'lost', 'ask']),
  /** Where the pages are, such as `http://192.168.1.20:7525/`; null while off. */
  address: z.nullable(z.string()),
  /** The private IPv4 addresses of this machine, with the name of each one's interface. */
  choices: z.array(z.strictObject({ address: z.string(), name: z.string() })),
  /** Nobody has come within 30 s of opening: the Wi-Fi may keep devices apart. */
  nobodyCame: z.boolean(),
  /** How many walls show their digits now. */
  showing: z.int(),
  /** To the window that asked for it alone. `address` has the code in its fragment; `left` in ms. */
  code: z.nullable(
    z.strictObject({ role: z.enum(['remote', 'tablet']), address: z.string(), letters: z.string(), left: z.int() }),
  ),
  devices: z.array(device),
  /** Whether this window may let others in: not a tablet. */
  mayLetIn: z.boolean(),
  /** What could not be done last, such as a port in use; null if all is well. */
  fault: z.nullable(z.string()),
});

export type SharingWish = z.infer<typeof sharingWish>;
export type SharingTold = z.infer<typeof sharingTold>;
export type SharedDevice = z.infer<typeof device>;
export type ClockQuality = (typeof CLOCK_QUALITIES)[number];
