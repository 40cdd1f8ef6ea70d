/*
 * The table of buttons and keys in README.md: what the commands say of themselves, it says too.
 */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { ACTION_NAMES, ACTIONS } from '../../renderer/ui/coach/commands/action-list.ts';

const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');

/** The first two cells of each row of the table. */
const rows = [
  ...(readme.split('| button | key |')[1] ?? '').split('\n\n')[0]!.matchAll(/^\| ([^|]+) \| ([^|]+) \|/gm),
].map(([, button = '', key = '']) => ({ button, key }));

describe('[readme] the table of keys', () => {
  test.each(ACTION_NAMES)('has %s with its key', (name) => {
    const { label, key, typed = [] } = ACTIONS[name];
    const row = rows.find(({ button }) => button.includes(label));
    expect(row, label).toBeDefined();
    const printed = [key.replace('Shift ', ''), ...typed];
    expect(printed.some((each) => row?.key.includes(each))).toBe(true);
    expect(row?.key.includes('Shift')).toBe(key.startsWith('Shift'));
  });
});
