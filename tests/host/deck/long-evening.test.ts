/*
 * Three simulated hours of a whole host, journal and all, on a machine that misbehaves: late timers, stalls
 * of up to five seconds, steps of the wall clock. Every leave is handed over once, in order and never early.
 */

import { describe, expect, test } from 'vitest';
import { leavesOf } from '../../../app/core/run/record.ts';
import { settle } from '../../../app/core/run/settle.ts';
import { HOUR } from '../../../app/core/units.ts';
import { readJournal } from '../../../app/host/journal/journal-text.ts';
import { JournalledDeck, settled } from '../../support/host/deck/journalled-deck.ts';
import { seeded } from '../../support/formats/session-text.ts';

const TEXT = [
  'Three hours',
  'start on 1',
  'between auto 0:30',
  'lane 1 base 1:00, 6 swimmers',
  'lane 2 base 1:10',
  'lane 3 base 1:20, 4 swimmers',
  ...Array.from({ length: 6 }, (_, part) => [
    `Part ${'abcdef'[part]}`,
    '20 x 50 free @ 0:40/0:45/0:50',
    'break 0:30',
    '6 x 100 kick @ 1:45/1:55/2:05',
  ]).flat(),
].join('\n');

interface Handed {
  readonly lane: number;
  readonly at: number;
  readonly late: number;
}

/** What stalls may make late is a stall's own; the rest is on time to a timer's own ms. */
interface Evening {
  readonly handed: readonly Handed[];
  readonly stalls: readonly (readonly [from: number, to: number])[];
  readonly deck: JournalledDeck;
}

async function evening(seed: number): Promise<Evening> {
  const random = seeded(seed);
  const { deck } = await JournalledDeck.start();
  const handed: Handed[] = [];
  const { alive } = deck.journal;
  deck.journal.alive = (sign) => {
    for (const { lane, at } of sign.leaves) handed.push({ lane, at, late: deck.now() - at });
    alive.call(deck.journal, sign);
  };
  await deck.open(TEXT);
  await deck.host.command('start', { do: 'start' });
  const stalls: [number, number][] = [];
  while (deck.now() < 3 * HOUR) {
    deck.clock.early = random();
    await deck.pass(random() * 20_000);
    const kind = random();
    const from = deck.now();
    if (kind < 0.3) deck.clock.stall(random() * 5000);
    else if (kind < 0.5) deck.clock.setWall(random() * 24 * HOUR);
    if (deck.now() > from) stalls.push([from, deck.now()]);
    await settled();
  }
  await deck.pass(10_000);
  return { handed, stalls, deck };
}

describe('[evening] three hours on a machine that misbehaves', () => {
  test.each([1, 2, 3, 4, 5])(
    'every leave once, in order, never early, and no later at the end than at the start (seed %i)',
    async (seed) => {
      const { handed, stalls, deck } = await evening(seed);
      const now = deck.now();
      const happened = leavesOf(settle(deck.host.current()!.state, Infinity)).filter(({ at }) => at < now);
      expect(happened.length).toBeGreaterThan(400);
      expect(stalls.length).toBeGreaterThan(100);
      expect(handed.map(({ at, lane }) => [at, lane])).toEqual(happened.map(({ at, lane }) => [at, lane]));
      const inStall = (at: number) => stalls.some(([from, to]) => at >= from - 2 && at <= to);
      for (const { at, late } of handed) {
        expect(late).toBeGreaterThan(0);
        expect(late).toBeLessThanOrEqual(inStall(at) ? 5003 : 1.26);
      }
      const undisturbed = handed.filter(({ at }) => !inStall(at)).map(({ late }) => late);
      expect(journalled(deck)).toEqual(handed.map(({ at, lane }) => [lane, at]));
      const tenth = Math.floor(undisturbed.length / 10);
      expect(median(undisturbed.slice(-tenth)) - median(undisturbed.slice(0, tenth))).toBeLessThan(0.5);
    },
  );
});

/** The leaves in the journal, which must be whole. */
function journalled(deck: JournalledDeck): readonly (readonly number[])[] {
  const bytes = deck.disk.files.get(deck.path())!;
  const journal = readJournal(bytes);
  if (journal.kind !== 'journal' || journal.length !== bytes.length) throw new Error('the journal is not whole');
  return journal.entries.flatMap((entry) => (entry.say === 'alive' ? entry.leaves : []));
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
}
