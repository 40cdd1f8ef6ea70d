import { describe, expect, test } from 'vitest';
import type { KeyGiven, Role } from '../../../../app/wire/sharing/joining.ts';
import type { Known } from '../../../../app/wire/sealing/proof.ts';
import { createAsking } from '../../../../renderer/link/joining/asking.ts';
import { deckCarrier } from '../../../../renderer/link/joining/deck-carrier.ts';
import { createJoining } from '../../../../renderer/link/joining/joining.ts';
import type { SealedHeard } from '../../../../renderer/link/joining/sealed-carrier.ts';
import { Line, listener, ownKey } from './line.ts';

const CODE = '7K2QM0H3TZ4RVD8XWB5C';

function keyFor(role: Role): KeyGiven {
  return { id: 'a'.repeat(16), key: 'b'.repeat(64), role, name: 'Phone 1' };
}

interface Given {
  readonly role?: Role;
  readonly code?: string;
  readonly key?: KeyGiven;
  /** On this machine, where a page needs no key while nothing is shared. */
  readonly isHere?: boolean;
  readonly fails?: boolean;
}

function page({ role = 'remote', code, key, isHere = false, fails = false }: Given) {
  const [plain, sealed] = [new Line(), new Line()];
  const kept = ownKey(key ?? null);
  const joining = createJoining();
  const asking = createAsking({ newId: () => 'id', after: () => () => undefined });
  const known: Known[] = [];
  const handed: KeyGiven[] = [];
  let asksBySocket = false;
  let door: SealedHeard | null = null;
  const carrier = deckCarrier({
    role,
    code: code ?? null,
    kept,
    joining,
    asking,
    plain: isHere ? plain : null,
    load: () =>
      fails
        ? Promise.reject(new Error('gone'))
        : Promise.resolve((by, heard) => {
            known.push(by);
            door = heard;
            return sealed.connect(heard);
          }),
    askBy: (ask) => void (asksBySocket = ask !== null),
    handOver: (given) => handed.push(given),
  });
  const { all, heard } = listener();
  const connect = async () => {
    const connection = carrier.connect(heard);
    await Promise.resolve();
    await Promise.resolve();
    return connection;
  };
  return {
    carrier,
    plain,
    sealed,
    kept,
    joining,
    asking,
    known,
    handed,
    all,
    connect,
    door: () => door!,
    asksBySocket: () => asksBySocket,
  };
}

describe('[joining] a page on the network', () => {
  test('without key or code asks for one, waits for it as long as it takes, and connects to nobody', async () => {
    const { carrier, joining, sealed, connect } = page({});
    expect(joining.getState()).toEqual({ step: 'asks', why: null });
    (await connect()).send('x');
    expect([carrier.patience, carrier.longestPause, sealed.connects]).toEqual([Infinity, 8000, 0]);
  });

  test('joins by the code of its address, keeps the key that it gets, and has no more use for the code', async () => {
    const { joining, known, kept, all, connect, door } = page({ code: CODE });
    expect(joining.getState()).toEqual({ step: 'in' });
    await connect();
    door().given(keyFor('remote'));
    door().opened();
    expect([kept.now(), all]).toEqual([keyFor('remote'), ['opened']]);
    door().closed();
    await connect();
    expect(known.map(({ say }) => say)).toEqual(['join', 'return']);
  });

  test('joins by a code that is typed once the link connects again, which it does at once', async () => {
    const { carrier, joining, known, all, connect } = page({});
    await connect();
    carrier.enter(CODE);
    expect([joining.getState(), all, carrier.patience]).toEqual([{ step: 'in' }, ['closed'], 10_000]);
    await connect();
    expect(known).toEqual([{ say: 'join', code: CODE }]);
  });

  test('keeps a code that was refused to be looked at again, but not one that let it in', async () => {
    const { carrier, joining, connect, door } = page({});
    await connect();
    carrier.enter(CODE);
    await connect();
    door().refused('That is not the code.');
    expect(joining.getState()).toEqual({ step: 'asks', why: 'That is not the code.', code: CODE });
    carrier.enter(CODE);
    await connect();
    door().given(keyFor('remote'));
    door().refused('This phone was thrown out.');
    expect(joining.getState()).toEqual({ step: 'asks', why: 'This phone was thrown out.' });
  });

  test('returns by its key', async () => {
    const { known, connect, sealed } = page({ key: keyFor('remote') });
    const connection = await connect();
    expect(known).toEqual([{ say: 'return', id: 'a'.repeat(16), key: 'b'.repeat(64) }]);
    connection.send('{"say":"hello"}');
    expect(sealed.said).toEqual([{ say: 'hello' }]);
  });

  test('that is no longer let in asks for a code again, and says why', async () => {
    const { joining, kept, connect, door } = page({ key: keyFor('remote') });
    await connect();
    door().refused('This phone was thrown out.');
    expect([kept.now(), joining.getState()]).toEqual([null, { step: 'asks', why: 'This phone was thrown out.' }]);
  });

  test('whose code is no longer valid goes on with the key that it has', async () => {
    const { joining, kept, connect, door, known } = page({ code: CODE, key: keyFor('remote') });
    await connect();
    door().refused('This code is no longer valid.');
    door().closed();
    expect([kept.now(), joining.getState()]).toEqual([keyFor('remote'), { step: 'in' }]);
    await connect();
    expect(known.map(({ say }) => say)).toEqual(['join', 'return']);
  });

  test('thrown out while it is open, it has no key any more and says why', async () => {
    const { carrier, joining, kept, connect, door } = page({ key: keyFor('remote') });
    await connect();
    door().opened();
    carrier.told!({ say: 'bye', why: 'The program has ended.' });
    expect(joining.getState()).toEqual({ step: 'in' });
    carrier.told!({ say: 'bye', why: 'This phone was thrown out.', again: true });
    expect([kept.now(), joining.getState()]).toEqual([null, { step: 'asks', why: 'This phone was thrown out.' }]);
  });

  test('used for a code of another role, hands the key over to that page and keeps none', async () => {
    const { kept, handed, connect, door } = page({ code: CODE });
    await connect();
    door().given(keyFor('tablet'));
    expect([kept.now(), handed]).toEqual([null, [keyFor('tablet')]]);
  });

  test('is closed where what seals cannot be loaded, and tries again with the link', async () => {
    const { all, connect } = page({ code: CODE, fails: true });
    await connect();
    expect(all).toEqual(['closed']);
  });

  test('that the link gives up before what seals is there, connects to nobody', async () => {
    const { carrier, sealed, all } = page({ key: keyFor('remote') });
    const { heard } = listener();
    carrier.connect(heard).close();
    await Promise.resolve();
    await Promise.resolve();
    expect([sealed.connects, all]).toEqual([0, []]);
  });

  test('asks what it would else ask by HTTP through its socket, after the greeting', async () => {
    const { carrier, asksBySocket, asking, connect, door, sealed } = page({
      role: 'tablet',
      key: keyFor('tablet'),
    });
    expect(asksBySocket()).toBe(true);
    const answer = asking.ask('POST', '/library', '{}');
    await connect();
    expect(sealed.said).toEqual([]);
    door().opened();
    expect(sealed.said).toEqual([{ say: 'ask', id: 'id', method: 'POST', path: '/library', body: '{}' }]);
    carrier.told!({ say: 'reply', id: 'id', status: 200, body: '[]' });
    expect(await answer).toEqual({ status: 200, body: '[]' });
  });
});

