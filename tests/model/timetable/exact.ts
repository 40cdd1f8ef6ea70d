/*
 * Exact fractions for the model. They are never reduced and never rounded but where a rule says so;
 * whole numbers of any size make that obvious rather than fast.
 */

export interface Exact {
  readonly over: bigint;
  /** Above 0. */
  readonly under: bigint;
}

export function exact(over: number, under = 1): Exact {
  return { over: BigInt(over), under: BigInt(under) };
}

export function plus(a: Exact, b: Exact): Exact {
  return { over: a.over * b.under + b.over * a.under, under: a.under * b.under };
}

export function times(a: Exact, b: Exact): Exact {
  return { over: a.over * b.over, under: a.under * b.under };
}

export function isBelow(a: Exact, b: Exact): boolean {
  return a.over * b.under < b.over * a.under;
}

/** The least multiple of step that is not below the value. */
export function upTo(step: number, value: Exact): number {
  const unit = BigInt(step) * value.under;
  return Number(-floored(-value.over, unit)) * step || 0;
}

/** The nearest multiple of step; half way between two, the greater. */
export function nearest(step: number, value: Exact): number {
  const unit = BigInt(step) * value.under;
  return Number(floored(2n * value.over + unit, 2n * unit)) * step;
}

function floored(over: bigint, under: bigint): bigint {
  const quotient = over / under;
  return over % under < 0n ? quotient - 1n : quotient;
}
