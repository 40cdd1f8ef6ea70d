/* The texts of one run have a bound together, and what can no longer be undone is let go of. */

import { describe, expect, test } from 'vitest';
import { lineOf, type JournalEntry } from '../../../app/host/journal/journal-line.ts';
import { lastLineOf } from '../../../app/host/journal/journal-text.ts';
import type { CommandAnswer } from '../../../app/host/deck/answers/answer-memory.ts';
import { MOST_TEXTS, RunTexts, weightOf } from '../../../app/host/deck/run-texts.ts';
import { textHash } from '../../../app/host/deck/text-hash.ts';
import { planOf } from '../../support/run/deck.ts';
import { goingDeck, JournalledDeck, restarted, settled, SQUAD } from '../../support/host/deck/journalled-deck.ts';

/** SQUAD with so many bytes of comments behind it, and a number that makes it another text. */
function long(bytes: number, number: number): string {
  const line = `# ${'x'.repeat(397)}\n`;
  return `${SQUAD}# ${number}\n${line.repeat(bytes / line.length)}`;
}

/** Just under the largest that a session may be; eight of them fit. */
const LONG = 240 * 1024;

const REFUSED = /^This run has no room for more changes of the text: .+\.$/;

/** How many texts are taken one after the other until one is refused, and the refusal. */
async function untilRefused(give: (taken: number) => Promise<CommandAnswer>) {
  for (let taken = 0; taken < 300; taken++) {
    const answer = await give(taken);
    if (!answer.ok) return { answer, taken };
  }
  throw new Error('never refused');
}

/** A going run that has been given long texts until one was refused. */
async function full() {
  const deck = await goingDeck();
  const give = (taken: number) => deck.host.command(`long ${taken}`, { do: 'rewrite', text: long(LONG, taken) });
  return { deck, ...(await untilRefused(give)) };
}

describe('[host] the weight of texts', () => {
  const source = (text: string, lanesText: string | null = null) => ({ text, lanesText });

  test('there is room for exactly as much as a run may have, whatever the text and its lanes have of it', () => {
    const texts = new RunTexts();
    texts.begin(source(SQUAD), MOST_TEXTS - 10);
    expect([texts.hasRoom(source('x'.repeat(10))), texts.hasRoom(source('x'.repeat(11)))]).toEqual([true, false]);
    expect([texts.hasRoom(source('é1', 'é12é3')), texts.hasRoom(source('é1', 'é12é34'))]).toEqual([true, false]);
    texts.grow(4);
    expect([texts.hasRoom(source('123456')), texts.hasRoom(source('1234567'))]).toEqual([true, false]);
  });

  test('a new run forgets the texts and the weight of the run before', () => {
    const texts = new RunTexts();
    const first = texts.begin(source('first'), MOST_TEXTS);
    const second = texts.begin(source('second'), 1);
    expect([texts.get(first), texts.get(second)]).toEqual([undefined, source('second')]);
    expect(texts.hasRoom(source('x'))).toBe(true);
    texts.clear();
    expect([texts.get(second), texts.messages()]).toEqual([undefined, []]);
  });

  test('a text weighs its bytes, one for each stretch and one for each leave of each lane', () => {
    const text = 'lane 1 base 1:00\nlane 2 base 1:00\nMain – é\n4 x 50 @ 1:00\nEnd\n3 x 50 @ 1:00\n';
    expect(weightOf(planOf(text))).toBe(Buffer.byteLength(text) + 2 + 2 * 7);
  });

  test('a rewrite goes out with the hash of its text, which is sent once; other commands go out as they are', () => {
    const texts = new RunTexts();
    const named = texts.named({ do: 'rewrite', text: 'new' }, 'lane 1');
    expect(named).toEqual({ do: 'rewrite', textHash: textHash(source('new', 'lane 1')) });
    expect(texts.named({ do: 'rewrite', text: 'new' }, 'lane 1')).toEqual(named);
    expect(texts.messages()).toEqual([{ say: 'text', hash: named['textHash'], text: 'new', lanesText: 'lane 1' }]);
    expect(texts.named({ do: 'cut', n: 1 }, null)).toEqual({ do: 'cut', n: 1 });
  });
});

describe('[host] the texts of one run together', () => {
  test('have a limit: a text beyond it is refused with a sentence, and changes and writes nothing', async () => {
    const { deck, answer, taken } = await full();
    expect(taken).toBe(8);
    expect(answer.why).toMatch(REFUSED);
    expect(deck.host.texts()).toHaveLength(1 + taken);
    expect(deck.disk.text(deck.path())).not.toContain(`"id":"long ${taken}"`);
    expect(deck.disk.text(deck.path()).length).toBeLessThan(1.1 * MOST_TEXTS);
  });

  test('at the limit other commands still work, and a text that still fits is accepted', async () => {
    const { deck } = await full();
    for (const fields of [{ do: 'skip', lanes: [1] }, { do: 'stop' }, { do: 'resume' }, { do: 'undo' }]) {
      expect(await deck.host.command(JSON.stringify(fields), fields)).toMatchObject({ ok: true });
    }
    expect(await deck.host.command('short', { do: 'rewrite', text: SQUAD })).toMatchObject({ ok: true });
  });

  test('an undo frees no room: screens and a restart read an undone text all the same', async () => {
    const deck = await goingDeck();
    const { taken } = await untilRefused(async (n) => {
      if (n > 0) await deck.host.command(`undo ${n}`, { do: 'undo' });
      return deck.host.command(`long ${n}`, { do: 'rewrite', text: long(LONG, 1) });
    });
    expect(taken).toBe(8);
    expect(deck.host.texts()).toHaveLength(2);
  });

  test('lanes, which go with every text, and planned leaves count too', async () => {
    const { deck } = await JournalledDeck.start();
    const lanes = `lane 1 base 1:00\n${`# ${'x'.repeat(397)}\n`.repeat(250)}`;
    await deck.host.open({ text: 'Main set\n4 x 50 @ 1:00\n', lanesText: lanes }, { replace: false });
    const short = (n: number) => deck.host.command(`${n}`, { do: 'rewrite', text: `Main set\n4 x ${50 + n} @ 1:00\n` });
    expect((await untilRefused(short)).taken).toBe(Math.floor(MOST_TEXTS / lanes.length) - 1);

    const rows = ['Main set', ...Array.from({ length: 20 }, () => '500 x 25 @ 0:30')];
    await deck.open([...rows, '1 x 25 @ 0:30'].join('\n'));
    const planned = await untilRefused((n) => {
      const text = [...rows, `1 x ${n + 50} @ 0:30`].join('\n');
      return deck.host.command(`p${n}`, { do: 'rewrite', text });
    });
    expect(planned.taken).toBeGreaterThan(180);
    expect(planned.taken).toBeLessThan(MOST_TEXTS / 10_000);
  });

  test('another session starts with all the room', async () => {
    const { deck } = await full();
    await deck.open(SQUAD);
    expect(await deck.host.command('again', { do: 'rewrite', text: long(LONG, 1) })).toMatchObject({ ok: true });
  });

  test('a restart knows how much room is left', async () => {
    const { deck } = await full();
    deck.kill();
    const { deck: again } = await restarted(deck);
    const answer = await again.host.command('more', { do: 'rewrite', text: long(LONG, 99) });
    expect(answer.why).toMatch(REFUSED);
  });

  test('an earlier program’s journal beyond the limit comes back whole, and accepts no further text', async () => {
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
