/*
 * A run whose host is in the page: the core's own, on a clock of the coach's speed.
 */

import { describe, expect, test } from 'vitest';
import { createRehearsalLink, STEP, type RehearsalStart } from '../../../renderer/link/rehearsal-link.ts';

const SESSION = `start 19:30
finish 20:30
lane 1 base 1:40, 3 swimmers
lane 2 base 2:00, 3 swimmers

Warm-up:
  4 x 100 on 2:00
Main set:
  8 x 50 on 1:00
`;

const START: RehearsalStart = {
  source: { text: SESSION, lanesText: null },
  from: null,
  timeOfDay: 12 * 3_600_000,
  clockPhase: null,
};

function opened(start: Partial<RehearsalStart> = {}) {
  let own = 1000;
  const rehearsal = createRehearsalLink(() => own);
  rehearsal.begin({ ...START, ...start });
  const { link } = rehearsal;
  return {
    rehearsal,
    link,
    pass: (ms: number) => void (own += ms),
    run: () => link.store.getState().run!,
  };
}

describe('[rehearsal]', () => {
  test('its clock runs at the speed asked for, from where it stands, and stands still at 0', () => {
    const { rehearsal, link, pass } = opened();
    pass(2000);
    expect(link.now()).toBe(2000);
    rehearsal.setSpeed(60);
    expect(link.now()).toBe(2000);
    pass(10 * STEP);
    expect(link.now()).toBe(2000 + 600 * STEP);
    rehearsal.setSpeed(0);
    pass(5000);
    expect(link.now()).toBe(2000 + 600 * STEP);
  });

  test('faster than the pool’s clock it goes on in steps of 0.6 s, so at most twice in a second, and a slower speed goes on from the last one', () => {
    const { rehearsal, link, pass } = opened();
    rehearsal.setSpeed(5);
    pass(599);
    expect([link.now(), link.exactNow()]).toEqual([0, 0]);
    pass(1);
    expect([link.now(), link.exactNow()]).toEqual([5 * STEP, 5 * STEP]);
    pass(STEP / 2);
    rehearsal.setSpeed(1);
    pass(7);
    expect(link.now()).toBe(5 * STEP + 7);
  });

  test('commands are carried out at their time, and refused with the sentence of a run', async () => {
    const { rehearsal, link, pass, run } = opened();
    expect(await link.command({ do: 'resume' })).toMatchObject({ ok: false, why: expect.stringMatching(/./) });
    rehearsal.setSpeed(60);
    pass(STEP + 200);
    expect(await link.command({ do: 'start' })).toEqual({ ok: true, at: 60 * STEP, why: null });
    pass(STEP);
    expect((await link.command({ do: 'stop' })).ok).toBe(true);
    expect(run().given.lanes.map(({ state }) => state)).toEqual(['stopped', 'stopped']);
    expect(run().commands.map(({ command }) => command.do)).toEqual(['start', 'stop']);
  });

  test('the text can be rewritten in it', async () => {
    const { link, run } = opened();
    const text = SESSION.replace('8 x 50', '6 x 50');
    expect((await link.command({ do: 'rewrite', text })).ok).toBe(true);
    expect(run().state.plan.source.text).toBe(text);
  });

  test('from a later part it waits there, at the time of day at which that is planned', () => {
    const { run } = opened({ from: { do: 'go-to', line: 9, rep: 1 } });
    expect(run().given).toMatchObject({ phase: 'waiting', index: 1, stretch: { part: 'Main set' } });
    expect(run().openedAtTimeOfDay).toBeGreaterThan((19 * 60 + 37) * 60_000);
    expect(run().openedAtTimeOfDay).toBeLessThan((19 * 60 + 41) * 60_000);
  });

  test('a session that says when it starts is rehearsed at that hour, any other at the hour it is', () => {
    expect(opened().run().openedAtTimeOfDay).toBe((19 * 60 + 30) * 60_000);
    const text = SESSION.replace(/^.*\n.*\n/, '');
    expect(opened({ source: { text, lanesText: null } }).run().openedAtTimeOfDay).toBe(12 * 3_600_000);
  });

  test('it begins anew as another run, and is over without one: then no command is taken', async () => {
    const { rehearsal, link, pass, run } = opened();
    const { id } = run();
    pass(5000);
    rehearsal.begin(START);
    expect(run().id).not.toBe(id);
    expect(link.now()).toBe(0);
    rehearsal.end();
    expect(link.store.getState().run).toBeNull();
    expect(link.now()).toBeNull();
    expect(await link.command({ do: 'stop' })).toEqual({ ok: false, at: null, why: 'The rehearsal is over.' });
  });
});
