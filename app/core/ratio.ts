/*
 * Exact fractions of whole numbers, for the few results that are not whole until a rule rounds them: an interval from
 * a pace, an expected swim time. They are kept in lowest terms so that numerators stay far below 2^53 (the largest is
 * 5e12 before reduction: 500 reps of 10 000 m at 10:00 per 100, with a factor). BigInt would do too, but television
 * browsers that show the wall are too old for it.
 */

/** num / den with den > 0, both whole, in lowest terms. */
export interface Ratio {
  readonly num: number;
  readonly den: number;
}

/** num / den in lowest terms. Throws if den is not positive, or if either is not a safe whole number. */
export function ratio(num: number, den = 1): Ratio {
  if (!Number.isSafeInteger(num) || !Number.isSafeInteger(den) || den <= 0) {
    throw new RangeError(`not an exact fraction: ${num}/${den}`);
  }
  const common = greatestCommonDivisor(Math.abs(num), den);
  return { num: num / common, den: den / common };
}

export function add(a: Ratio, b: Ratio): Ratio {
  return ratio(a.num * b.den + b.num * a.den, a.den * b.den);
}

export function multiply(a: Ratio, b: Ratio): Ratio {
  // Cross-cancelling first keeps the products small.
  const first = ratio(a.num, b.den);
  const second = ratio(b.num, a.den);
  return ratio(first.num * second.num, first.den * second.den);
}

/** Negative if a < b, zero if they are equal, positive if a > b. */
export function compare(a: Ratio, b: Ratio): number {
  return a.num * b.den - b.num * a.den;
}

/** The fraction rounded up to a multiple of step, a positive whole number. */
export function ceilTo(step: number, a: Ratio): number {
  return -floorDivide(-a.num, a.den * step) * step || 0;
}

/** The fraction rounded to the nearest multiple of step, a positive whole number; halves are rounded up. */
export function roundTo(step: number, a: Ratio): number {
  return floorDivide(2 * a.num + a.den * step, 2 * a.den * step) * step;
}

/** The quotient rounded down (towards minus infinity), worked out in whole numbers only. */
export function floorDivide(num: number, den: number): number {
  const rest = num % den;
  return (num - (rest < 0 ? rest + den : rest)) / den;
}

function greatestCommonDivisor(a: number, b: number): number {
  while (b !== 0) [a, b] = [b, a % b];
  return a || 1;
}
