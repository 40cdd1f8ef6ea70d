/*
 * The session beside the lanes: what is done, going on and to come. It scrolls along with the run. A tapped line can be
 * cut or gone to. Below it, or above it when time is short, how the booked hour stands.
 */

import { useEffect, useLayoutEffect, useMemo, useRef, useState, type ReactElement } from 'react';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { durationText } from '../../../app/core/words/time/duration.ts';
import { about } from '../../../app/core/words/time/estimate.ts';
import { readingLeft } from '../../../app/core/words/time/reading.ts';
import { Button } from '../../ui/parts/button.tsx';
import { Block, inBlocks } from './blocks.tsx';
import type { DeskTools } from '../desk-tools.ts';
import { finishAfter } from '../../../app/core/run/hour/booked-finish.ts';
import { LightSwitch } from '../actions/light-switch.tsx';
import { RunMatch } from '../actions/match-clock.tsx';
import { OutlineLine } from './outline-line.tsx';
import { outlineParts, type OutlinePart, type OutlineRow } from './outline-rows.ts';
import { Part } from '../panel/part.tsx';
import { RunLate } from '../run/run-late.tsx';
import pageStyles from '../panel/page.module.css';
import styles from './outline.module.css';

interface OutlineProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
}

/** The height of a row by the style sheet, in px. */
const ROW = 48;

