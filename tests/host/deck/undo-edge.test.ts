/* An undo at the last moment at which it is allowed, and the end of the journal, which comes just after that. */

import { describe, expect, test } from 'vitest';
import { JournalledDeck, restarted, settled, SQUAD } from '../../support/host/deck/journalled-deck.ts';

/** In ms after the command that is undone: a hundred before and after the last time at which it can be. */
const AROUND_THE_EDGE = Array.from({ length: 201 }, (_, index) => 9900 + index);

/** A run that is finished, and its undo so many ms later; `held`: on a disk that has just begun to hang. */
async function undone(after: number, held: boolean) {
  const { deck } = await JournalledDeck.start();
  await deck.open(SQUAD);
  await deck.host.command('start', { do: 'start' });
  await deck.pass(20_000);
  await deck.host.command('finish', { do: 'finish' });
  await deck.pass(9850);
  let release = (): void => undefined;
  if (held) deck.disk.held = new Promise((resolve) => (release = resolve));
  for (let ms = 9850; ms < after; ms++) {
    // What hangs in front of the undo, each for the time that the disk is waited for.
    if (held && ms === after - 50) void deck.host.command('mark', { do: 'mark' });
    deck.clock.advance(1);
    await settled();
  }
  const answer = deck.host.command('undo', { do: 'undo' });
  for (let ms = 0; ms < 300; ms++) {
    deck.clock.advance(1);
    await settled();
  }
  release();
  await settled();
  return { deck, answer: await answer };
}

/** What the journal says from the finish on, signs of life apart. */
function saysOf(deck: JournalledDeck): readonly string[] {
  const lines = deck.disk.text(deck.path()).trimEnd().split('\n');
  const entries = lines.map((line) => JSON.parse(line) as { say: string; id?: string });
  const says = entries.filter(({ say }) => say !== 'alive').map(({ say, id }) => id ?? say);
  const behind = says.slice(says.indexOf('finish') + 1).filter((say) => say !== 'mark');
  // A mark behind the end has an end of its own.
  return behind.filter((say, index) => say !== 'closed' || behind[index - 1] !== 'closed');
}

describe('[undo] ten seconds after the finish', () => {
  test.each([
    ['on a healthy disk', false],
    ['behind a disk that hangs', true],
  ])('%s, at every ms: one that is accepted never meets a closed journal, and no closing loses it', async (_, held) => {
    for (const after of AROUND_THE_EDGE.filter((ms) => !held || ms % 7 === 0 || Math.abs(ms - 10_000) < 5)) {
      const { deck, answer } = await undone(after, held);
      expect([after, answer.ok]).toEqual([after, after <= 10_000]);
      expect([after, ...saysOf(deck)]).toEqual([after, answer.ok ? 'undo' : 'closed']);
      if (!answer.ok) continue;
      // It goes on, here and after a kill, and is closed when it is over again.
      deck.kill();
      const { recovery, deck: again } = await restarted(deck);
      expect(recovery.found?.state).toEqual(deck.host.current()!.state);
      await again.host.command('finish again', { do: 'finish' });
      await again.pass(16_000);
      expect(again.disk.text(again.path())).toMatch(/"say":"closed","why":"done"[^\n]+\n$/);
    }
  });

  test('the same host closes a run that was taken up again when it is over for the second time', async () => {
    const { deck } = await undone(10_000, true);
    await deck.host.command('finish again', { do: 'finish' });
    await deck.pass(16_000);
    expect(saysOf(deck)).toEqual(['undo', 'finish again', 'closed']);
  });

  test('a session that somebody starts while the program ends is not closed as never begun', async () => {
    const { deck } = await JournalledDeck.start();
    await deck.open(SQUAD);
    const answer = deck.host.command('start', { do: 'start' });
    await deck.host.endUnbegun();
    expect(await answer).toMatchObject({ ok: true });
    expect(deck.disk.text(deck.path())).not.toContain('closed');
  });
});
