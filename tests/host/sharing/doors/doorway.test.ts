/* What both doors do alike: hear somebody who has not proved who it is, turn them away, let them in. */

import { beforeEach, describe, expect, test } from 'vitest';
import type { ScreenChannel } from '../../../../app/host/deck/telling/screen.ts';
import type { Devices } from '../../../../app/host/sharing/devices/devices.ts';
import { Doorway, heardAtDoor } from '../../../../app/host/sharing/doors/doorway.ts';
import type { Line } from '../../../../app/host/sharing/doors/door.ts';
import type { Guest } from '../../../../app/host/sharing/doors/guest.ts';
import type { Noted } from '../../../../app/host/sharing/doors/visitors.ts';
import { JOINING_VERSION } from '../../../../app/wire/sharing/joining.ts';

let events: string[];
let noted: Noted[];
let guests: Guest[];
let way: Doorway;

beforeEach(() => {
  events = [];
  noted = [];
  guests = [];
  const line: Line = {
    host: '192.168.1.20:7525',
    from: '192.168.1.33',
    socket: 'deck',
    listener: 'network',
    waiting: () => 7,
    send: (frame, sent) => {
      events.push(`send ${String(frame)}`);
      sent();
    },
    close: (why) => void events.push(`close ${why}`),
    terminate: () => void events.push('terminate'),
  };
  const came = (id: string) => {
    events.push(`came ${id}`);
    return () => void events.push(`left ${id}`);
  };
  way = new Doorway(
    line,
    (guest) => {
      guests.push(guest);
      return { receive: () => undefined };
    },
    { devices: { came } as unknown as Devices, visitors: { note: (entry) => noted.push(entry) } },
  );
});

describe('[sharing] somebody who is turned away', () => {
  test('reads why and of which version the host is; it is noted with the address; the line is closed, once', () => {
    way.turnAway('There is no room.');
    way.turnAway('There is no room.');
    way.hangUp('There is no room.');
    way.say({ say: 'welcome' });
    expect(events).toEqual([
      `send {"say":"bye","why":"There is no room.","version":${JOINING_VERSION}}`,
      'close There is no room.',
    ]);
    expect(noted).toEqual([{ what: 'refused', from: '192.168.1.33', why: 'There is no room.' }]);
    expect(way.isOver()).toBe(true);
  });

  test('is told where its key or code is not valid any more', () => {
    way.turnAway('This key is void.', 'again');
    expect(events[0]).toBe(`send {"say":"bye","why":"This key is void.","version":${JOINING_VERSION},"again":true}`);
  });

  test('without a word hears nothing', () => {
    expect(way.isOver()).toBe(false);
    way.hangUp('It took too long.');
    expect(events).toEqual(['close It took too long.']);
  });
});

describe('[sharing] a device that is let in', () => {
  const channel = {} as ScreenChannel;

  test('counts as connected until it has gone, and has the name that the coach gives it meanwhile', () => {
    const device = { id: 'd', role: 'remote' as const, name: 'Remote 1', since: 0 };
    way.letIn(device, channel);
    const [guest] = guests;
    expect(guest).toEqual({ role: 'remote', name: 'Remote 1', device: 'd' });
    device.name = 'Phone of the coach';
    expect(guest!.name).toBe('Phone of the coach');
    way.gone();
    way.gone();
    expect(events).toEqual(['came d', 'left d']);
  });

  test('is noted the first time, with its address', () => {
    way.noteLetIn({ role: 'wall', name: 'Wall 1' });
    expect(noted).toEqual([{ what: 'let in', role: 'wall', name: 'Wall 1', from: '192.168.1.33' }]);
  });

  test('has a plain channel that is the line itself', () => {
    const plain = way.plainChannel();
    plain.send('frame', () => events.push('sent'));
    plain.close('bye');
    plain.terminate();
    expect([plain.isOwnWindow, plain.waiting()]).toEqual([false, 7]);
    expect(events).toEqual(['send frame', 'sent', 'close bye', 'terminate']);
  });
});

describe('[sharing] what is heard at the door', () => {
  test('is a message of this version', () => {
    const message = { say: 'show', version: JOINING_VERSION };
    expect(heardAtDoor(JSON.stringify(message))).toEqual({ message });
  });

  test('of another version is answered by who is older, whatever else it says', () => {
    const page = (version: number) => heardAtDoor(JSON.stringify({ say: 'sing', version }));
    expect(page(JOINING_VERSION + 1)).toEqual({ why: 'This page is newer than the program: reload it.' });
    expect(page(JOINING_VERSION - 1)).toEqual({ why: 'This page is older than the program: reload it.' });
  });

  test.each(['', 'null', '7', '{}', '{"say":"show","version":1.5}', '{"say":"show","version":"2"}', '{"say":"sing"}'])(
    'is else no message: %s',
    (text) => {
      expect(heardAtDoor(text)).toEqual({ why: 'That was not a message of a screen at the door.' });
    },
  );
});