export function Outline({ tools, moment }: OutlineProps): ReactElement {
  const [open, setOpen] = useState<string | null>(null);
  // Parts that were opened or closed by a tap, by key. The current part is open without one.
  const [tapped, setTapped] = useState<ReadonlyMap<string, boolean>>(new Map());
  const isOpen = (part: OutlineRow): boolean => tapped.get(part.key) ?? part.progress === 'now';
  const [outlineOf] = useState(createOutlineCache);
  const rows = outlineOf(moment, tapped);
  const blocks = useMemo(() => inBlocks(rows, ({ lines }) => lines.length + 1), [rows]);
  const isOver = isPastFinish(moment);
  const place = useRef<HTMLDivElement>(null);
  const current = currentKey(rows);
  const [sought, setSought] = useState(0);
  useLayoutEffect(() => showCurrent(place.current), [current, isOver, sought]);
  const opened = useRef<Element | null>(null);
  useLayoutEffect(() => {
    if (opened.current) showOpened(place.current, opened.current);
    opened.current = null;
  }, [open, tapped]);
  useEffect(() => {
    const onKey = ({ key }: KeyboardEvent): void => {
      if (key !== 'Escape') return;
      setOpen(null);
      setSought((before) => before + 1);
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
  const late = (
    <Part tools={tools} name="The time in hand">
      <RunLate tools={tools} moment={moment} isOver={isOver} isSmall={open !== null} />
    </Part>
  );
  const lineOf = (row: OutlineRow): ReactElement => (
    <li key={row.key} data-kind="line" data-progress={row.progress} data-depth={row.depth}>
      <Button
        className={styles.line}
        expanded={open === row.key}
        onPress={(button) => {
          opened.current = button.parentElement;
          setOpen(open === row.key ? null : row.key);
        }}
      >
        {rowText(row)}
      </Button>
      {open === row.key ? <OutlineLine tools={tools} moment={moment} row={row} onDone={() => setOpen(null)} /> : null}
    </li>
  );
  const partOf = ({ row, lines }: OutlinePart): readonly ReactElement[] => [
    <li key={row.key} data-kind="part" data-progress={row.progress} data-depth={0}>
      <Button
        className={styles.part}
        expanded={isOpen(row)}
        onPress={(button) => {
          opened.current = button.parentElement;
          setTapped(new Map(tapped).set(row.key, !isOpen(row)));
        }}
      >
        {rowText(row)}
      </Button>
    </li>,
    ...lines.map(lineOf),
  ];
  return (
    <>
      <RunMatch moment={moment} tools={tools} className={styles.match} />
      {isOver ? late : null}
      <div className={`${pageStyles.scrolls} ${styles.place}`} ref={place}>
        <h2 className="hidden">Session</h2>
        {blocks.map((parts, index) => (
          <Block
            key={index}
            as="ol"
            className={styles.list}
            rows={parts.reduce((sum, { lines }) => sum + lines.length + 1, 0)}
            rowHeight={ROW}
            always={blocks.length === 1 || parts.some(({ row }) => row.progress === 'now')}
          >
            {() => parts.flatMap(partOf)}
          </Block>
        ))}
        {isOver ? null : late}
        <p className={pageStyles.caution}>
          Lanecall times swimmers, it does not watch them. The lifeguard and the coach keep watch. No breath-holding
          targets; effort only for swimmers fit to train; local pool rules come first.
        </p>
        <LightSwitch light={tools.light} className={styles.light} />
      </div>
    </>
  );
}

/** The last line that is going on, or its part if that is closed; null after the end. */
function currentKey(rows: readonly OutlinePart[]): string | null {
  const going = rows.flatMap(({ row, lines }) => [row, ...lines]).filter(({ progress }) => progress === 'now');
  return going[going.length - 1]?.key ?? null;
}

/** Scrolls to the current row with one row above and below it, unless a line is open: that must not move away. */
function showCurrent(place: HTMLElement | null): void {
  const rows = place?.querySelectorAll('[data-progress="now"]') ?? [];
  const row = rows[rows.length - 1];
  if (!place || !row || place.querySelector('[data-part="open"]')) return;
  const above = row.getBoundingClientRect().top - place.getBoundingClientRect().top;
  if (above < ROW || above + 2 * ROW > place.clientHeight) place.scrollTop += above - ROW;
}

/** Scrolls to the end of what a tap has opened, but never past its beginning. */
function showOpened(place: HTMLElement | null, row: Element): void {
  if (!place) return;
  const isPart = (each: Element | null): boolean => each === null || each.matches('[data-kind="part"]');
  let last = row;
  while (isPart(row) && !isPart(last.nextElementSibling)) last = last.nextElementSibling!;
  const box = place.getBoundingClientRect();
  const above = row.getBoundingClientRect().top - box.top;
  const below = last.getBoundingClientRect().bottom - box.bottom;
  place.scrollTop += Math.max(0, Math.min(above, below));
}

/** The outline, worked out again after a command, a tap on a part, or progress in a stretch. */
function createOutlineCache(): (moment: RunMoment, tapped: ReadonlyMap<string, boolean>) => readonly OutlinePart[] {
  let known: { of: object; tapped: ReadonlyMap<string, boolean> } | null = null;
  let kept: readonly OutlinePart[] = [];
  return ({ run, view }, tapped) => {
    const of = view.phase === 'going' ? view : run.state;
    if (known === null || known.of !== of || known.tapped !== tapped) {
      kept = outlineParts(view, (part) => tapped.get(part.key) ?? part.progress === 'now');
    }
    known = { of, tapped };
    return kept;
  };
}

/** Whether the session will end too late. What to do about it then comes above the outline: there may be no room for both. */
function isPastFinish({ run, view }: RunMoment): boolean {
  const { finishBy } = view.plan.session;
  return finishBy !== null && finishAfter(run.openedAtTimeOfDay, finishBy) < view.projectedEnd;
}

function rowText(row: OutlineRow): ReactElement {
  const said = { done: 'done', now: 'now', 'to-come': 'to come' }[row.progress];
  return (
    <>
      <span>
        <span className={styles.text}>{row.text}</span>
        <span className="hidden">, {said}</span>
        {row.note ? (
          <>
            <span className={row.kind === 'part' ? 'hidden' : undefined}>, </span>
            <span className={styles.note}>{row.note}</span>
          </>
        ) : null}
      </span>
      {row.time === null ? null : (
        <span className={styles.time}>
          {about(row.estimated)}
          {row.kind === 'part' ? durationText(row.time) : readingLeft(row.time)}
        </span>
      )}
    </>
  );
}
