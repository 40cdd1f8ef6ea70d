/*
 * A lane's CSS from a test: a 400 and a 200 at full effort, or more swims.
 */

import { useState, type KeyboardEvent, type ReactElement, type ReactNode } from 'react';
import { cssOf, trialTime, type TimeTrial } from '../../../app/core/pace/css-trials.ts';
import { ratio, roundTo } from '../../../app/core/ratio.ts';
import type { LengthUnit, Millis } from '../../../app/core/units.ts';
import { reading } from '../../../app/core/words/time/reading.ts';
import { Button } from '../../ui/parts/button.tsx';
import styles from './lanes-panel.module.css';

interface CssTrialsProps {
  readonly lane: number;
  readonly unit: LengthUnit;
  /** To the tenth of a second that a lane's line takes. */
  onCss(css: Millis): void;
  onClose(): void;
  /** What gives a lane its pace without a test. */
  readonly children?: ReactNode;
}

interface Swim {
  readonly distance: string;
  readonly time: string;
}

const FIRST: readonly Swim[] = [
  { distance: '400', time: '' },
  { distance: '200', time: '' },
];
const MOST_SWIMS = 8;

/** What the swims come to so far. */
export type TrialsFound =
  | { readonly ok: true; readonly css: Millis; readonly caution: string | null }
  /** `waiting`: there is only more to write. */
  | { readonly ok: false; readonly why: string; readonly waiting: boolean };

export function CssTrials({ lane, unit, onCss, onClose, children }: CssTrialsProps): ReactElement {
  const [swims, setSwims] = useState(FIRST);
  const found = trialsFound(swims);
  const change = (at: number, part: Partial<Swim>): void =>
    setSwims(swims.map((swim, index) => (index === at ? { ...swim, ...part } : swim)));
  const take = (): void => (found.ok ? onCss(found.css) : undefined);
  const onKey = (event: KeyboardEvent): void => {
    if (event.nativeEvent.isComposing) return;
    if (event.key === 'Enter' && !event.ctrlKey && !event.metaKey && event.target instanceof HTMLInputElement) take();
    if (event.key !== 'Escape') return;
    // It closes the test, not the panel around it.
    event.stopPropagation();
    onClose();
  };
  return (
    <div className={styles.trials} role="group" aria-label={`CSS test of lane ${lane}`} onKeyDown={onKey}>
      {swims.map(({ distance, time }, index) => (
        <div className={styles.swim} key={index}>
          <label>
            Swim {index + 1}, {unit}
            <input
              className={styles.input}
              value={distance}
              inputMode="decimal"
              maxLength={6}
              onChange={({ target }) => change(index, { distance: target.value })}
            />
          </label>
          <label>
            Its time
            <input
              className={styles.input}
              aria-label={`Time of swim ${index + 1}`}
              value={time}
              placeholder={index === 0 ? '6:00.0' : ''}
              maxLength={9}
              onChange={({ target }) => change(index, { time: target.value })}
            />
          </label>
        </div>
      ))}
      <Button
        name="One more swim"
        look="small"
        why={swims.length < MOST_SWIMS ? null : `${MOST_SWIMS} swims at most.`}
        onPress={() => setSwims([...swims, { distance: '', time: '' }])}
      />
      {children}
      <p role="status" className={styles.found} data-wrong={found.ok || found.waiting ? undefined : ''}>
        {found.ok ? `CSS ≈${reading(found.css)} per 100 ${unit}.` : found.why}
      </p>
      {found.ok && found.caution !== null ? <p data-wrong="">{found.caution}</p> : null}
      {found.ok ? <Button name={`Use it for lane ${lane}`} hint="Enter" look="small deep" onPress={take} /> : null}
      <p className={styles.quiet}>
        CSS is an estimate, good to a few per cent. A test is swum at full effort, well rested: only by swimmers who are
        fit to train.
      </p>
    </div>
  );
}

/** A row without a time is left out. */
export function trialsFound(swims: readonly Swim[]): TrialsFound {
  const trials: TimeTrial[] = [];
  for (const { distance, time } of swims.filter((swim) => swim.time.trim() !== '')) {
    const [metres, taken] = [distanceOf(distance), trialTime(time)];
    if (metres === null) return wrong(`${distance.trim() || 'Nothing'} is not a distance: write it like 400.`);
    if (taken === null) return wrong(`${time.trim()} is not a time: write it like 4:45.4.`);
    trials.push({ distance: metres, time: taken });
  }
  if (trials.length < 2) return { ok: false, why: 'Write the times of two swims or more.', waiting: true };
  const test = cssOf(trials);
  return test.ok ? { ...test, css: roundTo(100, ratio(test.css)) } : wrong(test.why);
}

function wrong(why: string): TrialsFound {
  return { ok: false, why, waiting: false };
}

/** In tenths; as a line of a session may have it. */
function distanceOf(text: string): number | null {
  const found = /^(\d{1,5})(?:\.(\d))?$/.exec(text.trim());
  const distance = found ? Number(found[1]) * 10 + Number(found[2] ?? 0) : 0;
  return distance >= 50 && distance <= 100_000 ? distance : null;
}
