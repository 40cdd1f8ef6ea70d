/*
 * The hour as a picture: a row a lane, what it swims as bars along the booked time, the finish and the latest start of
 * the swim-down as lines, what runs over hatched. A tap on a bar goes to its line; the parts below say the same in words.
 */

import { useId, useMemo, type ReactElement } from 'react';
import { estimatedFrom } from '../../../app/core/plan/estimates.ts';
import type { Plan } from '../../../app/core/plan/plan.ts';
import { totalsOf } from '../../../app/core/plan/totals.ts';
import { fitPlan } from '../../../app/core/run/hour/fit.ts';
import type { Millis } from '../../../app/core/units.ts';
import { about } from '../../../app/core/words/time/estimate.ts';
import { reading } from '../../../app/core/words/time/reading.ts';
import { endTimeAfter, timeOfDayAfter } from '../../../app/core/words/time/time-of-day.ts';
import { Button } from '../../ui/parts/button.tsx';
import { hourPicture, placeIn, type HourBar } from './hour-bars.ts';
import styles from './hour-picture.module.css';

interface HourPictureProps {
  readonly plan: Plan;
  onLine(line: number): void;
}

/** In rem: the height of a lane's row, of its bar, and of the words below. */
const ROW = 1.125;
const BAR = 0.875;
const WORDS = 1.375;

export function HourPicture({ plan, onLine }: HourPictureProps): ReactElement {
  const picture = useMemo(() => hourPicture(plan), [plan]);
  const swimDown = useMemo(() => {
    const by = fitPlan(plan)?.swimDownBy ?? null;
    return by === null || by < 0 ? null : placeIn(plan, by);
  }, [plan]);
  const hatch = useId();
  const high = picture.lanes.length * ROW;
  return (
    <figure className={styles.hour} aria-label="The hour">
      <div className={styles.picture} aria-hidden="true">
        <div className={styles.lanes}>
          {picture.lanes.map((lane) => (
            <span key={lane}>{lane}</span>
          ))}
        </div>
        <svg width="100%" height={`${high + WORDS}rem`}>
          <defs>
            <pattern id={hatch} width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
              <rect width="8" height="8" className={styles.overGround} />
              <rect width="4" height="8" className={styles.overStripe} />
            </pattern>
          </defs>
          {picture.bars.map((bar) => (
            <Bar key={bar.key} bar={bar} high={high} fill={bar.over ? `url(#${hatch})` : undefined} onLine={onLine} />
          ))}
          {swimDown === null ? null : <Mark at={swimDown} high={high} look={styles.swimDownBy} />}
          {picture.finish === null ? null : <Mark at={picture.finish} high={high} look={styles.finish} />}
          {picture.ticks.map(({ at, words }) => (
            <text
              key={at}
              x={`${at}%`}
              y={`${high + WORDS - 0.375}rem`}
              textAnchor={at === 0 ? 'start' : at > 95 ? 'end' : 'middle'}
            >
              {words}
            </text>
          ))}
        </svg>
      </div>
      <PartList plan={plan} onLine={onLine} />
      <figcaption className={styles.key}>
        {swimDown === null ? null : <span className={styles.swimDownKey}>swim-down must start</span>}
        {picture.finish === null ? null : <span className={styles.finishKey}>booked to</span>}
        {picture.bars.some(({ over }) => over) ? <span className={styles.overKey}>past the finish</span> : null}
      </figcaption>
    </figure>
  );
}

interface BarProps {
  readonly bar: HourBar;
  readonly high: number;
  readonly fill: string | undefined;
  onLine(line: number): void;
}

function Bar({ bar, high, fill, onLine }: BarProps): ReactElement {
  const { kind, lane, from, to, line } = bar;
  return (
    <rect
      x={`${from}%`}
      width={`${to - from}%`}
      y={`${(lane ?? 0) * ROW}rem`}
      height={`${lane === null ? high - (ROW - BAR) : BAR}rem`}
      rx={fill === undefined ? '0.1875rem' : 0}
      data-kind={kind}
      fill={fill}
      className={fill === undefined ? styles.bar : styles.over}
      onClick={() => onLine(line)}
    />
  );
}

function Mark(props: { readonly at: number; readonly high: number; readonly look: string | undefined }): ReactElement {
  const { at, high, look } = props;
  return <line x1={`${at}%`} x2={`${at}%`} y1="0" y2={`${high}rem`} className={look} />;
}

/** What the picture shows, in words: each part, when it starts and ends. */
function PartList({ plan, onLine }: HourPictureProps): ReactElement {
  const parts = useMemo(() => partSpans(plan), [plan]);
  return (
    <ul className={styles.parts}>
      {parts.map(({ key, line, name, span }) => (
        <li key={key}>
          <Button className={styles.part} onPress={() => onLine(line)}>
            {name} <span>{span}</span>
          </Button>
        </li>
      ))}
    </ul>
  );
}

interface PartSpan {
  readonly key: number;
  readonly name: string;
  readonly line: number;
  /** "19:30 to ≈ 19:44". */
  readonly span: string;
}

function partSpans(plan: Plan): readonly PartSpan[] {
  const { startsAt, parts } = plan.session;
  const startText = (at: Millis): string => (startsAt === null ? reading(at) : timeOfDayAfter(startsAt, at));
  const endText = (at: Millis): string => (startsAt === null ? reading(at) : endTimeAfter(startsAt, at));
  const unsure = estimatedFrom(plan);
  return totalsOf(plan).parts.map(({ partIndex, name, first, last, start, end }) => {
    const span = `${about(first >= unsure)}${startText(start)} to ${about(last + 1 >= unsure)}${endText(end)}`;
    const { line, items } = parts[partIndex]!;
    return { key: partIndex, name, line: line ?? items[0]!.line, span };
  });
}
