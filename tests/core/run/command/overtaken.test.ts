/* Two people at two screens: a Resume does not lift a Stop that its screen had not seen, nor Undo take back another command. */

import { describe, expect, test } from 'vitest';
import type { Command } from '../../../../app/core/run/command/command.ts';
import { RULES } from '../../../../app/core/run/command/commands.ts';
import { overtaken, seenCommands } from '../../../../app/core/run/command/overtaken.ts';
import { runOf } from '../../../support/coach/coach-run.ts';

const TEXT = 'lane 1\nlane 2\nMain set\n8 x 50 @ 1:00\n';
const START: [number, Command] = [0, { do: 'start' }];

describe('[overtaken] a Stop that was given meanwhile', () => {
  const stopped = runOf(TEXT, START, [15_000, { do: 'stop', lanes: [1] }], [20_000, { do: 'stop', lanes: [2] }]);

  test.each<Command>([{ do: 'start' }, { do: 'resume' }, { do: 'rejoin' }, { do: 'move-on' }])(
    'is not lifted by $do',
    (command) => {
      for (const lastStop of [null, 15_000]) {
        expect(overtaken(stopped, command, { lastStop }, 21_000)).toMatch(/stopped on another screen meanwhile/);
      }
      expect(overtaken(stopped, command, { lastStop: 20_000 }, 21_000)).toBeNull();
    },
  );

  test('of another lane spoils nothing', () => {
    expect(overtaken(stopped, { do: 'resume', lanes: [1] }, { lastStop: 15_000 }, 21_000)).toBeNull();
    expect(overtaken(stopped, { do: 'resume', lanes: [2] }, { lastStop: 15_000 }, 21_000)).not.toBeNull();
    expect(overtaken(stopped, { do: 'rejoin', lanes: [1, 2] }, { lastStop: 15_000 }, 21_000)).not.toBeNull();
  });

  test('that was undone is none', () => {
    const undone = runOf(TEXT, START, [15_000, { do: 'stop' }], [16_000, { do: 'undo' }]);
    expect(overtaken(undone, { do: 'move-on' }, { lastStop: null }, 21_000)).toBeNull();
  });

  test('is not looked at for a screen that does not say what it saw, nor for what lifts no Stop', () => {
    expect(overtaken(stopped, { do: 'resume' }, {}, 21_000)).toBeNull();
    const lifting = Object.entries(RULES).flatMap(([name, rule]) => (rule.liftsStop === true ? [name] : []));
    expect(lifting.sort()).toEqual(['move-on', 'rejoin', 'resume', 'start']);
    expect(overtaken(stopped, { do: 'stop' }, { lastStop: null }, 21_000)).toBeNull();
  });
});

describe('[overtaken] Undo', () => {
  const run = runOf(TEXT, START, [15_000, { do: 'skip' }], [20_000, { do: 'stop' }]);
  const meant = (undoes: { command: string; at: number } | null) => overtaken(run, { do: 'undo' }, { undoes }, 21_000);

  test('takes back the command that was meant', () => {
    expect(meant({ command: 'stop', at: 20_000 })).toBeNull();
    expect(overtaken(run, { do: 'undo' }, {}, 21_000)).toBeNull();
  });

  test('takes back no other', () => {
    for (const undoes of [
      { command: 'skip', at: 15_000 },
      { command: 'stop', at: 15_000 },
      { command: 'skip', at: 20_000 },
      null,
    ]) {
      expect(meant(undoes)).toMatch(/another command was given meanwhile/);
    }
  });

  test('is answered by its own rule where there is nothing to undo', () => {
    expect(overtaken(runOf(TEXT), { do: 'undo' }, { undoes: { command: 'stop', at: 1 } }, 2000)).toBeNull();
  });
});

describe('[overtaken] what goes with a command', () => {
  const undo = { command: { do: 'skip' }, at: 7 } as const;

  test.each<[Command, number, typeof undo | null, object]>([
    [{ do: 'start' }, 5, undo, { lastStop: 5 }],
    [{ do: 'start' }, -Infinity, undo, { lastStop: null }],
    [{ do: 'undo' }, 5, undo, { undoes: { command: 'skip', at: 7 } }],
    [{ do: 'undo' }, 5, null, { undoes: null }],
    [{ do: 'skip' }, 5, undo, {}],
  ])('%j with the last Stop at %d', (command, stoppedAt, shown, sent) => {
    expect(seenCommands(command, { stoppedAt, undo: shown })).toEqual(sent);
  });
});
