/*
 * A copy of a session for another day and hour: the next one like it at first.
 */

import { useEffect, useRef, useState, type FormEvent, type KeyboardEvent, type ReactElement } from 'react';
import { dayText, isoDay, readDay, type Day } from '../../../../app/core/day.ts';
import { startOf } from '../../../../app/core/session/text/moved-session.ts';
import { titleOf } from '../../../../app/core/session/parse.ts';
import { dayOf } from '../../../../app/core/session/text/session-day.ts';
import type { MinuteOfDay } from '../../../../app/core/units.ts';
import { timeOfDay } from '../../../../app/core/words/time/time-of-day.ts';
import { Button } from '../../../ui/parts/button.tsx';
import { nextDay, today } from './moved-name.ts';
import fieldStyles from '../../panel/field.module.css';
import styles from '../sessions-panel.module.css';

interface AnotherDayProps {
  readonly name: string;
  readonly text: string;
  onMake(day: Day, start: MinuteOfDay | null): void;
  onRefused(why: string): void;
}

export function AnotherDay({ name, text, onMake, onRefused }: AnotherDayProps): ReactElement {
  const before = startOf(text);
  const [date, setDate] = useState(() => isoDay(nextDay(dayOf(text), today(), titleOf(text) ?? name)));
  const [start, setStart] = useState(before === null ? '' : timeOfDay(before));
  const form = useRef<HTMLFormElement>(null);
  const dayField = useRef<HTMLInputElement>(null);
  useEffect(() => {
    // Below the last row it would open out of sight, and the keyboard would still be where sessions are found.
    form.current?.scrollIntoView({ block: 'nearest' });
    dayField.current?.focus({ preventScroll: true });
  }, []);
  const day = readDay(date);
  const make = (): void => (day ? onMake(day, minuteOf(start)) : onRefused('Write the day first, as on the calendar.'));
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    make();
  };
  // With two fields a browser does not send a form that has no button of its own for it.
  const onKey = (event: KeyboardEvent): void => {
    if (event.key === 'Enter' && event.target instanceof HTMLInputElement) submit(event);
  };
  return (
    <form className={styles.form} onSubmit={submit} onKeyDown={onKey} ref={form} aria-label={`${name} for another day`}>
      <label className={fieldStyles.field}>
        Day
        <input type="date" ref={dayField} value={date} onChange={({ target }) => setDate(target.value)} />
      </label>
      {before === null ? null : (
        <label className={fieldStyles.field}>
          Start
          <input type="time" value={start} onChange={({ target }) => setStart(target.value)} />
        </label>
      )}
      <Button
        name={day ? `Make it for ${dayText(day)}` : 'Make it'}
        hint={before === null ? 'a copy' : 'a copy; the finish moves with the start'}
        look="small deep"
        onPress={make}
      />
    </form>
  );
}

/** Of "19:30"; null for what is no time: it starts as it did. */
function minuteOf(text: string): MinuteOfDay | null {
  const [, hours, minutes] = /^(\d\d):(\d\d)/.exec(text) ?? [];
  return hours === undefined ? null : Number(hours) * 60 + Number(minutes);
}
