/*
 * What went over the air, in both directions and unmasked, is searched for the names of swimmers, the code and the keys:
 * of a phone that joins, commands and comes back, and of a wall that is let in.
 */

import { JOINING_VERSION } from '../../../app/wire/sharing/joining.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { DoorSocket, type Frame } from '../../support/host/sharing/door-socket.ts';
import { NAMES, SharedPool } from './shared-pool.ts';

export async function tryAir(): Promise<readonly string[]> {
  const pool = await SharedPool.open(freshDataFolder());
  const { coach, network } = pool;
  try {
    const code = await coach.newCode();
    const phone = await DoorSocket.open({ host: network, from: '10.77.1.1' });
    const given = (await phone.join(code))!;
    phone.hello('remote');
    const { text, lanesText } = await phone.hears('text');
    phone.tell({ say: 'command', id: 'start', command: { do: 'start' } });
    await phone.hears('answer', ({ ok }) => ok);
    const again = await DoorSocket.open({ host: network, from: '10.77.1.1' });
    await again.comeBack(given);
    again.hello('remote');
    await again.hears('snapshot');

    const wall = await DoorSocket.open({ host: network, from: '10.77.1.2', socket: 'wall' });
    wall.say({ say: 'show', version: JOINING_VERSION });
    const shown = await wall.heard();
    await coach.wish({ do: 'let-in', digits: shown?.say === 'digits' ? shown.digits : '' });
    const letIn = await wall.heard();
    wall.hello('wall');
    await wall.hears('snapshot');

    const air = [...phone.went, ...again.went, ...wall.went];
    const secrets = [...NAMES, code, given.key, Buffer.from(given.key, 'hex')];
    const found = secrets.filter((secret) => air.some((frame) => has(frame, secret)));
    const told = NAMES.filter((name) => `${text}${lanesText ?? ''}`.includes(name));
    const bytes = air.reduce((sum, frame) => sum + frame.length, 0);
    process.stdout.write(
      `air: ${air.length} frames of ${bytes} bytes, ${found.length} with a name, a code or a key in it; the phone was told ` +
        `${told.length} names\n`,
    );
    for (const socket of [phone, again, wall]) socket.close();
    return [
      ...found.map((secret) => `the air had ${secret.toString()}`),
      ...(told.length === NAMES.length ? [] : ['the phone was not told the names, so that there was nothing to find']),
      ...(letIn?.say === 'let-in' ? [] : ['the wall was not let in']),
    ];
  } finally {
    await pool.end();
  }
}

function has(frame: Frame, secret: string | Buffer): boolean {
  return Buffer.from(frame as Buffer).includes(secret);
}
