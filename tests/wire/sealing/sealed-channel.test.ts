/* Nothing opens but the next frame of the other end, unchanged; after anything else the end is dead. */

import { createCipheriv, createDecipheriv, hkdfSync } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { SEALED_LIMIT } from '../../../app/wire/messages.ts';
import { frameNonce, SEAL_LENGTH, sealedEnd, type SealedEnd } from '../../../app/wire/sealing/sealed-channel.ts';
import { runs } from '../../support/run/runs.ts';

const NONCES = { screen: '00112233445566778899aabbccddeeff', host: 'ffeeddccbbaa99887766554433221100' };
const KEY = 'ab'.repeat(32);

interface Ends {
  readonly host: SealedEnd;
  readonly screen: SealedEnd;
}

function ends(key = KEY, nonces = NONCES): Ends {
  return { host: sealedEnd('host', key, nonces), screen: sealedEnd('screen', key, nonces) };
}

/** The first frame under a key, by Node's own library. */
function sealWith(key: Buffer, text: string): Uint8Array {
  const cipher = createCipheriv('chacha20-poly1305', key, Buffer.alloc(12), { authTagLength: SEAL_LENGTH });
  return Buffer.concat([cipher.update(text), cipher.final(), cipher.getAuthTag()]);
}

/** Opens nothing, and nothing after it either. */
function expectDead(end: SealedEnd, frame: Uint8Array, next: Uint8Array): void {
  expect(end.open(frame)).toBeNull();
  expect(end.open(next)).toBeNull();
}

const message = fc.string({ unit: 'binary' }).map((text) => JSON.stringify({ text }));
const messages = fc.array(message, { minLength: 2, maxLength: 6 });
const direction = fc.constantFrom<readonly ['host' | 'screen', 'host' | 'screen']>(
  ['host', 'screen'],
  ['screen', 'host'],
);

test('both ends hear each other, in any order of talking', () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(direction, message)), (talk) => {
      const both = ends();
      for (const [[from, to], text] of talk) expect(both[to].open(both[from].seal(text))).toBe(text);
    }),
    { numRuns: runs(100) },
  );
});

test('a frame is what RFC 8439 makes of it under its direction’s key, with its number as nonce', () => {
  const { host, screen } = ends();
  screen.seal('{"say":"first"}');
  for (const [end, use, n] of [
    [host, 'host to screen', 0],
    [screen, 'screen to host', 1],
  ] as const) {
    const frame = Buffer.from(end.seal('{"say":"next"}'));
    const salt = Buffer.from(NONCES.screen + NONCES.host, 'hex');
    const key = Buffer.from(hkdfSync('sha256', KEY, salt, `lanecall 1 ${use}`, 32));
    const nonce = Buffer.from(`${'0'.repeat(23)}${n}`, 'hex');
    const decipher = createDecipheriv('chacha20-poly1305', key, nonce, { authTagLength: 16 });
    decipher.setAuthTag(frame.subarray(-SEAL_LENGTH));
    const opened = decipher.update(frame.subarray(0, -SEAL_LENGTH));
    decipher.final();
    expect(opened.toString('utf8')).toBe('{"say":"next"}');
  }
});

test('a frame opens wherever it stands in a buffer', () => {
  const { host, screen } = ends();
  for (let offset = 0; offset < 8; offset++) {
    const text = JSON.stringify({ offset, long: 'x'.repeat(200 + offset) });
    const frame = screen.seal(text);
    const buffer = Buffer.concat([Buffer.alloc(offset), frame, Buffer.alloc(8)]);
    expect(host.open(buffer.subarray(offset, offset + frame.length))).toBe(text);
  }
});

