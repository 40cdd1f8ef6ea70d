/*
 * The run as it concerns a screen that shows some of its lanes: what is said in the head and while nobody swims is theirs,
 * "5/4 x 75" of "6/6/5/4 x 75". What only other lanes swim is not there.
 */

import type { Plan, Stretch } from '../../../app/core/plan/plan.ts';
import type { RunView } from '../../../app/core/run/view.ts';
import { swims, type Item, type SomeLanes } from '../../../app/core/session/session.ts';

/** numbers: of the lanes that are shown. What it returns keeps the plan it was asked for last. */
export function createShownLanes(numbers: readonly number[]): (view: RunView) => RunView {
  let known: { readonly of: Plan; readonly plan: Plan } | null = null;
  return (view) => {
    const all = view.plan.session.lanes.map(({ number }) => number);
    if (all.every((number) => numbers.includes(number))) return view;
    const shown = new Shown(all, numbers);
    if (known?.of !== view.plan) known = { of: view.plan, plan: shown.plan(view.plan) };
    const following = view.following && shown.stretch(view.following);
    return {
      ...view,
      plan: known.plan,
      lanes: view.lanes.filter(({ number }) => numbers.includes(number)),
      stretch: shown.stretch(view.stretch),
      following,
    };
  };
}

class Shown {
  private readonly all: readonly number[];
  private readonly numbers: readonly number[];

  /** all: in lane order. */
  constructor(all: readonly number[], numbers: readonly number[]) {
    this.all = all;
    this.numbers = numbers;
  }

  plan(plan: Plan): Plan {
    const parts = plan.session.parts.map((part) => ({ ...part, items: this.items(part.items) }));
    return { ...plan, session: { ...plan.session, parts } };
  }

  stretch(stretch: Stretch): Stretch {
    return stretch.kind === 'swim' ? { ...stretch, lanes: this.of(stretch.lanes) } : stretch;
  }

  private items(items: readonly Item[]): readonly Item[] {
    return items.flatMap((item) => this.item(item) ?? []);
  }

  /** null for what only other lanes swim. */
  private item(item: Item): Item | null {
    switch (item.kind) {
      case 'set': {
        const { reps } = item;
        const own =
          reps.kind === 'ladder' ? reps : { ...reps, counts: this.of(reps.counts), distances: this.of(reps.distances) };
        return this.isSwum(item.lanes) ? { ...item, reps: own, lanes: this.lanes(item.lanes) } : null;
      }
      case 'block':
        return this.isSwum(item.lanes)
          ? { ...item, distances: this.of(item.distances), lanes: this.lanes(item.lanes) }
          : null;
      case 'timed-swim':
        return this.isSwum(item.lanes) ? { ...item, lanes: this.lanes(item.lanes) } : null;
      case 'lanes':
        return this.isSwum(item.lanes)
          ? { ...item, items: this.items(item.items), lanes: this.lanes(item.lanes) }
          : null;
      case 'rounds': {
        const items = this.items(item.items);
        return items.length > 0 ? { ...item, items } : null;
      }
      case 'talk':
      case 'break':
        return item;
    }
  }

  private isSwum(lanes: SomeLanes): boolean {
    return this.all.some((number, index) => this.numbers.includes(number) && swims(lanes, index));
  }

  /** null where all lanes that are shown swim it: then nobody needs to be named. */
  private lanes(lanes: SomeLanes): SomeLanes {
    if (!lanes) return null;
    const own = {
      numbers: lanes.numbers.filter((number) => this.numbers.includes(number)),
      swims: this.of(lanes.swims),
    };
    return own.swims.every(Boolean) ? null : own;
  }

  /** Of values in lane order those of the lanes that are shown. */
  private of<Value>(values: readonly Value[]): readonly Value[] {
    return values.filter((_, index) => this.numbers.includes(this.all[index]!));
  }
}
