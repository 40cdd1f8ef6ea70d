/*
 * A code that is used twice, by two at once, after its panel was closed, and late.
 */

import { setTimeout as pause } from 'node:timers/promises';
import { JOINING_TIME } from '../../../app/wire/sharing/joining.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { DoorSocket } from '../../support/host/sharing/door-socket.ts';
import { SharedPool } from './shared-pool.ts';

/** So many codes are photographed. */
const PHOTOGRAPHS = 20;

export async function tryCodes(): Promise<readonly string[]> {
  const pool = await SharedPool.open(freshDataFolder());
  const { coach, network } = pool;
  const comeWith = async (code: string, from: string): Promise<boolean> => {
    const phone = await DoorSocket.open({ host: network, from });
    const given = await phone.join(code);
    phone.close();
    return given !== null;
  };
  try {
    const late = await coach.newCode('tablet');
    await pause(JOINING_TIME);
    const wrong = (await comeWith(late, '10.77.1.1')) ? ['a code was good after its time'] : [];
    const closed = await coach.newCode();
    await coach.wish({ do: 'hide-code' });
    if (await comeWith(closed, '10.77.1.1')) wrong.push('a code was good after its panel was closed');
    let once = 0;
    for (let n = 0; n < PHOTOGRAPHS; n++) {
      const code = await coach.newCode();
      const both = await Promise.all([comeWith(code, '10.77.1.1'), comeWith(code, '10.77.1.2')]);
      if (both.filter((isIn) => isIn).length === 1) once++;
      else wrong.push(`${both.filter((isIn) => isIn).length} of two came in with one code at once`);
      if (await comeWith(code, '10.77.1.3')) wrong.push('a code was good a second time');
    }
    process.stdout.write(
      `codes: after ${JOINING_TIME / 1000} s, after its panel was closed and a second time none was good; of ${PHOTOGRAPHS} used by two at ` +
        `once, ${once} let in exactly one\n`,
    );
    return wrong;
  } finally {
    await pool.end();
  }
}
