/* A page and the host about which screen sounds, with the host's words handed in. */

import { describe, expect, test } from 'vitest';
import { createDeckStore, type DeckState } from '../../../renderer/link/store.ts';
import { createSoundReporter } from '../../../renderer/sound/sound-reporter.ts';

function page(kept: Record<string, string> = {}) {
  const store = createDeckStore();
  const said: unknown[] = [];
  let silences = 0;
  const memory = new Map(Object.entries(kept));
  const storage = {
    getItem: (key: string) => memory.get(key) ?? null,
    setItem: (key: string, value: string) => void memory.set(key, value),
  };
  let n = 0;
  const sounds = createSoundReporter(
    {
      store,
      sound: ({ n: number, ...report }) => {
        n = number;
        said.push(report);
      },
    },
    storage,
    'me',
    () => {
      silences++;
      sounds.tell('off');
    },
  );
  type Told = DeckState['sound']['screens'][number];
  const hear = (told: Partial<Told>, more: boolean | null = null): void =>
    store.setState({
      sound: { more, screens: [{ id: 'me', screen: 'wall', n, status: 'running', on: true, ...told }] },
    });
  return {
    sounds,
    said,
    memory,
    hear,
    last: () => said[said.length - 1],
    n: () => n,
    silences: () => silences,
    connect: () => store.setState({ status: 'live' }),
    lose: () => store.setState({ status: 'lost' }),
  };
}

const report = (status: string, asked = false, more: boolean | null = null) => ({ id: 'me', status, asked, more });

describe('[sound] a page says how its sound stands', () => {
  test('on connecting, whenever that changes, and on every new connection', () => {
    const p = page();
    expect(p.said).toEqual([]);
    p.connect();
    expect(p.said).toEqual([report('off')]);
    p.sounds.tell('starting', true);
    p.sounds.tell('starting');
    p.sounds.tell('running');
    expect(p.said.slice(1)).toEqual([report('starting', true), report('running')]);
    p.lose();
    p.connect();
    expect(p.said.slice(3)).toEqual([report('running')]);
  });

  test('at once where the host is there already, counting what it says', () => {
    const store = createDeckStore();
    store.setState({ status: 'live' });
    const said: unknown[] = [];
    const sounds = createSoundReporter({ store, sound: (each) => said.push(each) }, null, 'me', () => undefined);
    sounds.tell('running');
    sounds.allowMore(true);
    expect(said).toEqual([
      { ...report('off'), n: 1 },
      { ...report('running'), n: 2 },
      { ...report('running', true, true), n: 3 },
    ]);
  });

  test('whether more may sound is kept under a name of its own, the refusal too', () => {
    const p = page();
    p.sounds.allowMore(false);
    expect([...p.memory]).toEqual([['lanecall.sound-more', 'no']]);
    const again = page(Object.fromEntries(p.memory));
    again.connect();
    expect(again.last()).toEqual(report('off', false, false));
    const other = page({ 'lanecall.sound-more': 'perhaps' });
    other.connect();
    expect(other.last()).toEqual(report('off', false, null));
  });

  test('whether more may sound is asked for once, kept, and told to a host that is new', () => {
    const p = page();
    p.connect();
    p.sounds.allowMore(true);
    expect(p.last()).toEqual(report('off', true, true));
    p.sounds.tell('starting', true);
    expect(p.last()).toEqual(report('starting', true, null));
    const again = page(Object.fromEntries(p.memory));
    again.connect();
    expect(again.last()).toEqual(report('off', false, true));
  });

  test('what another screen has chosen of that is kept too', () => {
    const p = page();
    p.connect();
    p.hear({}, true);
    p.lose();
    p.connect();
    expect(p.last()).toEqual(report('off', false, true));
  });
});

describe('[sound] a page falls silent', () => {
  test('where the host answers its last word with another screen, and says that it has', () => {
    const p = page();
    p.connect();
    p.sounds.tell('running', true);
    p.hear({ on: true });
    expect(p.silences()).toBe(0);
    p.hear({ on: false });
    expect(p.silences()).toBe(1);
    expect(p.last()).toEqual(report('off'));
    p.hear({ on: false });
    expect(p.silences()).toBe(1);
  });

  test('not by an answer to an earlier word, nor by a list without it', () => {
    const p = page();
    p.connect();
    p.sounds.tell('starting', true);
    const before = p.n();
    p.sounds.tell('running', true);
    p.hear({ on: false, n: before });
    p.hear({ on: false, id: 'other' });
    expect(p.silences()).toBe(0);
  });

  test('not where it is off, or cannot play, or the link is lost', () => {
    const p = page();
    p.connect();
    p.hear({ on: false });
    p.sounds.tell('missing');
    p.hear({ on: false });
    p.sounds.tell('running');
    p.lose();
    p.hear({ on: false });
    expect(p.silences()).toBe(0);
  });
});
