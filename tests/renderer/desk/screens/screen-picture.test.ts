/* What a picture of a wall screen shows, and that it can say nothing. */

import { describe, expect, test } from 'vitest';
import { addressText } from '../../../../renderer/desk/screens/address-wins.ts';
import { toggled } from '../../../../renderer/desk/screens/lane-fields.tsx';
import { pictureAddress } from '../../../../renderer/desk/screens/screen-picture.tsx';

const ROOM = { width: 1920, height: 1080 };

describe('[screens] the address of a picture', () => {
  test.each([
    ['Hall', '', '/display?preview=Hall'],
    ['Deep end', '?name=Deep%20end&flip', '/display?flip=&preview=Deep+end'],
    ['Wall', '?preview=Other&lanes=1-4', '/display?preview=Wall&lanes=1-4'],
    ['a&b', '', '/display?preview=a%26b'],
  ])('of %s at %j is %s', (name, search, address) => {
    expect(pictureAddress(name, search)).toBe(address);
  });
});

describe('[screens] what an address decides', () => {
  test.each([
    [[''], ''],
    [['?name=Hall'], ''],
    [['?inset=0'], 'Its address decides the edges.'],
    [['?lanes=1', '?clock=run'], 'Its address decides the clock and the lanes.'],
    [['?top=00&face=sweep&end'], "Its address decides the face, the dial's top and the end."],
  ])('%j: %j', (searches, sentence) => {
    expect(addressText(searches.map((search) => ({ search, room: ROOM })))).toBe(sentence);
  });
});

describe('[screens] lanes', () => {
  test.each([
    [null, 3, [3]],
    [[3], 1, [1, 3]],
    [[1, 3], 3, [1]],
    [[2, 10], 4, [2, 4, 10]],
    [[1], 1, null],
  ])('%j, lane %d tapped: %j', (before, lane, after) => {
    expect(toggled(before, lane)).toEqual(after);
  });
});
