/*
 * Who was there: by name in lanes that have names, else how many.
 */

import { useState, type ReactElement } from 'react';
import type { Attendance as There } from '../../../../app/core/record/afterwards.ts';
import type { RecordLaneJson } from '../../../../app/core/record/tables/record-json.ts';
import { Button } from '../../../ui/parts/button.tsx';
import { Select } from '../../../ui/parts/select.tsx';
import { Stepper } from '../../../ui/parts/stepper.tsx';
import { thereWords } from './added-words.ts';
import { withAttendance, type Adding } from './adding.ts';
import fieldStyles from '../../panel/field.module.css';
import styles from './added-panel.module.css';

interface AttendanceProps {
  readonly lanes: readonly RecordLaneJson[];
  /** null where nobody has said. */
  readonly there: readonly There[] | null;
  /** null where nothing can be added. */
  readonly change: Adding | null;
  onRefused(why: string): void;
}

/** As many as a lane of a session may have. */
const MOST = 20;

export function Attendance({ lanes, there, change, onRefused }: AttendanceProps): ReactElement {
  const put = (lane: number, next: There | null): void => change?.change(withAttendance(lane, next));
  const all = (): void => {
    for (const { lane, swimmers, names } of lanes) put(lane, { lane, swimmers: names?.length ?? swimmers, names });
  };
  const laneOf = (lane: number): There => there?.find((each) => each.lane === lane) ?? nobody(lane);
  const sum = there?.reduce((swimmers, lane) => swimmers + lane.swimmers, 0) ?? 0;
  return (
    <section className={styles.group} aria-label="Who was there">
      <div className={styles.head}>
        <h2>{there === null ? 'Who was there' : `Who was there: ${sum}`}</h2>
        <Button
          name={there === null ? 'All were there' : 'Forget who was there'}
          look="small"
          why={change === null ? 'Nothing can be added to this run.' : null}
          onPress={() => (there === null ? all() : lanes.forEach(({ lane }) => put(lane, null)))}
          onRefused={onRefused}
        />
      </div>
      {lanes.map(({ lane, names }) => {
        const own = there?.find((each) => each.lane === lane);
        const came = own?.names ?? [];
        const stepper = (
          <Stepper
            key={lane}
            name={`Lane ${lane}`}
            value={own?.swimmers ?? 0}
            least={came.length}
            most={MOST}
            onChange={(swimmers) => put(lane, { lane, swimmers, names: came.length > 0 ? came : null })}
            onRefused={onRefused}
          />
        );
        if (names === null && came.length === 0) return stepper;
        return (
          <div key={lane} className={styles.names} role="group" aria-label={`Lane ${lane}`}>
            {names === null ? stepper : <span>Lane {lane}</span>}
            {[...(names ?? []), ...came.filter((name) => !names?.includes(name))].map((name) => (
              <Button
                key={name}
                name={name}
                look="small"
                pressed={came.includes(name)}
                onPress={() => put(lane, withName(own ?? nobody(lane), name, names !== null))}
              />
            ))}
            {own && own.swimmers > came.length && came.length > 0 ? <span>{thereWords(own)}</span> : null}
          </div>
        );
      })}
      {change === null ? null : (
        <SomebodyElse
          lanes={lanes.map(({ lane }) => lane)}
          has={(lane, name) => laneOf(lane).names?.includes(name) === true}
          onAdd={(lane, name) => {
            const isByName = lanes.some((each) => each.lane === lane && each.names !== null);
            put(lane, withName(laneOf(lane), name, isByName));
          }}
          onRefused={onRefused}
        />
      )}
    </section>
  );
}

const nobody = (lane: number): There => ({ lane, swimmers: 0, names: null });

/** The same name again takes it out. A lane whose swimmers have names has no others; else the rest is counted. */
function withName({ lane, swimmers, names }: There, name: string, isByName: boolean): There {
  const came = names ?? [];
  const isIn = came.includes(name);
  const next = isIn ? came.filter((each) => each !== name) : [...came, name];
  const count = isByName ? next.length : Math.max(next.length, swimmers + (isIn ? -1 : 1));
  return { lane, swimmers: count, names: next.length > 0 || isByName ? next : null };
}

interface SomebodyElseProps {
  readonly lanes: readonly number[];
  /** Whether somebody of that name is in the lane already. */
  has(lane: number, name: string): boolean;
  onAdd(lane: number, name: string): void;
  onRefused(why: string): void;
}

/** A guest, or whoever swam in another lane than the session says. */
function SomebodyElse({ lanes, has, onAdd, onRefused }: SomebodyElseProps): ReactElement {
  const [name, setName] = useState('');
  const [lane, setLane] = useState(lanes[0] ?? 0);
  const wanted = name.trim();
  const isIn = has(lane, wanted);
  const why = wanted === '' ? 'Write the name first.' : isIn ? `${wanted} is in lane ${lane} already.` : null;
  const add = (): void => {
    onAdd(lane, wanted);
    setName('');
  };
  return (
    <form
      className={styles.else}
      onSubmit={(event) => {
        event.preventDefault();
        if (why === null) add();
        else onRefused(why);
      }}
    >
      <label className={fieldStyles.field}>
        Somebody else
        <input
          value={name}
          maxLength={100}
          autoComplete="off"
          onChange={({ target }) => setName(target.value)}
          onBlur={({ target, relatedTarget }) => {
            // Nothing that is typed is lost: whoever goes elsewhere from here has meant it.
            if (why === null && !target.form?.contains(relatedTarget)) add();
          }}
        />
      </label>
      <Select
        className={fieldStyles.field}
        label="in"
        value={`${lane}`}
        choices={lanes.map((each) => ({ choice: `${each}`, name: `lane ${each}` }))}
        onChange={(choice) => setLane(Number(choice))}
      />
      <Button name="Add" look="small" hint="Enter" why={why} onPress={add} onRefused={onRefused} />
    </form>
  );
}
