/*
 * The lanes over time as a picture: what each lane swam above what was planned, where it was stopped, and the marks. The
 * tables below say the same in figures.
 */

import { useId, type ReactElement } from 'react';
import type { PartBar } from '../../../../app/core/record/evening.ts';
import type { ReviewDeed, ReviewJson } from '../../../../app/core/record/tables/review-json.ts';
import { clockTime } from '../../../../app/core/words/time/time-of-day.ts';
import { eveningScale, type EveningScale } from './evening-scale.ts';
import { Hatch } from '../../panel/hatch.tsx';
import pictureStyles from '../../panel/time-picture.module.css';
import styles from './evening-picture.module.css';

/** In rem: the height of a lane's row, of what it swam, and of what was planned. */
const ROW = 2.25;
const SWUM = 1.125;
const PLANNED = 0.4375;
const MARK = 0.4375;
const WORDS = 1.375;

export function EveningPicture({ review }: { readonly review: ReviewJson }): ReactElement | null {
  const { evening, record, unit } = review;
  const hatch = useId();
  const scale = eveningScale(review);
  if (scale === null) return null;
  const high = evening.lanes.length * ROW;
  const toneOf = ({ part }: PartBar): number => Math.max(0, scale.parts.indexOf(part)) % TONES;
  return (
    <figure className={styles.evening} aria-label={labelOf(review, scale)}>
      <div className={pictureStyles.picture} aria-hidden="true">
        <div className={styles.lanes}>
          {record.lanes.map(({ lane, distance }) => (
            <p key={lane}>
              <b>{lane}</b> {distance} {unit}
            </p>
          ))}
        </div>
        <svg width="100%" height={`${high + WORDS}rem`}>
          <Hatch id={hatch} />
          {scale.ticks.map(({ at, words }) => (
            <g key={at}>
              <line x1={`${at}%`} x2={`${at}%`} y1="0" y2={`${high}rem`} className={styles.tick} />
              <text x={`${at}%`} y={`${high + WORDS - 0.375}rem`} textAnchor={anchorOf(at)}>
                {words}
              </text>
            </g>
          ))}
          {evening.lanes.map(({ lane, swum, planned, stopped }, row) => (
            <g key={lane}>
              {planned.map(({ fromMs, toMs }) => (
                <Bar
                  key={fromMs}
                  bar={{ fromMs: fromMs + scale.plannedMoved, toMs: toMs + scale.plannedMoved }}
                  scale={scale}
                  y={row * ROW + SWUM + 0.25}
                  high={PLANNED}
                  look="planned"
                />
              ))}
              {swum.map((bar) => (
                <Bar key={bar.fromMs} {...{ bar, scale }} y={row * ROW} high={SWUM} look={`swum-${toneOf(bar)}`} />
              ))}
              {stopped.map((bar) => (
                <Bar key={bar.fromMs} {...{ bar, scale }} y={row * ROW} high={SWUM} fill={`url(#${hatch})`} />
              ))}
              {review.happened.filter(isMarkOf(lane)).map(({ command, atMs }) => (
                <circle
                  key={command}
                  cx={`${scale.at(atMs)}%`}
                  cy={`${row * ROW + SWUM / 2}rem`}
                  r={`${MARK}rem`}
                  className={styles.mark}
                />
              ))}
            </g>
          ))}
        </svg>
      </div>
      <figcaption className={`${pictureStyles.key} ${styles.key}`}>
        {scale.parts.map((part, index) => (
          <span key={part} data-look={`swum-${index % TONES}`}>
            {part || 'Without a heading'}
          </span>
        ))}
        <span data-look="planned">{scale.plannedMoved === 0 ? 'planned' : 'planned, from the first leave'}</span>
        {evening.stops.count > 0 ? <span data-look="stopped">stopped</span> : null}
        {review.happened.some(({ isMark }) => isMark) ? <span data-look="mark">a mark</span> : null}
      </figcaption>
    </figure>
  );
}

/** So many parts beside each other differ; the table of parts names them all. */
const TONES = 4;

interface BarProps {
  readonly bar: { readonly fromMs: number; readonly toMs: number };
  readonly scale: EveningScale;
  /** In rem. */
  readonly y: number;
  readonly high: number;
  readonly look?: string;
  readonly fill?: string;
}

function Bar({ bar: { fromMs, toMs }, scale, y, high, look, fill }: BarProps): ReactElement {
  const from = scale.at(fromMs);
  return (
    <rect
      x={`${from}%`}
      width={`${Math.max(0.2, scale.at(toMs) - from)}%`}
      y={`${y}rem`}
      height={`${high}rem`}
      rx={fill === undefined ? '0.1875rem' : 0}
      data-look={look}
      fill={fill}
    />
  );
}

/** A mark that names no lane is of all. */
function isMarkOf(lane: number): (deed: ReviewDeed) => boolean {
  return ({ isMark, undone, lanes }) => isMark && !undone && (lanes.length === 0 || lanes.includes(lane));
}

function anchorOf(at: number): 'start' | 'middle' | 'end' {
  return at < 3 ? 'start' : at > 97 ? 'end' : 'middle';
}

function labelOf({ openedAtTimeOfDayMs }: ReviewJson, { from, to }: EveningScale): string {
  const timeOf = (at: number): string => clockTime(openedAtTimeOfDayMs + at);
  return `Lanes over time, ${timeOf(from)} to ${timeOf(to)}: what was swum above what was planned`;
}
