/*
 * How a screen of the network is let in, before it says hello. A wall shows digits that the coach types in; a remote or
 * a tablet has scanned a code. What is said here is not sealed; whoever listens learns nothing that lets them in.
 *
 * wall, the first time:  show -> digits -> (the coach types them in) -> let-in, with the key for later evenings
 * wall, later:           look -> welcome
 * remote, tablet:        join -> prove -> proof -> key; every frame after that is sealed (`sealing/`)
 * the same, later:       return -> prove -> proof -> welcome, sealed
 *
 * After `let-in`, `key` or `welcome` the screen says hello as every screen does (`messages.ts`).
 */

import * as z from 'zod/mini';

/** Raised with every change of these messages or of the sealing that an older page or host could not follow. */
export const JOINING_VERSION = 1;

/** What somebody may do who was let in. `coach`: a page on this machine while it shares. */
export const ROLES = ['wall', 'remote', 'tablet', 'coach'] as const;

/** In ms: how long the digits of a wall and the code of a remote or tablet are valid. */
export const JOINING_TIME = 120_000;

/** How many letters a code has, of `CODE_LETTERS`: 100 random bits. */
export const CODE_LENGTH = 20;

/** Crockford's base 32: no I, L, O or U. A code is read with small letters too, O as 0, I and L as 1; spaces and dashes do not count. */
export const CODE_LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

const hex = (bytes: number) => z.string().check(z.regex(new RegExp(`^[0-9a-f]{${bytes * 2}}$`)));

/** 128 random bits, fresh for each connection, from each end. */
const nonce = hex(16);
/** 256 random bits. */
const key = hex(32);
/** Names a key; it opens nothing by itself. */
const keyId = hex(8);
const version = z.int();

export const fromJoiner = z.discriminatedUnion('say', [
  z.strictObject({ say: z.literal('show'), version }),
  z.strictObject({ say: z.literal('look'), version, key }),
  /** `page`: whose page it is. A code for another role is not used up there. */
  z.strictObject({ say: z.literal('join'), version, nonce, page: z.optional(z.enum(['remote', 'tablet', 'coach'])) }),
  z.strictObject({ say: z.literal('return'), version, id: keyId, nonce }),
  /** The HMAC-SHA-256 of what both ends have said so far (`sealing/proof.ts`). */
  z.strictObject({ say: z.literal('proof'), mac: hex(32) }),
]);

export const fromDoor = z.discriminatedUnion('say', [
  /** `left`: in ms, how long they are valid; after that new ones come by themselves. */
  z.strictObject({ say: z.literal('digits'), digits: z.string().check(z.regex(/^\d{4}$/)), left: z.int() }),
  z.strictObject({ say: z.literal('let-in'), key }),
  z.strictObject({ say: z.literal('welcome') }),
  z.strictObject({ say: z.literal('prove'), nonce }),
  /** `sealed`: a `KeyGiven` under a key made from the code, in hexadecimal digits. */
  z.strictObject({ say: z.literal('key'), sealed: z.string().check(z.regex(/^[0-9a-f]{2,2048}$/)) }),
  /**
   * `again`: what the screen had (its key, its code) is no longer valid: it shows digits, or asks for a code. `wait`: in ms,
   * when a wall is to ask for digits again.
   */
  z.strictObject({
    say: z.literal('bye'),
    why: z.string(),
    version: z.optional(version),
    again: z.optional(z.literal(true)),
    wait: z.optional(z.int()),
  }),
]);

/** What a remote or tablet gets for its code, and keeps. */
export const keyGiven = z.strictObject({ id: keyId, key, role: z.enum(ROLES), name: z.string() });

export type FromJoiner = z.infer<typeof fromJoiner>;
export type FromDoor = z.infer<typeof fromDoor>;
export type KeyGiven = z.infer<typeof keyGiven>;
export type Role = (typeof ROLES)[number];
/** Whose page asks for a code. */
export type CodePage = Exclude<Role, 'wall'>;

/** What a browser has kept, read as a wall's key or a remote's or tablet's; null for anything else. Never throws. */
export const readWallKey = (kept: unknown): string | null => key.safeParse(kept).data ?? null;
export const readKeyGiven = (kept: unknown): KeyGiven | null => keyGiven.safeParse(kept).data ?? null;

/** The paths of the sockets. `/wall` is there on the network alone. */
export const SOCKETS = { deck: '/deck', wall: '/wall' } as const;

/** The pages by the role that is asked for. A wall opens the bare address of the network, or `/display` on this machine. */
export const JOINING_PAGES = { remote: '/remote', tablet: '/coach', coach: '/' } as const;
