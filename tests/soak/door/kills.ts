/*
 * The program is killed in the middle of a run, right after a device was thrown out: sharing is back by itself at the same
 * address, the devices that were let in come back, and the one that was thrown out does not.
 */

import { setTimeout as pause } from 'node:timers/promises';
import { JOINING_VERSION, type KeyGiven } from '../../../app/wire/sharing/joining.ts';
import { freePort } from '../../support/host/free-port.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { DoorSocket } from '../../support/host/sharing/door-socket.ts';
import { ServedHost } from '../../support/host/served-host.ts';
import { SharedPool } from './shared-pool.ts';

export async function tryKills(kills: number): Promise<readonly string[]> {
  const wrong: string[] = [];
  const back: number[] = [];
  for (let kill = 0; kill < kills; kill++) {
    const data = freshDataFolder();
    const port = await freePort();
    const pool = await SharedPool.open(data, { port });
    const stays = await letIn(pool);
    const goes = await letIn(pool);
    const wall = await letWallIn(pool);
    pool.coach.tell({ say: 'command', id: 'start', command: { do: 'start' } });
    await pool.coach.hears('answer', ({ id, ok }) => id === 'start' && ok);
    await pool.coach.wish({ do: 'throw-out', device: goes.id });
    await pause(kill);
    await pool.end();
    const begun = performance.now();
    const served = await ServedHost.start(data, { port });
    try {
      const comes = async ({ id, key }: KeyGiven): Promise<boolean> => {
        const socket = await DoorSocket.open({ host: pool.network });
        const isIn = await socket.comeBack({ id, key });
        socket.close();
        return isIn;
      };
      if (!(await comes(stays))) wrong.push(`kill ${kill}: a device that was let in did not come back`);
      back.push(performance.now() - begun);
      if (await comes(goes)) wrong.push(`kill ${kill}: a device that was thrown out came back`);
      if (!(await looks(pool.network, wall))) wrong.push(`kill ${kill}: a wall did not come back`);
    } finally {
      await served.kill();
    }
  }
  back.sort((a, b) => a - b);
  process.stdout.write(
    `kills: ${kills} in the middle of a run; shared again and a phone back in ${Math.round(back[kills >> 1] ?? 0)} ms (median), ` +
      `${Math.round(back.at(-1) ?? 0)} ms at worst\n`,
  );
  return wrong;
}

async function letIn({ coach, network }: SharedPool): Promise<KeyGiven> {
  const phone = await DoorSocket.open({ host: network });
  const given = await phone.join(await coach.newCode());
  phone.close();
  return given!;
}

async function letWallIn({ coach, network }: SharedPool): Promise<string> {
  const wall = await DoorSocket.open({ host: network, socket: 'wall' });
  wall.say({ say: 'show', version: JOINING_VERSION });
  const shown = await wall.heard();
  await coach.wish({ do: 'let-in', digits: shown?.say === 'digits' ? shown.digits : '' });
  const given = await wall.heard();
  wall.close();
  return given?.say === 'let-in' ? given.key : '';
}

async function looks(host: string, key: string): Promise<boolean> {
  const wall = await DoorSocket.open({ host, socket: 'wall' });
  wall.say({ say: 'look', version: JOINING_VERSION, key });
  const isIn = (await wall.heard())?.say === 'welcome';
  wall.close();
  return isIn;
}
