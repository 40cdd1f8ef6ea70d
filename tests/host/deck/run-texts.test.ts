/* The texts of one run have a bound together, and what can no longer be undone is let go of. */

import { describe, expect, test } from 'vitest';
import { lineOf, type JournalEntry } from '../../../app/host/journal/journal-line.ts';
import { lastLineOf } from '../../../app/host/journal/journal-text.ts';
import { MOST_TEXTS } from '../../../app/host/deck/run-texts.ts';
import { goingDeck, JournalledDeck, restarted, settled, SQUAD } from '../../support/host/journalled-deck.ts';

/** SQUAD with so many bytes of comments behind it, and a number that makes it another text. */
function long(bytes: number, number: number): string {
  const line = `# ${'x'.repeat(397)}\n`;
  return `${SQUAD}# ${number}\n${line.repeat(bytes / line.length)}`;
}

/** Just under the largest that a session may be; eight of them fit. */
const LONG = 240 * 1024;

const REFUSED = /^This run has no room for more changes of the text: .+\.$/;

/** A going run that has been given long texts until one was refused; the refusal, and how many were taken. */
async function full() {
  const deck = await goingDeck();
  for (let taken = 0; ; taken++) {
    const answer = await deck.host.command(`long ${taken}`, { do: 'rewrite', text: long(LONG, taken) });
    if (!answer.ok) return { deck, answer, taken };
  }
}

describe('[host] the texts of one run together', () => {
  test('are bounded: one more is refused in a sentence, and changes and writes nothing', async () => {
    const { deck, answer, taken } = await full();
    expect(taken).toBe(8);
    expect(answer.why).toMatch(REFUSED);
    expect(deck.host.texts()).toHaveLength(1 + taken);
    expect(deck.disk.text(deck.path())).not.toContain(`"id":"long ${taken}"`);
    expect(deck.disk.text(deck.path()).length).toBeLessThan(1.1 * MOST_TEXTS);
  });

  test('at the bound every other command goes on working, and a text that still fits is taken', async () => {
    const { deck } = await full();
    for (const fields of [{ do: 'skip', lanes: [1] }, { do: 'stop' }, { do: 'resume' }, { do: 'undo' }]) {
      expect(await deck.host.command(JSON.stringify(fields), fields)).toMatchObject({ ok: true });
    }
    expect(await deck.host.command('short', { do: 'rewrite', text: SQUAD })).toMatchObject({ ok: true });
  });

  test('an undo gives nothing back: screens and a restart read an undone text all the same', async () => {
    const deck = await goingDeck();
    let taken = 0;
    while ((await deck.host.command(`long ${taken}`, { do: 'rewrite', text: long(LONG, 1) })).ok) {
      await deck.host.command(`undo ${taken}`, { do: 'undo' });
      taken++;
    }
    expect(taken).toBe(8);
    expect(deck.host.texts()).toHaveLength(2);
  });

  test('the lanes, which go with every text, and the leaves that it comes to count too', async () => {
    const { deck } = await JournalledDeck.start();
    const lanes = `lane 1 base 1:00\n${`# ${'x'.repeat(397)}\n`.repeat(250)}`;
    await deck.host.open({ text: 'Main set\n4 x 50 @ 1:00\n', lanesText: lanes }, { replace: false });
    const short = (n: number) => deck.host.command(`${n}`, { do: 'rewrite', text: `Main set\n4 x ${50 + n} @ 1:00\n` });
    let taken = 0;
    while ((await short(taken)).ok) taken++;
    expect(taken).toBe(Math.floor(MOST_TEXTS / lanes.length) - 1);

    const rows = ['Main set', ...Array.from({ length: 20 }, () => '500 x 25 @ 0:30')];
    await deck.open([...rows, '1 x 25 @ 0:30'].join('\n'));
    let planned = 0;
    while (
      (
        await deck.host.command(`p${planned}`, {
          do: 'rewrite',
          text: [...rows, `1 x ${planned + 50} @ 0:30`].join('\n'),
        })
      ).ok
    )
      planned++;
    expect(planned).toBeGreaterThan(180);
    expect(planned).toBeLessThan(MOST_TEXTS / 10_000);
  });

  test('another session begins with all the room there is', async () => {
    const { deck } = await full();
    await deck.open(SQUAD);
    expect(await deck.host.command('again', { do: 'rewrite', text: long(LONG, 1) })).toMatchObject({ ok: true });
  });

  test('a restart knows how much there is', async () => {
    const { deck } = await full();
    deck.kill();
    const { deck: again } = await restarted(deck);
    const answer = await again.host.command('more', { do: 'rewrite', text: long(LONG, 99) });
    expect(answer.why).toMatch(REFUSED);
  });

  test('a journal with more than that, of an earlier program, comes back whole, and takes no more', async () => {
    const deck = await goingDeck();
    const path = deck.path();
    deck.kill();
    const lines = [deck.disk.text(path)];
    const { entry, sum } = lastLineOf(deck.disk.files.get(path)!)!;
    const { at, mono, uptime, wall, boot } = entry;
    let after = sum;
    for (let number = 0; number < 12; number++) {
      const command = { do: 'rewrite', text: long(LONG, number) };
      const more: JournalEntry = {
        say: 'command',
        id: `long ${number}`,
        command,
        at: Math.ceil(at),
        mono,
        uptime,
        wall,
        boot,
      };
      const line = lineOf(more, after);
      lines.push(line.text);
      after = line.sum;
    }
    deck.disk.put(path, Buffer.from(lines.join('')));
    const { deck: again, recovery } = await restarted(deck);
    expect(recovery.said).toEqual([]);
    expect(again.host.texts()).toHaveLength(13);
    expect((await again.host.command('more', { do: 'rewrite', text: SQUAD })).why).toMatch(REFUSED);
    expect(await again.host.command('stop', { do: 'stop' })).toMatchObject({ ok: true });
  });
});

test('[host] what can no longer be undone is not kept: within 15 s of the command, and not before its 10 s', async () => {
  const deck = await goingDeck();
  await deck.host.command('c', { do: 'rewrite', text: long(400, 1) });
  const undoable = () => deck.host.current()!.state.undoable.map(({ command }) => command.do);
  await deck.pass(9900);
  expect(undoable()).toContain('rewrite');
  await deck.pass(5200);
  expect(undoable()).toEqual([]);
  const answer = await deck.host.command('d', { do: 'undo' });
  expect(answer.why).toMatch(/^There is nothing to undo/);
  await settled();
});
