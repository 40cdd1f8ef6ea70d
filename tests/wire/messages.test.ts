/* Messages survive the wire, and nothing else is taken for one. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readCommand } from '../../app/core/run/command/read-command.ts';
import {
  hearHost,
  hearScreen,
  MAY_SAY,
  MESSAGE_LIMIT,
  readFromScreen,
  SEALED_LIMIT,
  TEXT_LIMIT,
  WIRE_VERSION,
  type FromHost,
  type FromScreen,
  type ScreenKind,
} from '../../app/wire/messages.ts';
import { readFromHost } from '../support/host/from-host.ts';

const FROM_SCREEN: readonly FromScreen[] = [
  { say: 'hello', version: WIRE_VERSION, screen: 'wall' },
  { say: 'ping', n: 3, t1: 12.345 },
  { say: 'sound', id: 'page', n: 0, status: 'blocked', asked: true, more: null },
  { say: 'clock', quality: 'good', bound: 5 },
  { say: 'whole' },
  { say: 'sound', id: 'page', n: 1, status: 'off', asked: false, more: true },
  { say: 'command', id: 'a', command: { do: 'skip', lanes: [2] } },
  {
    say: 'command',
    id: 'b',
    command: { do: 'shift', seconds: -5 },
    expected: { '0': null, '12': { line: 7, rounds: [2, 1], rep: 3 } },
  },
  { say: 'command', id: 'd', command: { do: 'resume' }, lastStop: null },
  { say: 'touch', id: 't', run: 'r', lane: 2, at: 10_000, watch: 37_840 },
  { say: 'touch', id: 'u', run: 'r', lane: 2, at: 10_000, watch: null },
  { say: 'command', id: 'e', command: { do: 'undo' }, undoes: { command: 'skip', at: 61_000 } },
  { say: 'command', id: 'c', command: { do: 'rewrite', text: '50 @ 1:00' }, run: 'r', madeFrom: '0123456789abcdef' },
];

const FROM_HOST: readonly FromHost[] = [
  { say: 'pong', n: 3, t1: 12.345, t2: 99.5, t3: 99.75, epoch: 'e' },
  { say: 'text', hash: '0123456789abcdef', text: 'Squad\n50 @ 1:00\n', lanesText: 'lane 1' },
  {
    say: 'snapshot',
    version: WIRE_VERSION,
    n: 4,
    epoch: 'e',
    run: {
      id: 'r',
      text: '0123456789abcdef',
      openedAt: 123.456,
      clockPhase: 59_999,
      openedAtTimeOfDay: 86_399_999,
      commands: [{ at: 0, command: { do: 'rewrite', textHash: '0123456789abcdef' } }],
      away: [{ from: 0, to: 5 }],
    },
    notices: ['The disk is full.'],
    startUp: { run: 'r', unattended: ['Harbour squad'] },
  },
  {
    say: 'snapshot',
    version: WIRE_VERSION,
    n: 0,
    epoch: 'e',
    run: null,
    notices: [],
    startUp: null,
  },
  {
    say: 'snapshot',
    version: WIRE_VERSION,
    n: 0,
    epoch: 'e',
    run: null,
    notices: ['A run was left unattended.'],
    startUp: { run: null, unattended: [] },
  },
  {
    say: 'snapshot',
    version: WIRE_VERSION,
    n: 9,
    epoch: 'e',
    run: null,
    notices: [],
    startUp: null,
  },
  { say: 'presence', screens: { desk: 1, wall: 200, remote: 0 } },
  {
    say: 'commands',
    n: 7,
    epoch: 'e',
    run: 'r',
    after: 2,
    commands: [{ at: 5, command: { do: 'stop' } }],
    notices: [],
    startUp: null,
  },
  { say: 'times', run: 'r', times: [{ lane: 2, at: 10_000, watches: [37_840] }] },
  { say: 'sound', more: null, screens: [{ id: 'page', screen: 'wall', n: 3, status: 'running', on: true }] },
  { say: 'sound', more: true, screens: [{ id: null, screen: 'desk', n: 0, status: 'blocked', on: false }] },
  { say: 'answer', id: 'a', ok: true, at: 61_000, why: null },
  { say: 'answer', id: 'a', ok: false, at: null, why: 'The session is done.' },
  { say: 'bye', why: 'The program has ended.' },
  { say: 'bye', why: 'The program has ended.', version: WIRE_VERSION },
  { say: 'bye', why: 'This screen was thrown out.', again: true },
  { say: 'bye', why: 'Sharing has ended.', ended: true },
];

describe('[wire] round trip', () => {
  test.each(FROM_SCREEN)('from a screen: %o', (message) => {
    expect(readFromScreen(JSON.stringify(message))).toEqual(message);
  });

  test.each(FROM_HOST)('from the host: %o', (message) => {
    expect(readFromHost(JSON.stringify(message))).toEqual(message);
  });
});

describe('[wire] anything that is not exactly a message is refused', () => {
  test.each([
    '',
    'null',
    '[]',
    '{}',
    '"hello"',
    '{"say":"hello"}',
    '{"say":"hello","version":1.5,"screen":"desk"}',
    '{"say":"hello","version":1,"screen":"stand"}',
    '{"say":"hello","version":1,"screen":"desk","more":1}',
    '{"say":"ping","n":-1,"t1":0}',
    '{"say":"ping","n":1,"t1":1e999}',
    '{"say":"command","id":"","command":{}}',
    `{"say":"command","id":"${'x'.repeat(65)}","command":{}}`,
    '{"say":"command","id":"a","command":[]}',
    '{"say":"command","id":"a","command":{},"seen":{"one":null}}',
    '{"say":"command","id":"a","command":{},"seen":{"1":{"line":1,"rounds":[]}}}',
    '{"say":"command","id":"a","command":{},"seen":{"__proto__":null}}',
    '{"say":"command","id":"a","command":{},"seen":{"1":{"line":1,"rounds":[],"rep":1,"__proto__":1}}}',
    '{"say":"command","id":"a","command":{},"__proto__":1}',
    '{"say":"command","id":"a","command":null}',
    '{"say":"bye","why":"x"}',
  ])('%s', (text) => {
    expect(readFromScreen(text)).toBeNull();
  });

  test('but a command keeps a field named __proto__, which readCommand then refuses as unknown', () => {
    const message = readFromScreen('{"say":"command","id":"a","command":{"do":"start","__proto__":{"lanes":[1]}}}');
    if (message?.say !== 'command') throw new Error('it was not taken');
    expect(readCommand(message.command)).toEqual({
      ok: false,
      faults: 'The command start has no field "__proto__".',
    });
  });

  test('and reading never throws, whatever comes', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.json(),
          fc.jsonValue().map((value) => JSON.stringify({ say: value })),
        ),
        (text) => {
          readFromScreen(text);
          readFromHost(text);
        },
      ),
      { numRuns: 500 },
    );
  });

  test('also a message with any one field left out', () => {
    const optional = ({ say }: FromScreen | FromHost): readonly string[] => {
      if (say === 'command') return ['expected', 'lastStop', 'undoes', 'run', 'madeFrom'];
      return say === 'bye' ? ['version', 'again', 'ended'] : [];
    };
    const removable = (message: FromScreen | FromHost) =>
      Object.keys(message).filter((field) => !optional(message).includes(field));
    for (const message of FROM_SCREEN) {
      for (const field of removable(message)) expect(readFromScreen(without(message, field))).toBeNull();
    }
    for (const message of FROM_HOST) {
      for (const field of removable(message)) expect(readFromHost(without(message, field))).toBeNull();
    }
  });
});

function without(message: object, field: string): string {
  return JSON.stringify({ ...message, [field]: undefined });
}

describe('[wire] how a text is understood', () => {
  const newer = { kind: 'other version', newer: true };
  const older = { kind: 'other version', newer: false };

  test.each([
    ['no JSON', 'no message', 'hello'],
    ['no object', 'no message', '7'],
    ['nothing', 'no message', 'null'],
    ['what says nothing', 'no message', '{"version":2}'],
    ['a say that is not a word', 'no message', '{"say":1,"version":2}'],
    ['a field that is missing', 'no message', '{"say":"ping","n":1}'],
    ['a value out of its range', 'no message', '{"say":"ping","n":-1,"t1":0}'],
    ['a version that is no number', 'no message', '{"say":"hello","version":"2","screen":"desk"}'],
    ['an unknown kind of message', 'unknown', '{"say":"sing"}'],
    ['an unknown field', 'unknown', '{"say":"ping","n":1,"t1":0,"t2":0}'],
    ['an unknown field beside a value out of its range', 'unknown', '{"say":"ping","n":-1,"t1":0,"t2":0}'],
    ['a command that is a word', 'no message', '{"say":"command","id":"a","command":"start"}'],
    ['an unknown word', 'unknown', '{"say":"hello","version":1,"screen":"watch"}'],
  ])('%s: %s', (_, kind, text) => {
    expect(hearScreen(text)).toEqual({ kind });
  });

  test('the version is checked before anything else, on either side', () => {
    for (const hear of [hearScreen, hearHost]) {
      expect(hear(`{"say":"sing","version":${WIRE_VERSION + 1}}`)).toEqual(newer);
      expect(hear(`{"say":"sing","version":${WIRE_VERSION - 1}}`)).toEqual(older);
      expect(hear(`{"say":"sing","version":${WIRE_VERSION}}`)).toEqual({ kind: 'unknown' });
      expect(hear('{"say":"sing","version":1.5}')).toEqual({ kind: 'unknown' });
    }
  });
});

describe('[wire] which screens may say what', () => {
  const saidBy = (kind: ScreenKind): readonly string[] =>
    Object.entries(MAY_SAY)
      .filter(([, kinds]) => kinds.includes(kind))
      .map(([say]) => say)
      .sort();
  const ANY = ['hello', 'ping', 'sound', 'whole', 'clock'];

  test.each<[ScreenKind, readonly string[]]>([
    ['wall', ['room']],
    ['remote', ['command', 'touch']],
    ['desk', ['command', 'touch', 'screen', 'which', 'sharing', 'ask']],
  ])('a %s may say %j besides what all may', (kind, own) => {
    expect(saidBy(kind)).toEqual([...ANY, ...own].sort());
  });
});

test('[wire] the words for a kind of screen, a state of the sound and a way of asking are all understood', () => {
  const isHeard = (message: object): boolean => hearScreen(JSON.stringify(message)).kind === 'message';
  for (const screen of ['desk', 'wall', 'remote']) {
    expect(isHeard({ say: 'hello', version: WIRE_VERSION, screen }), screen).toBe(true);
    const told = { say: 'sound', more: null, screens: [{ id: null, screen, n: 1, status: 'off', on: false }] };
    expect(hearHost(JSON.stringify(told)).kind, screen).toBe('message');
  }
  for (const status of ['off', 'blocked', 'starting', 'running', 'gone', 'missing'])
    expect(isHeard({ say: 'sound', id: 'a', n: 1, status, asked: false, more: null }), status).toBe(true);
  for (const method of ['PUT', 'POST'])
    expect(isHeard({ say: 'ask', id: 'a', method, path: '/session', body: '' }), method).toBe(true);
});

test('[wire] a message has up to 64 KiB, a sealed one up to 1 MiB, a session up to 256 KiB', () => {
  expect([MESSAGE_LIMIT, SEALED_LIMIT, TEXT_LIMIT]).toEqual([65_536, 1_048_576, 262_144]);
});
