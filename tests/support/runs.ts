/*
 * How many random cases a test tries. `npm run mutants` runs the tests thousands of times and asks for fewer.
 */

const FEWER = Number(process.env['LANECALL_FEWER_RUNS'] ?? 1);

export function runs(many: number): number {
  return Math.ceil(many / FEWER);
}
