/* What is told once after a start: as long as it is to be read, and not after. */

import { expect, test } from 'vitest';
import { StartUpReport } from '../../../app/host/recovery/start-up-report.ts';
import type { Recovery } from '../../../app/host/recovery/recovery.ts';

/** A report of a start, and how often it has been recorded that the coach has read of unattended runs. */
function reported(parts: Partial<Pick<Recovery, 'away' | 'said'>> & { runs?: readonly string[]; run?: string }) {
  let recorded = 0;
  const { away = null, said = [], runs = [], run } = parts;
  const found = run === undefined ? null : ({ run } as Recovery['found']);
  const told = () => Promise.resolve(void recorded++);
  const report = new StartUpReport({ found, away, said, unattended: { runs, told } });
  return { report, recorded: () => recorded };
}

test('[recovery] a start with nothing to report shows no report, and records none as read', async () => {
  const { report, recorded } = reported({});
  expect([report.notices(), report.forScreens(), report.offersToLeave('r')]).toEqual([[], null, false]);
  await report.told();
  expect(recorded()).toBe(0);
});

test('[recovery] a run that has come back may be left until the coach has read of it or opens another', async () => {
  for (const end of ['told', 'otherRunOpened'] as const) {
    const { report } = reported({ away: 'It is back.', run: 'r' });
    expect(report.forScreens()).toEqual({ run: 'r', unattended: [] });
    expect([report.notices(), report.offersToLeave('r'), report.offersToLeave('s')]).toEqual([
      ['It is back.'],
      true,
      false,
    ]);
    await report[end]();
    expect([report.notices(), report.offersToLeave('r'), report.forScreens()]).toEqual([[], false, null]);
  }
});

test('[recovery] damage and unattended runs are reported until read, whatever is opened meanwhile', async () => {
  const { report, recorded } = reported({ said: ['A tear.'], runs: ['An earlier one.'] });
  report.otherRunOpened();
  expect(report.notices()).toEqual(['A tear.']);
  expect(report.forScreens()).toEqual({ run: null, unattended: ['An earlier one.'] });
  await report.told();
  await report.told();
  expect([report.notices(), report.forScreens(), recorded()]).toEqual([[], null, 1]);
});

test('[recovery] one unattended run alone is reason enough to report', () => {
  expect(reported({ runs: ['An earlier one.'] }).report.forScreens()).toEqual({
    run: null,
    unattended: ['An earlier one.'],
  });
});
