/*
 * Touches, beside the lanes, in place of the outline. They are no commands and change nothing of the run; Stop and all
 * else stay in reach.
 */

import type { ReactElement } from 'react';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { TouchLanes } from '../../ui/coach/times/touch-lanes.tsx';
import type { DeskTools } from '../desk-tools.ts';
import { SidePanel } from '../panel/panel.tsx';
import styles from './times-panel.module.css';

interface TimesPanelProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  onClose(): void;
}

export function TimesPanel({ tools, moment, onClose }: TimesPanelProps): ReactElement {
  return (
    <SidePanel title="Times" className={styles.panel} onClose={onClose}>
      <TouchLanes tools={tools} moment={moment} />
    </SidePanel>
  );
}
