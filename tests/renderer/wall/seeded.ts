/*
 * Chance that comes out the same every time.
 */

/** Numbers from 0 up to 1, by a linear congruential generator (constants of Numerical Recipes). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}