describe('does not open, and ends the channel:', () => {
  const inBothDirections = (
    tried: (from: SealedEnd, to: SealedEnd, texts: readonly string[], at: number) => void,
  ): void =>
    fc.assert(
      fc.property(direction, messages, fc.nat(), ([from, to], texts, at) => {
        const both = ends();
        tried(both[from], both[to], texts, at % (texts.length - 1));
      }),
      { numRuns: runs(100) },
    );

  test('a frame a second time', () => {
    inBothDirections((from, to, texts, at) => {
      const frames = texts.map((text) => from.seal(text));
      for (const frame of frames.slice(0, at + 1)) expect(to.open(frame)).not.toBeNull();
      expectDead(to, frames[at]!, frames[at + 1]!);
    });
  });

  test('two frames the other way round', () => {
    inBothDirections((from, to, texts, at) => {
      const frames = texts.map((text) => from.seal(text));
      for (const frame of frames.slice(0, at)) expect(to.open(frame)).not.toBeNull();
      expectDead(to, frames[at + 1]!, frames[at]!);
    });
  });

  test('a frame with any one bit changed, or any number of bytes cut off', () => {
    const text = '{"say":"command","id":"a","command":{"do":"stop"}}';
    const length = text.length + SEAL_LENGTH;
    for (let bit = 0; bit < length * 8; bit++) {
      const { host, screen } = ends();
      const frame = screen.seal(text);
      frame[bit >> 3]! ^= 1 << (bit & 7);
      expectDead(host, frame, screen.seal(text));
    }
    for (let cut = 1; cut <= length; cut++) {
      const fromFront = ends();
      expectDead(fromFront.host, fromFront.screen.seal(text).slice(cut), fromFront.screen.seal(text));
      const fromEnd = ends();
      expectDead(fromEnd.host, fromEnd.screen.seal(text).slice(0, -cut), fromEnd.screen.seal(text));
    }
  });

  test('a frame with bytes added', () => {
    inBothDirections((from, to, [text, next]) => {
      expectDead(to, Uint8Array.from([...from.seal(text!), 0]), from.seal(next!));
    });
  });

  test('its own frame, sent back', () => {
    inBothDirections((from, _to, [text, next]) => expectDead(from, from.seal(text!), from.seal(next!)));
  });

  test('a recorded session, played to a host that has made up a new nonce, or with the nonces the other way round', () => {
    const fresh = fc.uint8Array({ minLength: 16, maxLength: 16 }).map((bytes) => Buffer.from(bytes).toString('hex'));
    fc.assert(
      fc.property(direction, messages, fresh, ([from, to], [text, next], host) => {
        const recorded = ends();
        const frames = [recorded[from].seal(text!), recorded[from].seal(next!)] as const;
        expectDead(ends(KEY, { ...NONCES, host })[to], ...frames);
        expectDead(ends(KEY, { screen: NONCES.host, host: NONCES.screen })[to], ...frames);
      }),
      { numRuns: runs(100) },
    );
  });

  test('a frame under another key', () => {
    inBothDirections((from, _to, [text, next]) => {
      const other = ends(`${'ab'.repeat(31)}aa`);
      const frames = [from.seal(text!), from.seal(next!)] as const;
      expectDead(other.host, ...frames);
      expectDead(other.screen, ...frames);
    });
  });

  test('bytes that nobody sealed', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        const { host, screen } = ends();
        expectDead(host, bytes, screen.seal('{}'));
      }),
      { numRuns: runs(100) },
    );
  });
});

test('a dead end still seals: its last word can be read', () => {
  const { host, screen } = ends();
  expect(host.open(new Uint8Array(20))).toBeNull();
  expect(screen.open(host.seal('{"say":"bye"}'))).toBe('{"say":"bye"}');
});

describe('the limit of what a screen sends', () => {
  const longest = 'x'.repeat(SEALED_LIMIT - SEAL_LENGTH);

  test('a frame of exactly the limit is sent and opened', () => {
    const { host, screen } = ends();
    const frame = screen.seal(longest);
    expect(frame.length).toBe(SEALED_LIMIT);
    expect(host.open(frame)).toBe(longest);
  });

  test('a longer one is not sent, and the next one opens', () => {
    const { host, screen } = ends();
    expect(() => screen.seal(`${longest}x`)).toThrow(RangeError);
    expect(() => screen.seal('ü'.repeat(SEALED_LIMIT / 2))).toThrow(RangeError);
    expect(host.open(screen.seal('{}'))).toBe('{}');
  });

  test('a longer one is not opened by the host, though it was sealed well', () => {
    const salt = Buffer.from(NONCES.screen + NONCES.host, 'hex');
    const key = Buffer.from(hkdfSync('sha256', KEY, salt, 'lanecall 1 screen to host', 32));
    const cipher = sealWith(key, `${longest}x`);
    expectDead(ends().host, cipher, ends().screen.seal('{}'));
  });

  test('what the host says may be longer', () => {
    const { host, screen } = ends();
    const text = JSON.stringify({ body: `${longest}x` });
    expect(screen.open(host.seal(text))).toBe(text);
  });
});

describe('the nonce of a frame', () => {
  test.each([
    [0, '000000000000000000000000'],
    [1, '000000000000000000000001'],
    [0x01020304, '000000000000000001020304'],
    [2 ** 32 - 1, '0000000000000000ffffffff'],
  ])('of frame %i is %s', (n, nonce) => {
    expect(Buffer.from(frameNonce(n)).toString('hex')).toBe(nonce);
  });

  test('there is none after 2^32 frames', () => {
    expect(() => frameNonce(2 ** 32)).toThrow(RangeError);
  });
});
