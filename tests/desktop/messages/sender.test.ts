/* Which window a message is from, and how long one may be. */

import { expect, test } from 'vitest';
import type { WebFrameMain } from 'electron';
import { maySay, senderOf } from '../../../app/desktop/messages/sender.ts';

const frame = (parent: object | null) => ({ url: 'app://lanecall/', parent }) as WebFrameMain;

test('[desktop] a message is of the frame that it came from, and of none where that is gone', () => {
  expect(senderOf('desk', frame(null))).toEqual({ kind: 'desk', address: 'app://lanecall/', isTop: true });
  expect(senderOf('desk', frame({}))).toMatchObject({ isTop: false });
  expect(senderOf(null, null)).toEqual({ kind: null, address: null, isTop: false });
});

test('[desktop] a message has 64 KiB at most, as on the network', () => {
  const command = JSON.stringify({ say: 'command', id: 'a', command: { do: 'mark', words: '' } });
  const long = (bytes: number) => command.replace('""', `"${'x'.repeat(bytes - command.length)}"`);
  expect([maySay('desk', long(64 * 1024)), maySay('desk', long(64 * 1024 + 1))]).toEqual([true, false]);
});
