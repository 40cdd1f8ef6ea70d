/*
 * The squads, in one file of the data folder that a person can read. It is read at each question, so that what somebody
 * wrote there by hand counts at once, and replaced as a whole, so that a crash leaves the old one or the new one. What
 * is not ours, or broken, is set aside and never written over; a newer program's is left alone.
 */

import { join } from 'node:path';
import { isSameSquad } from '../../core/session/lanes/squad.ts';
import {
  MOST_SQUADS,
  SQUADS_VERSION,
  squadsFile,
  type Squad,
  type SquadsAnswer,
  type SquadsRequest,
} from '../../wire/squads.ts';
import { diskReason, type Disk } from '../journal/disk.ts';
import type { Guard } from '../journal/run-file.ts';
import { keptBytes, readKept, setAside, type KeptForm } from '../kept-json.ts';

export interface SquadsPorts {
  readonly disk: Disk;
  /** The data folder. */
  readonly folder: string;
  readonly guard: Guard;
}

const FORM: KeptForm<readonly Squad[]> = {
  version: SQUADS_VERSION,
  // A hundred squads of twenty full lines.
  mostBytes: 2 * 1024 * 1024,
  read: (json) => squadsFile.safeParse(json).data?.squads ?? null,
};

export class Squads {
  private readonly ports: SquadsPorts;
  private readonly path: string;
  private turn: Promise<unknown> = Promise.resolve();

  constructor(ports: SquadsPorts) {
    this.ports = ports;
    this.path = join(ports.folder, 'squads.json');
  }

  /** Never rejects: what is refused, by the disk too, is answered with a sentence. */
  ask(asked: SquadsRequest): Promise<SquadsAnswer> {
    const answer = this.turn.then(() => this.answer(asked));
    this.turn = answer;
    return answer;
  }

  private async answer(asked: SquadsRequest): Promise<SquadsAnswer> {
    const found = await readKept(this.ports.disk, this.path, FORM);
    switch (found.kind) {
      case 'kept':
        return this.carryOut(asked, found.value, null);
      case 'none':
        return this.carryOut(asked, [], null);
      case 'newer':
        return leftAlone(asked, `${this.path} is of a newer Lanecall and left as it is: squads cannot be kept here.`);
      case 'unreadable':
        return leftAlone(asked, `${this.path} cannot be read (${found.reason}): squads cannot be kept until it can.`);
      case 'not ours':
        return this.setAside(asked);
    }
  }

  private async setAside(asked: SquadsRequest): Promise<SquadsAnswer> {
    const { disk, guard } = this.ports;
    try {
      const aside = await setAside(disk, guard, this.path);
      return await this.carryOut(asked, [], `${this.path} does not hold squads: it is kept as ${aside}.`);
    } catch (error) {
      const why = `${this.path} does not hold squads and cannot be moved (${diskReason(error)}): move it away yourself.`;
      return leftAlone(asked, why);
    }
  }

  private async carryOut(asked: SquadsRequest, before: readonly Squad[], said: string | null): Promise<SquadsAnswer> {
    if (asked.do === 'list') return { ok: true, squads: before, said };
    const after = changed(before, asked);
    if (typeof after === 'string') return { ok: false, why: after };
    const squads = [...after].sort((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true }));
    const { disk, folder, guard } = this.ports;
    try {
      await guard.check();
      await disk.makeFolder(folder);
      await disk.replace(this.path, keptBytes({ version: SQUADS_VERSION, squads }));
      return { ok: true, squads, said };
    } catch (error) {
      return {
        ok: false,
        why: `The squad is not kept in ${this.path} (${diskReason(error)}): see to that, then again.`,
      };
    }
  }
}

/** What there is after a wish, or why it cannot be. */
function changed(before: readonly Squad[], asked: Exclude<SquadsRequest, { do: 'list' }>): readonly Squad[] | string {
  if (asked.do === 'keep') {
    const { squad, over } = asked;
    const others = before.filter(({ name }) => !isSameSquad(name, squad.name));
    if (others.length < before.length && !over) return taken(squad.name);
    return others.length < MOST_SQUADS ? [...others, squad] : 'A hundred squads are kept: delete one of them first.';
  }
  const own = before.find(({ name }) => name === asked.name);
  if (!own) return `There is no squad ${asked.name} any more.`;
  const others = before.filter((each) => each !== own);
  if (asked.do === 'delete') return others;
  if (others.some(({ name }) => isSameSquad(name, asked.to))) return taken(asked.to);
  return [...others, { ...own, name: asked.to }];
}

function taken(name: string): string {
  return `There is a squad ${name} already: choose another name.`;
}

function leftAlone(asked: SquadsRequest, why: string): SquadsAnswer {
  return asked.do === 'list' ? { ok: true, squads: [], said: why } : { ok: false, why };
}
