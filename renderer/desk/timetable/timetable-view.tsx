/*
 * The timetable beside the text: totals, then part by part what each lane does, then the warnings.
 */

import { memo, useMemo, type ReactElement, type ReactNode } from 'react';
import { distanceIn } from '../../../app/core/words/distance.ts';
import { Button } from '../../ui/parts/button.tsx';
import { Block, inBlocks } from '../outline/blocks.tsx';
import { LanesHead, Rows } from './timetable-parts.tsx';
import { useMoreBeside } from './more-beside.ts';
import type { Timetable, TimetablePart } from './timetable-rows.ts';
import type { WarningGroup } from './warning-groups.ts';
import pageStyles from '../panel/page.module.css';
import tableStyles from '../panel/table.module.css';
import styles from './timetable-view.module.css';

interface TimetableViewProps {
  readonly table: Timetable;
  readonly warnings: readonly WarningGroup[];
  /** During a run: no totals, because what was swum before is not in it. */
  readonly isLive?: boolean;
  /** Stands below the totals. */
  readonly children?: ReactNode;
  onLine(line: number): void;
}

/** The height of a row by the style sheet, in px. */
const ROW = 33;

export function TimetableView(props: TimetableViewProps): ReactElement {
  const { table, warnings, isLive = false, children, onLine } = props;
  const wide = useMoreBeside();
  return (
    <section className={styles.whole} aria-label="Timetable">
      {isLive ? null : <TimetableHead table={table} onLine={onLine} />}
      {children}
      {/* Focusable, so that keys scroll it where it is wider than its place. */}
      <div ref={wide} className={styles.wide} role="group" aria-label="By part and lane" tabIndex={0}>
        <TimetableTable table={table} isLive={isLive} />
      </div>
      <WarningList warnings={warnings} onLine={onLine} />
      <p className={pageStyles.caution}>
        ≈ marks an estimate from usual swim times, not these swimmers' own. Intervals by base and css come from the
        paces in the session.
      </p>
    </section>
  );
}

interface TimetableHeadProps {
  readonly table: Timetable;
  onLine(line: number): void;
}

function TimetableHead({ table, onLine }: TimetableHeadProps): ReactElement {
  return (
    <div className={styles.head}>
      <h2>{table.title}</h2>
      <p className={styles.length}>{table.length}</p>
      <p>{table.ends ?? 'no start in the session'}</p>
      {table.over === null ? null : <p className={styles.over}>{table.over}</p>}
      {table.wrongHour === null ? null : <WrongHour {...table.wrongHour} onLine={onLine} />}
    </div>
  );
}

interface WrongHourProps {
  readonly said: string;
  readonly line: number;
  onLine(line: number): void;
}

function WrongHour({ said, line, onLine }: WrongHourProps): ReactElement {
  return (
    <p className={styles.wrongHour} role="status">
      <Button onPress={() => onLine(line)}>line {line}</Button>
      {said}
    </p>
  );
}

interface TimetableTableProps {
  readonly table: Timetable;
  readonly isLive: boolean;
}

const TimetableTable = memo(function TimetableTable({ table, isLive }: TimetableTableProps): ReactElement {
  const blocks = useMemo(() => inBlocks(table.parts, ({ rows }) => rows.length + 1), [table]);
  return (
    <table className={tableStyles.table}>
      <LanesHead lanes={table.lanes} />
      <tbody className={styles.squad}>
        <Rows rows={table.squad} lanes={table.lanes.length} />
      </tbody>
      {blocks.map((parts, index) => (
        <Block
          key={index}
          as="tbody"
          rows={parts.reduce((sum, { rows }) => sum + rows.length + 1, 0)}
          rowHeight={ROW}
          always={index === 0}
        >
          {() =>
            parts.map((part) => <PartRows key={part.key} part={part} lanes={table.lanes.length} unit={table.unit} />)
          }
        </Block>
      ))}
      {isLive ? null : (
        <tfoot>
          <tr>
            <th scope="row">In all</th>
            {table.totals.distances.map((distance, lane) => (
              <td key={lane}>{distanceIn(distance, table.unit)}</td>
            ))}
          </tr>
        </tfoot>
      )}
    </table>
  );
});

interface PartRowsProps {
  readonly part: TimetablePart;
  readonly lanes: number;
  readonly unit: string;
}

function PartRows({ part, lanes, unit }: PartRowsProps): ReactElement {
  return (
    <>
      <tr className={styles.part}>
        <th scope="row">
          {part.starts} {part.name} <span>{part.length}</span>
        </th>
        {part.distances.map((distance, lane) => (
          <td key={lane}>{distance === '0' ? '' : `${distance} ${unit}`}</td>
        ))}
      </tr>
      <Rows rows={part.rows} lanes={lanes} />
    </>
  );
}

/** More would bury the timetable. The others appear once some of these are gone. */
const MOST_SHOWN = 100;

interface WarningListProps {
  readonly warnings: readonly WarningGroup[];
  onLine(line: number): void;
}

function WarningList({ warnings, onLine }: WarningListProps): ReactElement {
  const more = warnings.length - MOST_SHOWN;
  return (
    <>
      <h3>{warnings.length === 0 ? 'No warnings' : `Warnings (${warnings.length})`}</h3>
      <ul className={styles.warnings}>
        {warnings.slice(0, MOST_SHOWN).map(({ code, line, sentence }) => (
          <Warning key={`${code} ${line}`} {...{ line, sentence, onLine }} />
        ))}
      </ul>
      {more > 0 ? <p>And {more} more.</p> : null}
    </>
  );
}

interface WarningProps {
  readonly line: number;
  readonly sentence: string;
  onLine(line: number): void;
}

const Warning = memo(function Warning({ line, sentence, onLine }: WarningProps): ReactElement {
  return (
    <li>
      <Button onPress={() => onLine(line)}>line {line}</Button>
      {sentence}
    </li>
  );
});
