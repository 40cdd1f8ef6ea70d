/*
 * The lines of a part, each written in one of the ways that the notation allows for it.
 */

import type { Random } from '../invent/random.ts';
import {
  type LengthUnit,
  type PerLane,
  type Scenario,
  type ScenarioBlock,
  type ScenarioItem,
  type ScenarioLanes,
  type ScenarioSet,
} from '../scenario.ts';
import { spaced, writeList, writeTerms } from './write-terms.ts';
import { decimal, writeTime } from './write-time.ts';

/** One item's own line, without indent or bullet; rounds or lanes without what stands under them. */
export function writeItem(item: ScenarioItem, scenario: Scenario, random: Random): string {
  switch (item.kind) {
    case 'set':
      return writeSet(item, scenario, random);
    case 'block':
      return writeBlock(item, scenario, random);
    case 'timed-swim':
      return spaced(writeTime(item.ms, random, 'first'), item.words);
    case 'rounds': {
      const [only] = item.items;
      if (item.oneLine && only?.kind === 'set')
        return `${item.times}${times(random)}${writeSet(only, scenario, random, true)}`;
      return item.times + random.pick([' rounds', ' rounds of', ' times', ' x', ' Rounds', ' rounds:', ' times:']);
    }
    case 'lanes': {
      const [only] = item.items;
      const lanes = writeLanes(item, scenario, random);
      return item.oneLine && only ? `${lanes} ${writeItem(only, scenario, random)}` : lanes;
    }
    case 'talk':
    case 'break': {
      const word = item.kind === 'talk' ? random.pick(['talk', 'Talk']) : random.pick(['break', 'rest', 'Break']);
      return spaced(word + (random.chance(0.3) ? ':' : ''), spaced(writeTime(item.ms, random, 'value'), item.words));
    }
    case 'note':
    case 'kit':
      return `${random.chance(0.8) ? item.kind : item.kind.toUpperCase()}: ${item.words}`;
  }
}

function writeSet(set: ScenarioSet, scenario: Scenario, random: Random, countNeeded = false): string {
  const shape = writeShape(set, scenario, random, countNeeded);
  // Behind a unit, glued words would make another word of it.
  return shape + writeTerms(set, random, /\d$/.test(shape));
}

function writeBlock(block: ScenarioBlock, scenario: Scenario, random: Random): string {
  const distance = writeDistances(block.distances, scenario, random);
  const plural = 'same' in block.distances && /^\d+$/.test(distance) && random.chance(0.5) ? 's' : '';
  return `${writeTime(block.ms, random, 'first')} of ${distance}${plural}${writeTerms(block, random, false)}`;
}

/** `lanes 1-3, 5:`; a range stands for those between its ends that are lanes of the session. */
function writeLanes({ lanes }: ScenarioLanes, scenario: Scenario, random: Random): string {
  const number = (index: number | undefined): number => scenario.lanes[index ?? -1]?.number ?? NaN;
  const runs: number[][] = [];
  for (const index of lanes) {
    const run = runs[runs.length - 1];
    if (run && run[run.length - 1] === index - 1 && random.chance(0.7)) run.push(index);
    else runs.push([index]);
  }
  const dash = random.pick(['-', '-', ' - ', '\u2013']);
  const names = runs.map((run) =>
    run.length === 1 ? String(number(run[0])) : `${number(run[0])}${dash}${number(run[run.length - 1])}`,
  );
  const inAnyOrder = random.chance(0.85) ? names : random.shuffled(names);
  const word = random.pick(
    lanes.length === 1 ? ['lane', 'lane', 'lanes', 'Lane'] : ['lanes', 'lanes', 'lane', 'Lanes'],
  );
  return `${word} ${inAnyOrder.join(random.chance(0.8) ? ', ' : ',')}:`;
}

function writeShape(set: ScenarioSet, scenario: Scenario, random: Random, countNeeded: boolean): string {
  const { shape } = set;
  if (shape.kind === 'ladder') {
    return shape.rungs.map((rung) => decimal(rung, 10)).join(random.pick(['-', '-', ' - ', '\u2013']));
  }
  const distances = writeDistances(shape.distances, scenario, random);
  const single = 'same' in shape.counts && shape.counts.same === 1 && 'same' in shape.distances;
  if (single && !countNeeded && random.chance(0.6)) return distances;
  return writeList(shape.counts, random, String) + times(random) + distances;
}

function times(random: Random): string {
  return random.pick([' x ', ' x ', 'x', ' × ', '*', ' X ']);
}

function writeDistances(distances: PerLane<number>, scenario: Scenario, random: Random): string {
  const { pool } = scenario;
  if ('each' in distances) return writeList(distances, random, (distance) => decimal(distance, 10));
  const needsUnit = distances.same * 10 < pool.hundredths;
  const unit =
    needsUnit || random.chance(0.15)
      ? random.pick([unitWord(pool.unit, random), ` ${unitWord(pool.unit, random)}`])
      : '';
  return decimal(distances.same, 10) + unit;
}

function unitWord(unit: LengthUnit, random: Random): string {
  return unit === 'm' ? 'm' : random.pick(['yd', 'y']);
}
