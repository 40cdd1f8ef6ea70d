/*
 * The lanes of a session as a table. It shows what the text says and writes what is typed here into the text, so that
 * both are always the same.
 */

import { memo, useId, useState, type ReactElement } from 'react';
import { baseFromCss, cssFromBase } from '../../../app/core/session/lanes/pace.ts';
import { LEAST_PACE, plainLane, type WrittenLane } from '../../../app/core/session/line/lane-line.ts';
import { SECOND } from '../../../app/core/units.ts';
import { reading } from '../../../app/core/words/time/reading.ts';
import { Button } from '../../ui/parts/button.tsx';
import { CssTrials } from './css-trials.tsx';
import { LaneFieldInput, SHORT, useLaneFields, type TypedFields } from './lane-field.tsx';
import type { LaneField } from './lane-edit.ts';
import type { LaneRow, LaneTable as Table } from './lane-rows.ts';
import styles from './lanes-panel.module.css';

interface LaneTableProps {
  readonly table: Table;
  /** `part`: what it is a part of; left out for what is done at once. */
  onLane(lane: WrittenLane, part?: string): void;
  onTakeOut(number: number): void;
  onLine(line: number): void;
  onRefused(why: string): void;
}

export const LaneTable = memo(function LaneTable(props: LaneTableProps): ReactElement {
  const { table } = props;
  // By lane; null while none is tested.
  const [tested, setTested] = useState<number | null>(null);
  return (
    <table className={styles.table} aria-label="Lanes">
      <thead>
        <tr>
          <th scope="col">Lane</th>
          {FIELDS.map((field) => (
            <th scope="col" key={field}>
              {SHORT[field]}
            </th>
          ))}
          <td />
        </tr>
      </thead>
      {table.rows.map((row) => (
        <LaneRows
          key={row.number}
          {...props}
          row={row}
          isTested={tested === row.number}
          onTest={(isTested) => setTested(isTested ? row.number : null)}
        />
      ))}
    </table>
  );
});

const FIELDS: readonly LaneField[] = ['swimmers', 'gap', 'base', 'css'];

interface LaneRowsProps extends LaneTableProps {
  readonly row: LaneRow;
  readonly isTested: boolean;
  onTest(isTested: boolean): void;
}

function LaneRows(props: LaneRowsProps): ReactElement {
  const { row, isTested, onLane, onLine } = props;
  const { number, written, from } = row;
  const id = useId();
  const typed = useLaneFields(written ?? plainLane(number), onLane);
  const wrong = FIELDS.map((field) => typed[field].why).find((why) => why !== null) ?? null;
  const note = wrong ?? sourceText(row);
  return (
    <tbody className={styles.lane}>
      <tr data-names={isLong(typed.swimmers.text) ? '' : undefined}>
        <th scope="rowgroup">
          {from.at === 'text' ? (
            <Button className={styles.line} onPress={() => onLine(from.line)}>
              <span className="hidden">
                Lane {number}: line {from.line}
              </span>
              <span aria-hidden="true">{number}</span>
            </Button>
          ) : (
            number
          )}
        </th>
        {written === null ? (
          <td className={styles.faulty} colSpan={4}>
            Its line has a fault: mend it in {from.at === 'apart' ? 'Lanes for every session' : 'the text'}.
          </td>
        ) : (
          <Fields row={row} typed={typed} saidBy={note === '' ? undefined : id} />
        )}
        <td>
          <LaneDeeds {...props} />
        </td>
      </tr>
      {note === '' ? null : (
        <tr>
          <td colSpan={6}>
            <p className={styles.saidOf} id={id} data-wrong={wrong === null ? undefined : ''}>
              {note}
            </p>
          </td>
        </tr>
      )}
      {isTested && written ? (
        <tr>
          <td colSpan={6}>
            <LaneCss {...props} written={written} />
          </td>
        </tr>
      ) : null}
    </tbody>
  );
}

