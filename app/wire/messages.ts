/*
 * All messages between host and screens, in one versioned union. The network and the desktop program's own channel
 * carry the same messages. Every message is checked on arrival; anything that is not exactly one of these is refused
 * and the page says so. Times are in ms; "host time" is the host's monotonic clock.
 */

import * as z from 'zod/mini';
import { handTimes, touchFields } from './records/afterwards.ts';
import { keyGiven } from './sharing/joining.ts';
import {
  nameOfScreen,
  screenIntroduction,
  screenRoom,
  screenSettings,
  screenTold,
  screenWish,
} from './screen-settings.ts';
import { CLOCK_QUALITIES, sharingTold, sharingWish } from './sharing/sharing.ts';

/**
 * From the first release on, it is raised with every change that an older screen or host could not read: a new kind of
 * message, a new field, a new word.
 */
export const WIRE_VERSION = 1;

/** The largest message that a screen may send, in bytes. Session texts are sent by HTTP. */
export const MESSAGE_LIMIT = 64 * 1024;

/** The largest sealed frame of a tablet or a page of this machine, in bytes: a session text in JSON in JSON, with room. */
export const SEALED_LIMIT = 1024 * 1024;

/** The largest session text, in bytes. */
export const TEXT_LIMIT = 256 * 1024;

const id = z.string().check(z.minLength(1), z.maxLength(64));
const time = z.number();
const hash = z.string().check(z.regex(/^[0-9a-f]{16,64}$/));

/** The rep that a screen showed as a lane's next: line, round numbers (outermost first), rep. */
const expectedRep = z.strictObject({ line: z.int(), rounds: z.array(z.int()).check(z.maxLength(8)), rep: z.int() });

/** The state of a screen's sound: `off` if it is not wanted, else what has become of it. */
const soundStatus = z.enum(['off', 'blocked', 'starting', 'running', 'gone', 'missing']);

/**
 * Fields that are checked elsewhere: those of a command by the core's `readCommand`, which says in a sentence what is
 * wrong. They are not read with the validator's record, because that silently drops a field named `__proto__`.
 */
const fields = z.custom<Readonly<Record<string, unknown>>>(
  (value) => typeof value === 'object' && value !== null && !Array.isArray(value),
);

/** By lane number; null for a lane that was shown without a next rep. */
const expectedReps = z.pipe(
  fields.check(z.refine((lanes) => Object.keys(lanes).every((lane) => /^\d{1,2}$/.test(lane)))),
  z.record(z.string(), z.nullable(expectedRep)),
);

/** From a screen to the host. */
export const fromScreen = z.discriminatedUnion('say', [
  /** The first message, sent once. A wall screen introduces itself. */
  z.strictObject({
    say: z.literal('hello'),
    version: z.int(),
    screen: z.enum(['desk', 'wall', 'remote']),
    wall: z.optional(screenIntroduction),
  }),
  /** Clock sync: t1 is the screen's clock when it was sent. */
  z.strictObject({ say: z.literal('ping'), n: z.int().check(z.nonnegative()), t1: time }),
  /**
   * A command. The same id twice is one command. `run` is the run it was meant for: in another it is
   * refused. `expected` names, by lane number, the rep each lane was shown
   * to have next (null: none), for commands that drop, move or repeat reps. `lastStop` is the time of the last Stop that
   * the screen knew of (null: none), for commands that may lift one, and `undoes` the command that it showed Undo to
   * take back: after another Stop or command it is refused. `madeFrom` names the text that a `rewrite` was made from:
   * where another is in force by then it is refused.
   */
  z.strictObject({
    say: z.literal('command'),
    id,
    command: fields,
    run: z.optional(id),
    expected: z.optional(expectedReps),
    lastStop: z.optional(z.nullable(z.int())),
    undoes: z.optional(z.nullable(z.strictObject({ command: z.string().check(z.maxLength(64)), at: z.int() }))),
    madeFrom: z.optional(hash),
  }),
  /**
   * The state of this screen's sound, sent on connecting and whenever it changes. `id` names the page, `n` counts its
   * reports. `asked`: whether somebody has just asked for it. `more`: whether more than one screen may sound, as asked
   * or as last known here; null if it is not known.
   */
  z.strictObject({
    say: z.literal('sound'),
    id,
    n: z.int().check(z.nonnegative()),
    status: soundStatus,
    asked: z.boolean(),
    more: z.nullable(z.boolean()),
  }),
  /** The screen has missed something, and wants a whole snapshot. */
  z.strictObject({ say: z.literal('whole') }),
  /** How good the screen's clock is, on connecting and whenever that changes; `bound`: it is wrong by at most so many ms. */
  z.strictObject({ say: z.literal('clock'), quality: z.enum(CLOCK_QUALITIES), bound: z.int().check(z.nonnegative()) }),
  /** A wall screen has another size, or has been turned. */
  z.strictObject({ say: z.literal('room'), room: screenRoom }),
  /** The coach wants something of the wall screens with this name. The same id twice is one wish. */
  z.strictObject({ say: z.literal('screen'), id, name: nameOfScreen, wish: screenWish }),
  /** The coach wants to know which screen is which. */
  z.strictObject({ say: z.literal('which') }),
  /**
   * A touch in a run, which may be over: a watch for the rep of a lane that left at `at`, in ms since the run was opened;
   * null takes back all that the rep has. It is no command, changes nothing of the run, and is kept with what is added
   * to it. The same id twice is one touch, also after a crash. Answered as a command is, without a time.
   */
  z.strictObject({ say: z.literal('touch'), id, run: id, ...touchFields }),
  /** The coach wants something of sharing. The same id twice is one wish. */
  z.strictObject({ say: z.literal('sharing'), id, wish: sharingWish }),
  /**
   * A tablet, or a page of this machine while it shares, asks what it would else ask by HTTP; answered by `reply`. The
   * body of a session may be larger than other messages (`SEALED_LIMIT`).
   */
  z.strictObject({
    say: z.literal('ask'),
    id,
    method: z.enum(['PUT', 'POST']),
    path: z.string().check(z.maxLength(64)),
    body: z.string(),
  }),
]);

