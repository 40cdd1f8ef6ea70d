/*
 * When each session was last opened, as JSON in the data folder. It only orders the list: where it cannot be read or
 * written, the time at which a file was last changed counts.
 */

import type { Disk } from '../journal/disk.ts';

export class LastUsed {
  private readonly disk: Disk;
  private readonly path: string;
  private times: Promise<Map<string, number>> | null = null;

  constructor(disk: Disk, path: string) {
    this.disk = disk;
    this.path = path;
  }

  /** In ms since 1970, by name; never rejects. */
  all(): Promise<ReadonlyMap<string, number>> {
    return this.read();
  }

  /** Never rejects. `names`: those that there are; others are forgotten. */
  async used(name: string, at: number, names: readonly string[]): Promise<void> {
    const times = await this.read();
    times.set(name, at);
    const there = new Set([...names, name]);
    for (const each of times.keys()) if (!there.has(each)) times.delete(each);
    await this.write(times);
  }

  async renamed(from: string, to: string): Promise<void> {
    const times = await this.read();
    const at = times.get(from);
    if (at === undefined) return;
    times.delete(from);
    times.set(to, at);
    await this.write(times);
  }

  /** The file is read anew. */
  forget(): void {
    this.times = null;
  }

  private read(): Promise<Map<string, number>> {
    this.times ??= this.disk
      .read(this.path)
      .then((bytes) => timesIn(JSON.parse(Buffer.from(bytes).toString('utf8'))))
      .catch(() => new Map<string, number>());
    return this.times;
  }

  private async write(times: ReadonlyMap<string, number>): Promise<void> {
    const lastUsed = Object.fromEntries([...times].map(([name, at]) => [name, new Date(at).toISOString()]));
    const bytes = Buffer.from(`${JSON.stringify({ lastUsed }, null, 2)}\n`);
    await this.disk.replace(this.path, bytes).catch(() => undefined);
  }
}

/** What of a parsed file can be used; anything may stand in it. */
function timesIn(value: unknown): Map<string, number> {
  const { lastUsed } = (typeof value === 'object' && value !== null ? value : {}) as { readonly lastUsed?: unknown };
  const entries = typeof lastUsed === 'object' && lastUsed !== null ? Object.entries(lastUsed) : [];
  return new Map(
    entries
      .map(([name, at]) => [name, typeof at === 'string' ? Date.parse(at) : NaN] as const)
      .filter(([, at]) => !Number.isNaN(at)),
  );
}
