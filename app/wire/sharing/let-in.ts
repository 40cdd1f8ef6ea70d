/*
 * What is kept of devices that were let in, in two files of the data folder. Of a wall there is no more than the hash of
 * its key; the other keys are needed whole, because they seal what is said, and go when sharing ends.
 */

import * as z from 'zod/mini';
import { ROLES } from './joining.ts';
import { deviceId, deviceName } from './sharing.ts';

/** Raised with every change that an older program could not read. */
export const LET_IN_VERSION = 1;

const bits256 = z.string().check(z.regex(/^[0-9a-f]{64}$/));
/** In ms since 1970. */
const time = z.int();

const keptWall = z.strictObject({
  id: deviceId,
  name: deviceName,
  /** The SHA-256 hash of its key, in hexadecimal digits. */
  hash: bits256,
  /** When it was last connected. */
  seen: time,
});

const keptKey = z.strictObject({
  id: deviceId,
  role: z.enum(ROLES).check(z.refine((role) => role !== 'wall')),
  name: deviceName,
  key: bits256,
  /** When it was last connected. */
  seen: time,
  /** When it is no longer valid. */
  until: time,
});

export const wallsFile = z.strictObject({ version: z.literal(LET_IN_VERSION), walls: z.array(keptWall) });
export const keysFile = z.strictObject({ version: z.literal(LET_IN_VERSION), keys: z.array(keptKey) });

/** At which address the host shares, or shared when it was cut off; null while it does not. */
export const sharingFile = z.strictObject({
  version: z.literal(LET_IN_VERSION),
  address: z.nullable(z.string().check(z.maxLength(15))),
});

export type KeptWall = z.infer<typeof keptWall>;
export type KeptKey = z.infer<typeof keptKey>;