/** The reps of a run whose times are told: at least the last three of each of twenty lanes. */
export const TIMES_TOLD = 60;

/** `by`: the name of the remote, tablet or keyed page that gave it; none for a coach's window without a key, and never told to walls. */
const timedCommand = z.strictObject({ at: z.int(), command: fields, by: z.optional(z.string()) });

/**
 * The report after a start, until the coach has read it; then null. It goes with the first notices, and lists each
 * run that was left unattended. `run`: the run that has come back and may be left.
 */
const startUp = z.nullable(z.strictObject({ run: z.nullable(id), unattended: z.array(z.string()) }));

/** From the host to a screen. */
export const fromHost = z.discriminatedUnion('say', [
  /** The answer to a ping. t2, t3: host time when the ping came and when this was sent. `epoch` changes when host time has begun again or jumped. */
  z.strictObject({ say: z.literal('pong'), n: z.int(), t1: time, t2: time, t3: time, epoch: id }),
  /** A session text. Each connection gets it once, before the first snapshot that names it. */
  z.strictObject({ say: z.literal('text'), hash, text: z.string(), lanesText: z.nullable(z.string()) }),
  /** The snapshot: everything about the run. The latest one counts, with the `commands` that follow it. */
  z.strictObject({
    say: z.literal('snapshot'),
    version: z.int(),
    /** Rises with every snapshot of one host process. */
    n: z.int().check(z.nonnegative()),
    epoch: id,
    run: z.nullable(
      z.strictObject({
        id,
        /** The hash of the text that the run was opened with. */
        text: hash,
        /** Host time at the run's t = 0. */
        openedAt: time,
        clockPhase: z.int().check(z.minimum(0), z.maximum(59_999)),
        /** Local time of day at t = 0, in ms after midnight. */
        openedAtTimeOfDay: z.int().check(z.minimum(0), z.maximum(86_399_999)),
        /** All accepted commands, in order; a `rewrite` has `textHash` in place of `text`. */
        commands: z.array(timedCommand),
        /** Times in which the program was not running: what left after `from`, up to `to`, was not called. Left out if none. */
        away: z.optional(z.array(z.strictObject({ from: z.int(), to: z.int() }))),
      }),
    ),
    /** Without a run: the time of day that the pool's clock shows at host time 0, in ms after midnight. */
    poolClock: z.optional(z.number().check(z.minimum(0), z.maximum(86_400_000))),
    /** Notices that the coach must see now; empty if all is well. */
    notices: z.array(z.string()),
    startUp,
  }),
  /** The commands since the snapshot before, of which `after` were told: with them it is a snapshot again (`snapshot.ts`). */
  z.strictObject({
    say: z.literal('commands'),
    n: z.int().check(z.nonnegative()),
    epoch: id,
    run: id,
    after: z.int().check(z.nonnegative()),
    commands: z.array(timedCommand),
    notices: z.array(z.string()),
    startUp,
  }),
  /** To the coach: how many screens are connected now. */
  z.strictObject({
    say: z.literal('presence'),
    screens: z.strictObject({ desk: z.int(), wall: z.int(), remote: z.int() }),
  }),
  /**
   * How the sound stands: the screens that have reported theirs, to a wall screen itself alone; `id` is the screen's own,
   * and null for others; `n` is the last report taken. A screen that is not `on` must fall silent. `more`: whether more
   * than one may sound; null until somebody has said.
   */
  z.strictObject({
    say: z.literal('sound'),
    more: z.nullable(z.boolean()),
    screens: z.array(
      z.strictObject({
        id: z.nullable(id),
        screen: z.enum(['desk', 'wall', 'remote']),
        n: z.int(),
        status: soundStatus,
        on: z.boolean(),
      }),
    ),
  }),
  /** To a wall screen: its name and settings, on connecting and after each change of them. */
  z.strictObject({ say: z.literal('screen'), name: nameOfScreen, settings: screenSettings }),
  /** To the coach: all wall screens that are connected or remembered, by name. The latest list counts. */
  z.strictObject({ say: z.literal('screens'), screens: z.array(screenTold) }),
  /** Every wall screen shows its name, large, for five seconds. The coach's windows hear it for their pictures of them. */
  z.strictObject({ say: z.literal('which') }),
  /** To the coach and the remotes: the hand times of the reps of this run that left last. The latest list counts. */
  z.strictObject({ say: z.literal('times'), run: id, times: z.array(handTimes).check(z.maxLength(TIMES_TOLD)) }),
  /** The answer to a command, a wish or a touch: `at` if a command was accepted, `why` if it was not. */
  z.strictObject({ say: z.literal('answer'), id, ok: z.boolean(), at: z.nullable(time), why: z.nullable(z.string()) }),
  /** To the coach: how sharing stands. */
  z.strictObject({ say: z.literal('sharing'), sharing: sharingTold }),
  /** To the page that switched sharing on, or asked for another window: its key from now on, or the address of that window, usable once. */
  z.strictObject({ say: z.literal('own-key'), given: keyGiven }),
  z.strictObject({ say: z.literal('claim'), address: z.string() }),
  /** The answer to an `ask`. */
  z.strictObject({ say: z.literal('reply'), id, status: z.int(), body: z.string() }),
  /**
   * The host hangs up and says why; `version` is the host's. `again`: the screen was thrown out, or needs a key it has not.
   * `ended`: to a wall of the network, nothing is shared any more, and it shows no leaves until something is.
   */
  z.strictObject({
    say: z.literal('bye'),
    why: z.string(),
    version: z.optional(z.int()),
    again: z.optional(z.literal(true)),
    ended: z.optional(z.literal(true)),
  }),
]);

