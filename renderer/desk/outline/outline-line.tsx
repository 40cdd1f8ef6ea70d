/*
 * An opened line of the outline: how many reps or rounds to cut and what that saves, and which of them to go to.
 */

import { useEffect, useRef, useState, type ReactElement } from 'react';
import type { Command } from '../../../app/core/run/command/command.ts';
import type { Target } from '../../../app/core/run/view/outline.ts';
import { cutTakesBegun, tried } from '../../../app/core/run/view/trial.ts';
import { Button } from '../../ui/parts/button.tsx';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { useOffer } from '../../ui/coach/use-deck.ts';
import { lineIsEstimate } from '../../../app/core/plan/estimates.ts';
import { endIsEstimate } from '../../../app/core/run/view/estimate.ts';
import { about } from '../../../app/core/words/time/estimate.ts';
import { endMoves } from '../../../app/core/words/time/hour.ts';
import { count } from '../../../app/core/words/phrase.ts';
import { endTime } from '../../../app/core/words/time/time-of-day.ts';
import type { DeskTools } from '../desk-tools.ts';
import { begunText, everyRound } from '../run/fit-advice.ts';
import type { OutlineRow } from './outline-rows.ts';
import { Stepper } from '../../ui/parts/stepper.tsx';
import styles from './outline-line.module.css';

interface OutlineLineProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  readonly row: OutlineRow;
  onDone(): void;
}

export function OutlineLine(props: OutlineLineProps): ReactElement {
  const { row } = props;
  const own = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // In braces because newer browsers return a promise, and an effect must not.
    own.current?.parentElement?.scrollIntoView({ block: 'nearest' });
  }, []);
  return (
    <div className={styles.open} data-part="open" ref={own}>
      {row.cut && row.line !== null ? <CutLine {...props} line={row.line} cut={row.cut} /> : null}
      {row.target ? <GoTo {...props} target={row.target} /> : null}
      {!row.cut && !row.target ? <p className={styles.none}>You can neither cut this nor go to it.</p> : null}
    </div>
  );
}

function CutLine({
  tools,
  moment,
  line,
  cut,
  onDone,
}: OutlineLineProps & { readonly line: number; readonly cut: NonNullable<OutlineRow['cut']> }): ReactElement {
  const [wanted, setN] = useState(1);
  const n = Math.min(wanted, cut.most);
  const command = { do: 'cut', line, n } as const;
  const what = count(n, cut.kind === 'reps' ? 'rep' : 'round');
  const where = everyRound(moment.view.plan.session, line);
  return (
    <div className={styles.choice}>
      <Stepper
        name={cut.kind === 'reps' ? 'Reps to cut' : 'Rounds to cut'}
        value={n}
        least={1}
        most={cut.most}
        onChange={setN}
        onRefused={(why) => tools.actions.say(why, 'refused')}
      />
      <Given
        tools={tools}
        command={command}
        name={`Cut ${what}${where}`}
        hint={cutEffect(moment, command, cut.kind)}
        onDone={onDone}
      />
    </div>
  );
}

function GoTo({ tools, target, onDone }: OutlineLineProps & { readonly target: Target }): ReactElement {
  const [rounds, setRounds] = useState(target.rounds.map(({ round }) => round));
  const [rep, setRep] = useState(1);
  const command: Command = { do: 'go-to', line: target.line, ...(rounds.length > 0 ? { rounds } : {}), rep };
  return (
    <div className={styles.choice}>
      {target.rounds.map(({ of }, depth) => (
        <Stepper
          key={depth}
          name={`Round of ${of}`}
          value={rounds[depth] ?? 1}
          least={1}
          most={of}
          onChange={(round) => setRounds(rounds.map((known, at) => (at === depth ? round : known)))}
          onRefused={(why) => tools.actions.say(why, 'refused')}
        />
      ))}
      {target.reps > 1 ? (
        <Stepper
          name={`Rep of ${target.reps}`}
          value={rep}
          least={1}
          most={target.reps}
          onChange={setRep}
          onRefused={(why) => tools.actions.say(why, 'refused')}
        />
      ) : null}
      <Given
        tools={tools}
        command={command}
        name="Go to it"
        hint="hold: then it waits for Start"
        held
        onDone={onDone}
      />
    </div>
  );
}

interface GivenProps {
  readonly tools: DeskTools;
  readonly command: Command;
  readonly name: string;
  readonly hint: string;
  readonly held?: boolean;
  onDone(): void;
}

function Given({ tools, command, name, hint, held, onDone }: GivenProps): ReactElement {
  const why = useOffer(tools.offers, ({ whyNot }) => whyNot(command));
  return (
    <Button
      name={name}
      hint={hint}
      held={held}
      look="deep"
      why={why}
      judge={() => tools.actions.refusal(command)}
      onPress={() => void tools.actions.press(command).then((ok) => (ok ? onDone() : undefined))}
      onRefused={(reason) => tools.actions.say(reason, 'refused')}
    />
  );
}

type Cut = Extract<Command, { readonly do: 'cut' }>;

/** "ends 5:35 sooner, 20:21". If the longest lane loses nothing by the cut, the end does not move. */
function cutEffect({ view, run }: RunMoment, command: Cut, kind: 'reps' | 'rounds'): string {
  const { line } = command;
  const trial = tried(view, command);
  if (!trial.ok) return 'not now';
  const end = trial.after.projectedEnd;
  const moves = endMoves(end - view.projectedEnd, lineIsEstimate(view.stretches, line));
  const ends = `${about(endIsEstimate(trial.after))}${endTime(run.openedAtTimeOfDay + end)}`;
  const begun = begunText({ kind, takesBegun: cutTakesBegun(view, trial.after, line) });
  return `${begun}${moves}, ${ends}`;
}
