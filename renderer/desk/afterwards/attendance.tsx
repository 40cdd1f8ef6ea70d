/*
 * Who was there: by name in lanes that have names, else how many.
 */

import type { ReactElement } from 'react';
import type { Attendance as There } from '../../../app/core/record/afterwards.ts';
import type { RecordLaneJson } from '../../../app/core/record/record-json.ts';
import { Button } from '../../ui/parts/button.tsx';
import { Stepper } from '../../ui/parts/stepper.tsx';
import { withAttendance, type Adding } from './adding.ts';
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
        if (names === null) {
          return (
            <Stepper
              key={lane}
              name={`Lane ${lane}`}
              value={own?.swimmers ?? 0}
              least={0}
              most={MOST}
              onChange={(swimmers) => put(lane, { lane, swimmers, names: null })}
              onRefused={onRefused}
            />
          );
        }
        const came = own?.names ?? [];
        return (
          <div key={lane} className={styles.names} role="group" aria-label={`Lane ${lane}`}>
            <span>Lane {lane}</span>
            {[...names, ...came.filter((name) => !names.includes(name))].map((name) => (
              <Button
                key={name}
                name={name}
                look="small"
                pressed={came.includes(name)}
                onPress={() => put(lane, withName(lane, came, name))}
              />
            ))}
          </div>
        );
      })}
    </section>
  );
}

function withName(lane: number, came: readonly string[], name: string): There {
  const names = came.includes(name) ? came.filter((each) => each !== name) : [...came, name];
  return { lane, swimmers: names.length, names };
}
