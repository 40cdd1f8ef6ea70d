/*
 * Everything host and screens say to each other, in one versioned union; the network and the desktop
 * program's own channel carry the same. A message is checked on arrival: what is not exactly one of
 * these is not taken, and whoever sits before the page is told. Times are in ms; "host time" is the host's
 * monotonic clock.
 */

import { z } from 'zod';

/** Raised, from the first release on, with whatever an older screen or host could not read: a new kind of message, a new field, a new word. */
export const WIRE_VERSION = 1;

/** The largest message a screen may send, in bytes. Session texts go by HTTP. */
export const MESSAGE_LIMIT = 64 * 1024;

/** The largest session text, in bytes. */
export const TEXT_LIMIT = 256 * 1024;

const id = z.string().min(1).max(64);
const time = z.number().finite();
const hash = z.string().regex(/^[0-9a-f]{16,64}$/);

/** The rep a screen showed as a lane's next: line, round numbers outermost first, rep. */
const seenRep = z
  .object({ line: z.number().int(), rounds: z.array(z.number().int()).max(8), rep: z.number().int() })
  .strict();

/** How the sound of a screen stands there: `off` where it is not wanted, else what becomes of it. */
const soundStatus = z.enum(['off', 'blocked', 'starting', 'running', 'gone', 'missing']);

/**
 * Fields that others read: those of a command the core's `readCommand`, which says in a sentence what is wrong.
 * Taken as they are, because a record of the validator's leaves out one named `__proto__` without a word.
 */
const fields = z.custom<Readonly<Record<string, unknown>>>(
  (value) => typeof value === 'object' && value !== null && !Array.isArray(value),
);

/** By lane number; null for a lane that was shown to have none. */
const seenReps = fields
  .refine((lanes) => Object.keys(lanes).every((lane) => /^\d{1,2}$/.test(lane)))
  .pipe(z.record(z.string(), seenRep.nullable()));

/** From a screen to the host. */
export const fromScreen = z.discriminatedUnion('say', [
  /** First of all, once. */
  z.object({ say: z.literal('hello'), version: z.number().int(), screen: z.enum(['desk', 'wall', 'remote']) }).strict(),
  /** Clock sync: t1 is the screen's clock when it was sent. */
  z.object({ say: z.literal('ping'), n: z.number().int().nonnegative(), t1: time }).strict(),
  /**
   * A command. The same id twice is one command. `run` is the run it was meant for: in another it is
   * refused. `seen` names, by lane number, the rep each lane was shown
   * to have next (null: none), for commands that drop, move or repeat reps. `madeFrom` names the text that a
   * `rewrite` was made from: where another is in force by then it is refused.
   */
  z
    .object({
      say: z.literal('command'),
      id,
      command: fields,
      run: id.optional(),
      seen: seenReps.optional(),
      madeFrom: hash.optional(),
    })
    .strict(),
  /**
   * How this screen's sound stands, on connecting and whenever that changes; `id` names the page, `n` counts
   * what it has said of it. `asked`: somebody wants it so just now. `more`: whether more than one screen may
   * sound, as asked, or else as it was known here; null for no word of that.
   */
  z
    .object({
      say: z.literal('sound'),
      id,
      n: z.number().int().nonnegative(),
      status: soundStatus,
      asked: z.boolean(),
      more: z.boolean().nullable(),
    })
    .strict(),
]);

const timedCommand = z.object({ at: z.number().int(), command: fields }).strict();

