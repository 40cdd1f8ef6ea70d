/*
 * Chance that can be had again: every draw follows from the seed, so that a failure seen once is
 * seen whenever its seed is given. A linear congruential generator is chance enough for sessions.
 */

export interface Random {
  /** From 0 up to, not including, 1. */
  fraction(): number;
  /** A whole number, both ends possible. */
  whole(from: number, to: number): number;
  chance(probability: number): boolean;
  pick<Choice>(choices: readonly Choice[]): Choice;
  /** One of the choices, each as likely as its weight says. */
  weighted<Choice>(choices: readonly (readonly [weight: number, choice: Choice])[]): Choice;
  shuffled<Choice>(choices: readonly Choice[]): Choice[];
}

/** The same seed gives the same draws; neighbouring seeds give unlike ones. */
export function seededRandom(seed: number): Random {
  let state = Math.imul(seed ^ 0x5bd1e995, 0x9e3779b1) >>> 0;
  const fraction = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    // The low bits of such a generator repeat soon, so the high ones are mixed into them.
    return ((state ^ (state >>> 15)) >>> 0) / 0x1_0000_0000;
  };
  for (let i = 0; i < 5; i += 1) fraction();

  const whole = (from: number, to: number): number => from + Math.floor(fraction() * (to - from + 1));
  const pick = <Choice>(choices: readonly Choice[]): Choice => {
    if (choices.length === 0) throw new RangeError('nothing to pick from');
    return choices[whole(0, choices.length - 1)] as Choice;
  };
  const weighted = <Choice>(choices: readonly (readonly [number, Choice])[]): Choice => {
    let point = fraction() * choices.reduce((sum, [weight]) => sum + weight, 0);
    for (const [weight, choice] of choices) {
      point -= weight;
      if (point < 0) return choice;
    }
    return pick(choices)[1];
  };
  const shuffled = <Choice>(choices: readonly Choice[]): Choice[] => {
    const rest = [...choices];
    const result: Choice[] = [];
    while (rest.length > 0) result.push(...rest.splice(whole(0, rest.length - 1), 1));
    return result;
  };
  return { fraction, whole, chance: (probability) => fraction() < probability, pick, weighted, shuffled };
}
