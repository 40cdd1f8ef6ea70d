/*
 * From how far away a screen's leaves can be read, and what is read least far beside them; what would make the leaves,
 * and with them the numbers and seconds of their lanes, larger, one tap each.
 */

import type { ReactElement } from 'react';
import type { ScreenChange } from '../../../app/core/screen/screen-settings.ts';
import { lanesNamed } from '../../../app/core/words/lanes.ts';
import { capital } from '../../../app/core/words/phrase.ts';
import type { ScreenSight, SightHelp } from '../../link/lent-link.ts';
import { Button } from '../../ui/parts/button.tsx';
import styles from './screens-panel.module.css';

interface SightFieldsProps {
  readonly sight: ScreenSight;
  /** The farthest, in m. */
  readonly reader: number;
  onChange(change: ScreenChange): void;
}

export function SightFields({ sight, reader, onChange }: SightFieldsProps): ReactElement {
  const fallsShort = ({ least }: { readonly least: number }): boolean => metres(least) < reader;
  return (
    <div className={styles.sight}>
      <p data-short={fallsShort(sight) ? 'yes' : undefined}>{sightText(sight, reader)}</p>
      {fallsShort(sight.worst) && sight.helps.length > 0 ? (
        <div className={styles.buttons} role="group" aria-label="What helps">
          {sight.helps.map((help) => (
            <Button
              key={help.kind}
              name={helpText(help)}
              hint={`${help.kind === 'digits' ? 'clock' : 'leaves'} to ${metres(help.least)} m`}
              look="small"
              onPress={() => onChange(changeFor(help))}
            />
          ))}
        </div>
      ) : null}
    </div>
  );
}

/** How far the leaves can be read, then what is read less far than they; and whether each is far enough. */
export function sightText({ least, preferred, worst }: ScreenSight, reader: number): string {
  const enough = (reach: number): string => (metres(reach) < reader ? `: not from ${reader} m.` : '.');
  const leaves = `Leaves can be read to ${metres(least)} m, well to ${metres(preferred)} m${enough(least)}`;
  if (metres(worst.least) >= metres(least)) return leaves;
  return `${leaves} ${capital(worst.name)} only to ${metres(worst.least)} m${enough(worst.least)}`;
}

function helpText({ kind, lanes }: SightHelp): string {
  switch (kind) {
    case 'fewer words':
      return 'Fewer words';
    case 'two columns':
      return 'Two columns';
    case 'shared':
      return `Only ${lanesNamed(lanes)} here`;
    case 'leaves only':
      return 'Clock and leaves only';
    case 'digits':
      return 'Digits in place of the dial';
  }
}

export function changeFor({ kind, lanes }: SightHelp): ScreenChange {
  switch (kind) {
    case 'fewer words':
      return { words: false, after: false };
    case 'two columns':
      return { twoColumns: true };
    case 'shared':
      return { lanes };
    case 'leaves only':
      return { leavesOnly: true };
    case 'digits':
      return { face: 'digits' };
  }
}

/** Rounded down, so that nobody is promised too much. */
function metres(distance: number): number {
  return Math.floor(distance + 0.05);
}
