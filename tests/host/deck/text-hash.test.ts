/* The name of a session text. */

import { expect, test } from 'vitest';
import { textHash } from '../../../app/host/deck/text-hash.ts';

test('[host] a text is named by 32 digits, the same for the same text and lanes, and others for others', () => {
  const texts = [
    { text: 'Main', lanesText: null },
    { text: 'Main', lanesText: '' },
    { text: '', lanesText: 'Main' },
    { text: 'Main ', lanesText: null },
  ];
  const names = texts.map(textHash);
  expect(names).toEqual(texts.map((text) => textHash({ ...text })));
  expect(new Set(names).size).toBe(texts.length);
  for (const name of names) expect(name).toMatch(/^[0-9a-f]{32}$/);
});
