/*
 * The settings of one wall screen, each changed by a tap.
 */

import type { ReactElement } from 'react';
import { SCREEN_RANGES, type ScreenChange, type ScreenSettings } from '../../../app/core/screen/screen-settings.ts';
import type { Link } from '../../link/link.ts';
import { Button } from '../../ui/parts/button.tsx';
import { Select } from '../../ui/parts/select.tsx';
import { Stepper } from '../../ui/parts/stepper.tsx';
import { LaneFields } from './lane-fields.tsx';
import styles from './screens-panel.module.css';

interface SettingsFieldsProps {
  readonly link: Link;
  readonly settings: ScreenSettings;
  /** Which lanes are on no screen, in a sentence; empty where there are none. */
  readonly unseen: string;
  /** Whether it is told swimmers' names: a page that anybody may open is not. */
  readonly hearsNames: boolean;
  onChange(change: ScreenChange): void;
  onRefused(why: string): void;
}

type Choices<Name extends keyof ScreenSettings> = readonly {
  readonly choice: ScreenSettings[Name];
  readonly name: string;
}[];

const CLOCKS: Choices<'clock'> = [
  { choice: 'stretch', name: 'since last start' },
  { choice: 'run', name: 'since opening' },
  { choice: 'pool', name: "pool's clock" },
];
const FACES: Choices<'face'> = [
  { choice: 'digits', name: 'digits' },
  { choice: 'sweep', name: '60-second sweep' },
];
const TOPS: Choices<'top'> = [
  { choice: '60', name: '60' },
  { choice: '00', name: '00' },
];
const SIDES: Choices<'pushOff'> = [
  { choice: 'left', name: 'at the left' },
  { choice: 'right', name: 'at the right' },
];
const LANE_ONE: Choices<'laneOne'> = [
  { choice: 'top', name: 'at the top' },
  { choice: 'bottom', name: 'at the bottom' },
];
const LIGHTS: Choices<'light'> = [
  { choice: 'dark hall', name: 'dark hall' },
  { choice: 'bright hall', name: 'bright hall' },
  { choice: 'contrast', name: 'high contrast' },
];

/** Sizes that are sold, and how far the far end of a lane is; what is kept besides is offered too. */
const DIAGONALS = [15, 22, 24, 27, 32, 40, 43, 50, 55, 60, 65, 70, 75, 85, 98, 110];
const READERS = [5, 8, 10, 12, 15, 18, 20, 25, 30, 40, 50];

const SHOWN: readonly { readonly setting: 'words' | 'after' | 'end' | 'names'; readonly name: string }[] = [
  { setting: 'words', name: 'Words' },
  { setting: 'after', name: 'Leave after' },
  { setting: 'end', name: 'End, minutes in hand' },
  { setting: 'names', name: 'Names' },
];

export function SettingsFields(props: SettingsFieldsProps): ReactElement {
  const { link, settings, unseen, hearsNames, onChange, onRefused } = props;
  const { leavesOnly } = settings;
  return (
    <div className={styles.fields}>
      <div className={styles.selects}>
        <Field label="Clock" value={settings.clock} choices={CLOCKS} onChange={(clock) => onChange({ clock })} />
        <Field label="Face" value={settings.face} choices={FACES} onChange={(face) => onChange({ face })} />
        {settings.face === 'sweep' ? (
          <Field label="Top of the dial" value={settings.top} choices={TOPS} onChange={(top) => onChange({ top })} />
        ) : null}
        <Field
          label="Push off"
          value={settings.pushOff}
          choices={SIDES}
          onChange={(pushOff) => onChange({ pushOff })}
        />
        <Field
          label="Lane 1"
          value={settings.laneOne}
          choices={LANE_ONE}
          onChange={(laneOne) => onChange({ laneOne })}
        />
        <Field label="Light" value={settings.light} choices={LIGHTS} onChange={(light) => onChange({ light })} />
        <Field
          label="Diagonal"
          value={`${settings.diagonal}`}
          choices={sizes(DIAGONALS, settings.diagonal, 'inches')}
          onChange={(inches) => onChange({ diagonal: Number(inches) })}
        />
        <Field
          label="Farthest reader"
          value={`${settings.reader}`}
          choices={sizes(READERS, settings.reader, 'm')}
          onChange={(metres) => onChange({ reader: Number(metres) })}
        />
      </div>
      <Stepper
        name="Edge kept clear, %"
        value={settings.inset}
        {...SCREEN_RANGES.inset}
        onChange={(inset) => onChange({ inset })}
        onRefused={onRefused}
      />
      <LaneFields link={link} lanes={settings.lanes} onChange={(lanes) => onChange({ lanes })} />
      {unseen === '' ? null : <p className={styles.unseen}>{unseen}</p>}
      <div className={styles.buttons} role="group" aria-label="What is shown">
        {SHOWN.map(({ setting, name }) => (
          <Button
            key={setting}
            name={name}
            look="small"
            pressed={settings[setting] && !leavesOnly}
            why={whyNot(setting, settings, hearsNames)}
            onPress={() => onChange({ [setting]: !settings[setting] })}
            onRefused={onRefused}
          />
        ))}
        <Button
          name="Clock and leaves only"
          look="small"
          pressed={leavesOnly}
          onPress={() => onChange({ leavesOnly: !leavesOnly })}
        />
        <Button
          name="Two columns"
          look="small"
          pressed={settings.twoColumns}
          onPress={() => onChange({ twoColumns: !settings.twoColumns })}
        />
      </div>
    </div>
  );
}

interface FieldProps<Value extends string> {
  readonly label: string;
  readonly value: Value;
  readonly choices: readonly { readonly choice: Value; readonly name: string }[];
  onChange(value: Value): void;
}

function Field<Value extends string>({ label, ...rest }: FieldProps<Value>): ReactElement {
  return <Select className={styles.select} label={<span>{label}</span>} {...rest} />;
}

/** With the one that is kept in its place. */
function sizes(
  usual: readonly number[],
  kept: number,
  unit: string,
): readonly { readonly choice: string; readonly name: string }[] {
  return [...new Set([...usual, kept])]
    .sort((a, b) => a - b)
    .map((size) => ({ choice: `${size}`, name: `${size} ${unit}` }));
}

function whyNot(setting: string, { leavesOnly, names }: ScreenSettings, hearsNames: boolean): string | null {
  if (leavesOnly) return 'Clock and leaves only are shown: take that back first.';
  if (setting !== 'names' || hearsNames || names) return null;
  return 'Only the wall window of the desktop program shows names: anybody can open this screen’s page.';
}
