/*
 * The hour as a picture: a row a lane, what it swims as bars along the booked time, the finish and the latest start of
 * the swim-down as lines, what runs over hatched. A tap on a bar goes to its line; the parts below say the same in words.
 */

import { memo, useId, type ReactElement, type ReactNode } from 'react';
import { Button } from '../../ui/parts/button.tsx';
import type { HourBar, HourPicture as Picture, PartSpan } from './hour-bars.ts';
import { Hatch } from '../panel/hatch.tsx';
import pictureStyles from '../panel/time-picture.module.css';
import styles from './hour-picture.module.css';

interface HourPictureProps {
  readonly picture: Picture;
  /** Where the swim-down must start at the latest; null where there is none to start. */
  readonly swimDown: number | null;
  /** Stands between the picture and its parts. */
  readonly children?: ReactNode;
  onLine(line: number): void;
}

/** In rem: the height of a lane's row, of its bar, and of the words below. */
const ROW = 1.125;
const BAR = 0.875;
const WORDS = 1.375;

export const HourPicture = memo(function HourPicture(props: HourPictureProps): ReactElement {
  const { picture, swimDown, children, onLine } = props;
  const hatch = useId();
  const high = picture.lanes.length * ROW;
  return (
    <figure className={styles.hour} aria-label="The hour">
      <div className={pictureStyles.picture} aria-hidden="true">
        <div className={styles.lanes}>
          {picture.lanes.map((lane) => (
            <span key={lane}>{lane}</span>
          ))}
        </div>
        <svg width="100%" height={`${high + WORDS}rem`}>
          <Hatch id={hatch} />
          {picture.bars.map(({ key, over, ...bar }) => (
            <Bar key={key} {...bar} high={high} fill={over ? `url(#${hatch})` : undefined} onLine={onLine} />
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
      <figcaption className={`${pictureStyles.key} ${styles.key}`}>
        {swimDown === null ? null : <span className={styles.swimDownKey}>swim-down must start</span>}
        {picture.finish === null ? null : <span className={styles.finishKey}>booked finish</span>}
        {picture.bars.some(({ over }) => over) ? <span className={styles.overKey}>past the finish</span> : null}
      </figcaption>
      {children}
      <PartList parts={picture.parts} onLine={onLine} />
    </figure>
  );
});

interface BarProps extends Omit<HourBar, 'key' | 'over'> {
  readonly high: number;
  readonly fill: string | undefined;
  onLine(line: number): void;
}

const Bar = memo(function Bar({ kind, lane, from, to, line, high, fill, onLine }: BarProps): ReactElement {
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
});

function Mark(props: { readonly at: number; readonly high: number; readonly look: string | undefined }): ReactElement {
  const { at, high, look } = props;
  return <line x1={`${at}%`} x2={`${at}%`} y1="0" y2={`${high}rem`} className={look} />;
}

/** More would bury what stands below. */
const PARTS_SHOWN = 24;

interface PartListProps {
  readonly parts: readonly PartSpan[];
  onLine(line: number): void;
}

/** What the picture shows, in words: each part, when it starts and ends. */
function PartList({ parts, onLine }: PartListProps): ReactElement {
  return (
    <ul className={styles.parts}>
      {parts.slice(0, PARTS_SHOWN).map(({ key, ...part }) => (
        <PartItem key={key} {...part} onLine={onLine} />
      ))}
      {parts.length > PARTS_SHOWN ? <li>And {parts.length - PARTS_SHOWN} more, in the timetable below.</li> : null}
    </ul>
  );
}

interface PartItemProps extends Omit<PartSpan, 'key'> {
  onLine(line: number): void;
}

const PartItem = memo(function PartItem({ line, name, span, onLine }: PartItemProps): ReactElement {
  return (
    <li>
      <Button className={styles.part} onPress={() => onLine(line)}>
        {name} <span>{span}</span>
      </Button>
    </li>
  );
});
