/*
 * Where two plain values part: the path to the first place, and what stands there on either side.
 */

export interface Difference {
  /** Such as `lanes[1].leaves[4].atMs`; empty where the whole differs. */
  readonly path: string;
  readonly model: unknown;
  readonly program: unknown;
}

/** null where both say the same. Fields that are undefined count as left out. */
export function firstDifference(model: unknown, program: unknown, path = ''): Difference | null {
  if (Object.is(model, program)) return null;
  if (Array.isArray(model) && Array.isArray(program)) {
    const length = Math.max(model.length, program.length);
    for (let index = 0; index < length; index += 1) {
      const found = firstDifference(model[index], program[index], `${path}[${index}]`);
      if (found) return found;
    }
    return null;
  }
  if (isRecord(model) && isRecord(program)) {
    for (const key of new Set([...Object.keys(model), ...Object.keys(program)])) {
      const found = firstDifference(model[key], program[key], path === '' ? key : `${path}.${key}`);
      if (found) return found;
    }
    return null;
  }
  return { path, model, program };
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
