/*
 * Touches on the remote, in the place of its actions: Stop for all lanes stays below.
 */

import type { ReactElement } from 'react';
import { Button } from '../ui/parts/button.tsx';
import type { RunMoment } from '../ui/coach/frames.ts';
import { TouchLanes } from '../ui/coach/times/touch-lanes.tsx';
import type { Tools } from '../ui/coach/use-deck.ts';

interface RemoteTouchesProps {
  readonly tools: Tools;
  readonly moment: RunMoment;
  onBack(): void;
}

export function RemoteTouches({ tools, moment, onBack }: RemoteTouchesProps): ReactElement {
  return (
    <TouchLanes tools={tools} moment={moment}>
      <Button name="Back" onPress={onBack} />
    </TouchLanes>
  );
}