/** From the host to a screen. */
export const fromHost = z.discriminatedUnion('say', [
  /** Answer to a ping: when it came and when this was sent, in host time; `epoch` changes when host time starts anew or has jumped. */
  z.object({ say: z.literal('pong'), n: z.number().int(), t1: time, t2: time, t3: time, epoch: id }).strict(),
  /** A session text, sent once a connection before the first snapshot that names it. */
  z.object({ say: z.literal('text'), hash, text: z.string(), lanesText: z.string().nullable() }).strict(),
  /** The whole truth about the run; the latest wins. */
  z
    .object({
      say: z.literal('snapshot'),
      version: z.number().int(),
      /** Rises with every snapshot of one host process. */
      n: z.number().int().nonnegative(),
      epoch: id,
      run: z
        .object({
          id,
          /** Of the text the run was opened with. */
          text: hash,
          /** Host time at the run's t = 0. */
          openedAt: time,
          clockPhase: z.number().int().min(0).max(59_999),
          /** Local time of day at t = 0, in ms after midnight. */
          openedAtTimeOfDay: z.number().int().min(0).max(86_399_999),
          /** All accepted ones, in order; a `rewrite` carries `textHash` in place of `text`. */
          commands: z.array(timedCommand),
          /** When the program was not there: what left after `from`, and until `to`, was not called. None where it is left out. */
          away: z.array(z.object({ from: z.number().int(), to: z.number().int() }).strict()).optional(),
        })
        .strict()
        .nullable(),
      /** Screens connected now. */
      screens: z.object({ desk: z.number().int(), wall: z.number().int(), remote: z.number().int() }).strict(),
      /** What the coach must be told for as long as it lasts; empty when all is well. */
      notices: z.array(z.string()),
      /**
       * Not null while there is something to be told once: the first of the notices, and what was kept of each
       * run that was left unattended; `run`: one that has come back and may be left.
       */
      startUp: z
        .object({ run: id.nullable(), unattended: z.array(z.string()) })
        .strict()
        .nullable(),
      /**
       * Screens that have said how their sound stands, `n` being the last word taken: one that is not `on`
       * is to fall silent. `more`: whether more than one may sound; null until somebody has said.
       */
      sound: z
        .object({
          more: z.boolean().nullable(),
          screens: z.array(
            z
              .object({
                id,
                screen: z.enum(['desk', 'wall', 'remote']),
                n: z.number().int(),
                status: soundStatus,
                on: z.boolean(),
              })
              .strict(),
          ),
        })
        .strict()
        .optional(),
    })
    .strict(),
  /** What became of a command, to the screen that gave it: `at` where it was accepted, `why` where not. */
  z.object({ say: z.literal('answer'), id, ok: z.boolean(), at: time.nullable(), why: z.string().nullable() }).strict(),
  /** The host hangs up, and why; `version` is the host's. */
  z.object({ say: z.literal('bye'), why: z.string(), version: z.number().int().optional() }).strict(),
]);

/** A session to be opened with its lanes, as the body of a request. */
export const sessionToOpen = z
  .object({
    text: z.string(),
    lanesText: z.string().nullable().optional(),
    /** Whether a run that is going may be given up for it. */
    replace: z.boolean().optional(),
    /** What the clock on the wall shows past the full minute, where the coach has matched it. */
    clockPhase: z.number().int().min(0).max(59_999).optional(),
  })
  .strict();

/** The run that has come back and is not to be gone on with, as the body of a request. */
export const runToLeave = z.object({ run: id }).strict();

/** The pool's clock as matched for a run that has not started; null for the time of day's. */
export const clockToMatch = z.object({ run: id, clockPhase: z.number().int().min(0).max(59_999).nullable() }).strict();

export type SessionToOpen = z.infer<typeof sessionToOpen>;
export type FromScreen = z.infer<typeof fromScreen>;
export type FromHost = z.infer<typeof fromHost>;
export type Snapshot = Extract<FromHost, { say: 'snapshot' }>;
export type Answer = Extract<FromHost, { say: 'answer' }>;
export type SeenRep = z.infer<typeof seenRep>;
export type SoundReport = Omit<Extract<FromScreen, { say: 'sound' }>, 'say'>;

/**
 * What a text from the other side is. Of its version it is asked first, before anything else in it is looked
 * at, because nothing else may be what it was: `other version` where it names another one; `unknown` where it
 * is no message of ours but may be one of a newer program, by its `say`, a field or a word that is not known
 * here; `no message` for all else.
 */
export type Heard<Message> =
  | { readonly kind: 'message'; readonly message: Message }
  | { readonly kind: 'other version'; readonly newer: boolean }
  | { readonly kind: 'unknown' }
  | { readonly kind: 'no message' };

/** Never throws. */
export function hearScreen(text: string): Heard<FromScreen> {
  return hear(fromScreen, text);
}

/** Never throws. */
export function hearHost(text: string): Heard<FromHost> {
  return hear(fromHost, text);
}

/** A message from a screen, or null for anything that is not one of this version. Never throws. */
export function readFromScreen(text: string): FromScreen | null {
  const heard = hearScreen(text);
  return heard.kind === 'message' ? heard.message : null;
}

function hear<Message>(schema: z.ZodType<Message>, text: string): Heard<Message> {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return { kind: 'no message' };
  }
  const { say, version } = Object(value) as { readonly say?: unknown; readonly version?: unknown };
  if (typeof say !== 'string') return { kind: 'no message' };
  if (Number.isSafeInteger(version) && version !== WIRE_VERSION) {
    return { kind: 'other version', newer: Number(version) > WIRE_VERSION };
  }
  const result = schema.safeParse(value);
  if (result.success) return { kind: 'message', message: result.data };
  return result.error.issues.some(({ code }) => NOT_KNOWN.includes(code))
    ? { kind: 'unknown' }
    : { kind: 'no message' };
}

/** What may be a newer program's: a `say`, a field, or one word of several that is not known here. */
const NOT_KNOWN: readonly string[] = ['invalid_union', 'unrecognized_keys', 'invalid_value'];
