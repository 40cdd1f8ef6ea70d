/*
 * Holds the program against the model over many seeds and shows, for each seed at which they
 * disagree, the smallest trial found: `npx tsx tests/model/compare.ts --seeds 1-1000 [--show 5]`.
 * With `--warned` it looks too whether a command of the trial gave a lane less than ten seconds of
 * warning, which takes three times as long. Exit status 1 where they disagree anywhere, or one did.
 */

import { parseArgs } from 'node:util';
import { describeTrial, shrink } from './shrink.ts';
import { disagreementIn, inventTrial } from './trial.ts';
import { suddenLeave } from './warning-time.ts';

function main(): void {
  const { values } = parseArgs({
    options: { seeds: { type: 'string' }, show: { type: 'string' }, warned: { type: 'boolean' } },
  });
  const [, first, last] = /^(\d+)(?:-(\d+))?$/.exec(values.seeds ?? '') ?? [];
  if (first === undefined) {
    process.stderr.write('usage: compare.ts --seeds FROM-TO [--show COUNT] [--warned]\n');
    process.exitCode = 64;
    return;
  }
  const show = Number(values.show ?? 5);
  const differing: number[] = [];
  let sudden = 0;
  for (let seed = Number(first); seed <= Number(last ?? first); seed += 1) {
    const trial = inventTrial(seed);
    const leave = values.warned ? suddenLeave(trial) : null;
    if (leave !== null) {
      sudden += 1;
      process.stdout.write(`seed ${seed}: too little warning: ${leave}\n${describeTrial(trial)}\n\n`);
    }
    if (disagreementIn(trial) === null) continue;
    differing.push(seed);
    if (differing.length <= show) showSeed(seed);
  }
  process.stdout.write(
    `${differing.length} seeds differ${differing.length > 0 ? `: ${differing.slice(0, 40).join(' ')}` : ''}\n`,
  );
  process.exitCode = differing.length + sudden > 0 ? 1 : 0;
}

function showSeed(seed: number): void {
  const trial = shrink(inventTrial(seed));
  const found = disagreementIn(trial);
  if (found === null) return;
  const { about, path, model, program } = found;
  const say = (value: unknown): string => (typeof value === 'string' ? value : (JSON.stringify(value) ?? 'nothing'));
  const lines = [
    `seed ${seed}: ${about} ${path}`,
    `  model:   ${say(model)}`,
    `  program: ${say(program)}`,
    describeTrial(trial),
    '',
  ];
  process.stdout.write(`${lines.join('\n')}\n`);
}

main();
