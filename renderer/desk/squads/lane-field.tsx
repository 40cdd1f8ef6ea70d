/*
 * The fields of a lane in the table. What is typed is written into the text as soon as it can be read, so that nothing is
 * left behind in a field; until then it stays there, with what is wrong.
 */

import { useState, type KeyboardEvent, type ReactElement } from 'react';
import type { WrittenLane } from '../../../app/core/session/line/lane-line.ts';
import { editedLane, fieldText, type LaneField } from './lane-edit.ts';
import styles from './lanes-panel.module.css';

interface Typed {
  readonly text: string;
  /** What the text says of it then. Where it says something else, what was typed counts no more. */
  readonly beside: string;
}

export interface TypedField {
  readonly text: string;
  /** What is wrong with it; null for nothing. */
  readonly why: string | null;
  change(text: string): void;
  /** Shows what the text says again; with `always` also in place of what cannot be read. */
  leave(always: boolean): void;
}

export type TypedFields = Readonly<Record<LaneField, TypedField>>;

/** `onLane`: with what the edit is a part of: all that is typed into a field until it is left is one. */
export function useLaneFields(lane: WrittenLane, onLane: (lane: WrittenLane, part: string) => void): TypedFields {
  const [visits, setVisits] = useState(0);
  const [typed, setTyped] = useState<Readonly<Partial<Record<LaneField, Typed>>>>({});
  const fieldOf = (field: LaneField): TypedField => {
    const written = fieldText(lane, field);
    const own = typed[field];
    const text = own?.beside === written ? own.text : written;
    const edit = editedLane(lane, field, text);
    const put = (next: Typed | undefined): void => setTyped((all) => ({ ...all, [field]: next }));
    return {
      text,
      why: edit.ok ? null : edit.why,
      change(next) {
        const edited = editedLane(lane, field, next);
        put({ text: next, beside: edited.ok ? fieldText(edited.lane, field) : written });
        if (edited.ok) onLane(edited.lane, `lane ${lane.number} ${field} ${visits}`);
      },
      leave(always) {
        setVisits(visits + 1);
        if (always || edit.ok) put(undefined);
      },
    };
  };
  return { swimmers: fieldOf('swimmers'), gap: fieldOf('gap'), base: fieldOf('base'), css: fieldOf('css') };
}

interface LaneFieldInputProps {
  readonly number: number;
  readonly field: LaneField;
  readonly typed: TypedField;
  /** What holds while nothing is written. */
  readonly otherwise: string;
  /** The id of the element that says what is wrong, or where it is written; left out for nothing to say. */
  readonly saidBy: string | undefined;
}

export function LaneFieldInput({ number, field, typed, otherwise, saidBy }: LaneFieldInputProps): ReactElement {
  const isWrong = typed.why !== null;
  const onKey = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || event.nativeEvent.isComposing || !isWrong) return;
    // It takes back what cannot be read, and does not close the panel around it.
    event.stopPropagation();
    typed.leave(true);
  };
  return (
    <td className={styles.field} data-field={field} data-name={SHORT[field]}>
      <input
        className={styles.input}
        aria-label={`Lane ${number}: ${NAMES[field]}`}
        aria-invalid={isWrong}
        aria-describedby={saidBy}
        value={typed.text}
        placeholder={otherwise}
        inputMode={field === 'gap' ? 'numeric' : 'text'}
        maxLength={field === 'swimmers' ? 450 : 12}
        autoComplete="off"
        spellCheck={false}
        onChange={({ target }) => typed.change(target.value)}
        onBlur={() => typed.leave(false)}
        onKeyDown={onKey}
      />
    </td>
  );
}

const NAMES: Readonly<Record<LaneField, string>> = {
  swimmers: 'swimmers',
  gap: 'gap in seconds',
  base: 'base per 100',
  css: 'CSS per 100',
};

/** As a column, or a field on a phone, is headed. */
export const SHORT: Readonly<Record<LaneField, string>> = {
  swimmers: 'Swimmers: a number, or names',
  gap: 'Gap, s',
  base: 'Base',
  css: 'CSS',
};
