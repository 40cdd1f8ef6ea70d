/*
 * How many random cases a test tries. `npm run mutants` runs the tests thousands of times and asks for fewer, but
 * for as many as ten, so that what they must meet at least once is met.
 */

const FEWER = Number(process.env['LANECALL_FEWER_RUNS'] ?? 1);

export function runs(many: number): number {
  return Math.min(many, Math.max(10, Math.ceil(many / FEWER)));
}