describe("[joining] the coach's page of this machine", () => {
  test('while nothing is shared needs no key, and asks by HTTP', async () => {
    const { carrier, joining, plain, sealed, asksBySocket, all, connect } = page({ role: 'coach', isHere: true });
    await connect();
    plain.heard!.opened();
    expect([joining.getState(), plain.connects, sealed.connects]).toEqual([{ step: 'in' }, 1, 0]);
    expect([asksBySocket(), all, carrier.longestPause]).toEqual([false, ['opened'], 1500]);
  });

  test('that switches sharing on gets a key, asks by its socket at once and returns by the key', async () => {
    const { carrier, plain, asking, asksBySocket, kept, known, connect } = page({ role: 'coach', isHere: true });
    await connect();
    plain.heard!.opened();
    carrier.told!({ say: 'own-key', given: keyFor('coach') });
    expect([kept.now(), asksBySocket()]).toEqual([keyFor('coach'), true]);
    void asking.ask('POST', '/library', '{}').catch(() => undefined);
    expect(plain.said).toMatchObject([{ say: 'ask', path: '/library' }]);
    plain.heard!.closed();
    await connect();
    expect(known).toEqual([{ say: 'return', id: 'a'.repeat(16), key: 'b'.repeat(64) }]);
  });

  test('whose key is no longer valid, because sharing has ended, goes on without one', async () => {
    const { joining, plain, asksBySocket, connect, door } = page({
      role: 'coach',
      isHere: true,
      key: keyFor('coach'),
    });
    await connect();
    door().refused('That key is not known.');
    door().closed();
    expect([joining.getState(), asksBySocket()]).toEqual([{ step: 'in' }, false]);
    await connect();
    expect(plain.connects).toBe(1);
  });

  const USED = 'This address was used already.';
  const NEEDS_KEY = { say: 'bye', why: 'A page here needs a key.', again: true } as const;

  test('whose address was used already says that before what it needs, each time it is turned away', async () => {
    const { carrier, joining, connect, door } = page({ role: 'coach', isHere: true, code: CODE });
    await connect();
    door().refused(USED);
    door().closed();
    await connect();
    expect([carrier.told!(NEEDS_KEY), carrier.told!(NEEDS_KEY)]).toEqual([USED, USED]);
    expect(joining.getState()).toEqual({ step: 'in' });
  });

  test('that never had an address or a key says what it needs alone, and so does one that was let in since', async () => {
    const never = page({ role: 'coach', isHere: true });
    await never.connect();
    expect(never.carrier.told!(NEEDS_KEY)).toBeUndefined();
    const since = page({ role: 'coach', isHere: true, code: CODE });
    await since.connect();
    since.door().refused(USED);
    since.door().closed();
    await since.connect();
    expect(since.carrier.told!({ say: 'bye', why: 'Lanecall is shared now.' })).toBeUndefined();
    expect(since.carrier.told!(NEEDS_KEY)).toBeUndefined();
  });
});
