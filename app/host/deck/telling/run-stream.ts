/*
 * What screens of one kind are sent of the run: the texts, the whole snapshot, and the commands since an earlier one.
 * Each is put into words once, for all screens that need the same.
 */

import type { FromHost, Snapshot } from '../../../wire/messages.ts';
import type { LaterCommands } from '../../../wire/snapshot.ts';
import { publicSnapshot } from './public-copy.ts';
import type { RunTexts } from '../run-texts.ts';

type Text = Extract<FromHost, { say: 'text' }>;

/** How far a screen has been told: of the same run with the same times (`run`; null without one), so many commands. */
export interface Place {
  readonly n: number;
  readonly run: string | null;
  readonly count: number;
}

interface Latest {
  readonly snapshot: Snapshot;
  readonly place: Place;
  readonly texts: ReadonlyMap<string, string>;
  /** By the number of commands before them; the whole snapshot by null. */
  readonly messages: Map<number | null, string>;
}

export interface RunStreams {
  readonly whole: RunStream;
  /** For screens that anybody may open. */
  readonly open: RunStream;
}

export function runStreams(snapshot: () => Snapshot, texts: RunTexts): RunStreams {
  const open = (): Snapshot => publicSnapshot(snapshot(), (hash) => texts.publicHash(hash));
  return {
    whole: new RunStream(snapshot, () => texts.messages()),
    open: new RunStream(open, () => texts.publicMessages()),
  };
}

export class RunStream {
  private readonly snapshot: () => Snapshot;
  private readonly textsNow: () => readonly Text[];
  private latest: Latest | null = null;
  private texts: ReadonlyMap<string, string> = new Map();

  constructor(snapshot: () => Snapshot, texts: () => readonly Text[]) {
    this.snapshot = snapshot;
    this.textsNow = texts;
  }

  /** To be called when there is another snapshot. */
  changed(): void {
    this.latest = null;
  }

  /** Where a screen is that has been told everything. */
  place(): Place {
    return this.now().place;
  }

  /** The messages with the texts that the snapshot names, by hash. */
  textMessages(): ReadonlyMap<string, string> {
    return this.now().texts;
  }

  /** What brings a screen from a place, or from nothing, to the latest. */
  messageFrom(from: Place | null): string {
    const { snapshot, place, messages } = this.now();
    const { run } = snapshot;
    const goesOn = from !== null && run !== null && from.run === place.run && from.count <= place.count;
    const after = goesOn ? from.count : null;
    const message = messages.get(after) ?? JSON.stringify(goesOn ? laterCommands(snapshot, run, from) : snapshot);
    messages.set(after, message);
    return message;
  }

  private now(): Latest {
    if (this.latest) return this.latest;
    const snapshot = this.snapshot();
    const { texts: before } = this;
    this.texts = new Map(this.textsNow().map((text) => [text.hash, before.get(text.hash) ?? JSON.stringify(text)]));
    this.latest = { snapshot, place: placeOf(snapshot), texts: this.texts, messages: new Map() };
    return this.latest;
  }
}

function placeOf({ n, epoch, run }: Snapshot): Place {
  if (!run) return { n, run: null, count: 0 };
  const { commands, ...times } = run;
  return { n, run: JSON.stringify({ epoch, ...times }), count: commands.length };
}

function laterCommands(
  { n, epoch, notices, startUp }: Snapshot,
  { id, commands }: NonNullable<Snapshot['run']>,
  { count }: Place,
): LaterCommands {
  return { say: 'commands', n, epoch, run: id, after: count, commands: commands.slice(count), notices, startUp };
}
