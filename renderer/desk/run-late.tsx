/*
 * How the booked hour stands, below the outline: what is in hand or over, when the swim-down must start,
 * and the cuts that bring the hour back, each one tap and undone in one.
 */

import { useState, type ReactElement } from 'react';
import { reading } from '../../app/core/reading.ts';
import type { CutOption } from '../../app/core/run/fit.ts';
import { DeckButton } from '../ui/coach/deck-button.tsx';
import type { Moment } from '../ui/coach/frames.ts';
import { refusalOf } from '../ui/coach/offers.ts';
import { count } from '../ui/coach/words.ts';
import { about, endIsEstimate, lineIsEstimate } from '../ui/estimates.ts';
import type { DeskTools } from './desk-tools.ts';
import { adviceOf, nameOfLast } from './fit-advice.ts';
import { createFitCache } from './fit-cache.ts';
import { clockTime, endTime, hourOf } from './hour.ts';

/** So many cuts stand side by side; more would want reading. */
const SHOWN = 3;

interface RunLateProps {
  readonly tools: DeskTools;
  readonly moment: Moment;
}

export function RunLate({ tools, moment }: RunLateProps): ReactElement {
  const { run, view } = moment;
  const { finishBy } = view.state.plan.session;
  const hour = hourOf(run.openedAtTimeOfDay, view.projectedEnd, finishBy);
  const [fitOf] = useState(createFitCache);
  const fitted = fitOf(moment);
  if (!fitted) {
    return (
      <section className="late" aria-label="If you run late">
        <h2>If you run late</h2>
        <p>{`Ends ≈ ${hour.ends}. With a finish in the session you see here what is in hand.`}</p>
      </section>
    );
  }
  return (
    <section className="late" aria-label="If you run late">
      <h2>If you run late</h2>
      <p>{`Ends ≈ ${hour.ends}, ${about(endIsEstimate(view.state))}${hour.inHandText}, booked to ${hour.booked}.`}</p>
      {adviceOf(fitted) === '' ? null : <p>{adviceOf(fitted)}</p>}
      {fitted.cuts.slice(0, SHOWN).map((option) => (
        <CutCard key={option.line} tools={tools} moment={moment} option={option} />
      ))}
      {fitted.swimDownBy === null ? null : (
        <p>{`${nameOfLast(view.state)} must start by ≈ ${clockTime(run.openedAtTimeOfDay + fitted.swimDownBy)}.`}</p>
      )}
    </section>
  );
}

function CutCard({ tools, moment, option }: RunLateProps & { readonly option: CutOption }): ReactElement {
  const { line, n, kind, of, saves, endsAt } = option;
  const command = { do: 'cut', line, n } as const;
  const label = `Cut ${n} of ${kind === 'reps' ? writtenAt(moment, line) : count(of, 'round')}`;
  const isAbout = lineIsEstimate(moment.view.state.stretches, line);
  const ends = endTime(moment.run.openedAtTimeOfDay + endsAt);
  return (
    <DeckButton
      name={`${label}, line ${line}`}
      label={label}
      hint={`ends ${about(isAbout)}${reading(saves)} sooner, ≈ ${ends}`}
      look="is-deep late-cut"
      why={refusalOf(moment.view.state, command, moment.view.t)}
      onPress={() => void tools.hand.give(command)}
      onRefused={(why) => tools.hand.say(why, 'refused')}
    />
  );
}

/** The line as the coach wrote it. */
function writtenAt({ view }: Moment, line: number): string {
  return (view.state.plan.source.text.split(/\r?\n/)[line - 1] ?? '').trim();
}