/** A session to open with its lanes, as the body of a request. */
export const sessionToOpen = z.strictObject({
  text: z.string(),
  lanesText: z.optional(z.nullable(z.string())),
  /** Whether a run that is going may be given up for it. */
  replace: z.optional(z.boolean()),
  /** What the clock on the wall shows past the full minute, in ms, if the coach has matched it. */
  clockPhase: z.optional(z.int().check(z.minimum(0), z.maximum(59_999))),
});

/** A run that has come back and that the coach leaves, as the body of a request. */
export const runToLeave = z.strictObject({ run: id });

/** The pool's clock as matched for a run that has not started; null for the time of day's. */
export const clockToMatch = z.strictObject({
  run: id,
  clockPhase: z.nullable(z.int().check(z.minimum(0), z.maximum(59_999))),
});

export type SessionToOpen = z.infer<typeof sessionToOpen>;
export type FromScreen = z.infer<typeof fromScreen>;
export type ScreenKind = Extract<FromScreen, { say: 'hello' }>['screen'];
export type FromHost = z.infer<typeof fromHost>;
export type Snapshot = Extract<FromHost, { say: 'snapshot' }>;
export type Answer = Extract<FromHost, { say: 'answer' }>;
export type ExpectedRep = z.infer<typeof expectedRep>;
export type SoundReport = Omit<Extract<FromScreen, { say: 'sound' }>, 'say'>;

const EVERY_SCREEN = ['desk', 'wall', 'remote'] as const;

/** Which screens may say what. A wall has no way to change anything. */
export const MAY_SAY: Readonly<Record<FromScreen['say'], readonly ScreenKind[]>> = {
  hello: EVERY_SCREEN,
  ping: EVERY_SCREEN,
  sound: EVERY_SCREEN,
  whole: EVERY_SCREEN,
  clock: EVERY_SCREEN,
  room: ['wall'],
  command: ['desk', 'remote'],
  touch: ['desk', 'remote'],
  screen: ['desk'],
  which: ['desk'],
  sharing: ['desk'],
  ask: ['desk'],
};

/**
 * What a text from the other side is. Its version is checked first, because in another version nothing else may mean
 * the same. `other version`: it names another version. `unknown`: it may be a message of a newer program, because its
 * `say`, a field or a word is not known here. `no message`: anything else.
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

function hear<Message>(schema: z.ZodMiniType<Message>, text: string): Heard<Message> {
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

/** Validation errors that a newer program's message may cause: an unknown `say`, field or word. */
const NOT_KNOWN: readonly string[] = ['invalid_union', 'unrecognized_keys', 'invalid_value'];
