/*
 * The button that is tapped as a lane's first swimmer touches.
 */

import { useRef, type ReactElement, type ReactNode } from 'react';
import type { Millis } from '../../../../app/core/units.ts';
import { Button } from '../../parts/button.tsx';

interface TouchButtonProps {
  readonly lane: number;
  /** Small, beside the lane. */
  readonly beside: string;
  readonly hint: ReactNode;
  readonly className?: string | undefined;
  now(): Millis | null;
  onTouch(t: Millis): void;
}

/** A tap counts from when the finger comes down; by a key or assistive technology from when it acts. */
export function TouchButton({ lane, beside, hint, className, now, onTouch }: TouchButtonProps): ReactElement {
  const down = useRef<Millis | null>(null);
  const press = (): void => {
    const t = down.current ?? now();
    down.current = null;
    if (t !== null) onTouch(t);
  };
  return (
    <div
      className={className}
      onPointerDownCapture={() => (down.current = now())}
      onKeyDownCapture={() => (down.current = null)}
      onPointerCancelCapture={() => (down.current = null)}
    >
      <Button
        name={`Touch lane ${lane}`}
        label={
          <>
            Lane {lane} <small>{beside}</small>
          </>
        }
        hint={hint}
        onPress={press}
      />
    </div>
  );
}
