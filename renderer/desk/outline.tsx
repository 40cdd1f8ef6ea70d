/*
 * The session beside the lanes: what is done, going and to come; a line that is tapped can be cut or
 * gone to. Below it, how the hour stands.
 */

import { useState, type ReactElement } from 'react';
import { reading } from '../../app/core/reading.ts';
import type { Moment } from '../ui/coach/frames.ts';
import { about } from '../ui/estimates.ts';
import type { DeskTools } from './desk-tools.ts';
import { hourOf } from './hour.ts';
import { LightSwitch } from './light-switch.tsx';
import { OutlineLine } from './outline-line.tsx';
import { outlineRows, type OutlineRow } from './outline-rows.ts';
import { Part } from './part.tsx';
import { RunLate } from './run-late.tsx';

interface OutlineProps {
  readonly tools: DeskTools;
  readonly moment: Moment;
}

export function Outline({ tools, moment }: OutlineProps): ReactElement {
  const [open, setOpen] = useState<string | null>(null);
  // Parts opened or closed by a tap, by key; the current part is open without one.
  const [tapped, setTapped] = useState<ReadonlyMap<string, boolean>>(new Map());
  const rows = outlineRows(moment.view);
  const isOpen = (part: OutlineRow): boolean => tapped.get(part.key) ?? part.progress === 'now';
  const shown = rows.filter((row) => row.kind === 'part' || rows.some((part) => part.key === row.part && isOpen(part)));
  const late = (
    <Part tools={tools} name="How the hour stands">
      <RunLate tools={tools} moment={moment} />
    </Part>
  );
  const isOver = isPastFinish(moment);
  return (
    <>
      {isOver ? late : null}
      <h2>Session</h2>
      <ol className="outline">
        {shown.map((row) => (
          <li key={row.key} className={`outline-row is-${row.kind} is-${row.progress}`} data-depth={row.depth}>
            {row.kind === 'part' ? (
              <button
                type="button"
                className="outline-part"
                aria-expanded={isOpen(row)}
                onMouseDown={(event) => event.preventDefault()}
                onClick={() => setTapped(new Map(tapped).set(row.key, !isOpen(row)))}
              >
                {rowText(row)}
              </button>
            ) : (
              <button
                type="button"
                className="outline-button"
                aria-expanded={open === row.key}
                onMouseDown={(event) => event.preventDefault()}
                onClick={() => setOpen(open === row.key ? null : row.key)}
              >
                {rowText(row)}
              </button>
            )}
            {open === row.key ? (
              <OutlineLine tools={tools} moment={moment} row={row} onDone={() => setOpen(null)} />
            ) : null}
          </li>
        ))}
      </ol>
      {isOver ? null : late}
      <p className="caution">
        Lanecall times swimmers, it does not watch them. The lifeguard and the coach keep watch. No breath-holding
        targets; effort only for swimmers fit to train; local pool rules come first.
      </p>
      <LightSwitch light={tools.light} />
    </>
  );
}

/** What must be done about the hour comes before the outline, because there is not always room for both. */
function isPastFinish({ run, view }: Moment): boolean {
  const { inHand } = hourOf(run.openedAtTimeOfDay, view.projectedEnd, view.state.plan.session.finishBy);
  return inHand !== null && inHand < 0;
}

function rowText(row: OutlineRow): ReactElement {
  const said = { done: 'done', now: 'now', 'to-come': 'to come' }[row.progress];
  return (
    <>
      <span className="outline-words">
        <span className="outline-text">{row.text}</span>
        <span className="hidden">, {said}</span>
        {row.note ? (
          <>
            <span className={row.kind === 'part' ? 'hidden' : undefined}>, </span>
            <span className="outline-note">{row.note}</span>
          </>
        ) : null}
      </span>
      {row.time === null ? null : (
        <span className="outline-time">{`${about(row.estimated)}${reading(Math.round(row.time / 1000) * 1000)}`}</span>
      )}
    </>
  );
}