/** More than the column beside the other fields has room for. */
function isLong(swimmers: string): boolean {
  return swimmers.length > 4;
}

/** A lane's CSS from a test or its base, or its base from the CSS. */
function LaneCss({
  table,
  row,
  written,
  onLane,
  onTest,
}: LaneRowsProps & { readonly written: WrittenLane }): ReactElement {
  const { number } = row;
  const { base, css } = written;
  const fromCss = css && base !== null ? baseFromCss(css, table.grid) : null;
  const fromBase = base && css === null ? cssFromBase(base) : 0;
  return (
    <CssTrials
      lane={number}
      unit={table.pool.unit}
      onCss={(found) => {
        onLane({ ...written, css: found });
        onTest(false);
      }}
      onClose={() => onTest(false)}
    >
      {fromCss === null ? null : (
        <Button
          name={`Lane ${number}: base from its CSS, about ${reading(fromCss)}`}
          label={`Base by CSS ≈${reading(fromCss)}`}
          look="small"
          onPress={() => onLane({ ...written, base: null })}
        />
      )}
      {fromBase >= LEAST_PACE ? (
        <Button
          name={`Lane ${number}: CSS from its base, about ${reading(fromBase)}`}
          label={`CSS by base ≈${reading(fromBase)}`}
          look="small"
          onPress={() => onLane({ ...written, css: fromBase })}
        />
      ) : null}
    </CssTrials>
  );
}

interface FieldsProps {
  readonly row: LaneRow;
  readonly typed: TypedFields;
  readonly saidBy: string | undefined;
}

function Fields({ row, typed, saidBy }: FieldsProps): ReactElement {
  const { number, lane } = row;
  const otherwise: Readonly<Record<LaneField, string>> = {
    swimmers: '1',
    gap: `${lane.gap / SECOND}`,
    base: baseOtherwise(row),
    css: 'none',
  };
  return (
    <>
      {FIELDS.map((field) => (
        <LaneFieldInput
          key={field}
          number={number}
          field={field}
          typed={typed[field]}
          otherwise={otherwise[field]}
          saidBy={saidBy}
        />
      ))}
    </>
  );
}

function LaneFit({ row: { lane, fit } }: { readonly row: LaneRow }): ReactElement | null {
  if (fit === null) return null;
  const isFull = lane.swimmers > fit;
  return <p data-wrong={isFull ? '' : undefined}>{isFull ? `only ≈${fit} fit` : `≈${fit} fit`}</p>;
}

/** What is to be known of a lane, and what a tap does to it. */
function LaneDeeds({ row, isTested, onTakeOut, onTest, onRefused }: LaneRowsProps): ReactElement {
  const { number, written, from } = row;
  return (
    <div className={styles.deeds}>
      <LaneFit row={row} />
      {written ? (
        <Button
          name={`Lane ${number}: CSS from a test`}
          label="CSS…"
          look="small"
          expanded={isTested}
          onPress={() => onTest(!isTested)}
        />
      ) : null}
      {from.at === 'nowhere' ? null : (
        <Button
          name={`Take lane ${number} out`}
          label="Take out"
          look="small"
          why={from.at === 'apart' ? 'It is in Lanes for every session: take its line out there.' : null}
          onPress={() => onTakeOut(number)}
          onRefused={onRefused}
        />
      )}
    </div>
  );
}

/** What the base is while the lane's line has none. */
function baseOtherwise({ lane }: LaneRow): string {
  return lane.baseFrom === 'css' ? `≈${reading(lane.base)}` : `${reading(lane.base)}?`;
}

function sourceText({ from, written }: LaneRow): string {
  if (from.at === 'text') return '';
  if (from.at === 'nowhere') return 'Not written: one swimmer, and a base of 2:00 assumed.';
  return written === null
    ? ''
    : 'From Lanes for every session. What you change here becomes a line of this session, which wins.';
}
