/*
 * A wall screen, small and live: its own page in a frame, in the shape that it has, made smaller as a whole. It takes
 * no keyboard and no pointer, and assistive technology reads the settings beside it.
 */

import { useEffect, useRef, type CSSProperties, type ReactElement } from 'react';
import type { ScreenTold } from '../../link/store.ts';
import type { Link } from '../../link/link.ts';
import { lendLink, type ScreenSight } from '../../link/lent-link.ts';
import styles from './screens-panel.module.css';

interface ScreenPictureProps {
  readonly link: Link;
  readonly screen: ScreenTold;
  /** Has to stay the same function: another one loads the picture anew. */
  onSight(sight: ScreenSight | null): void;
}

/** In px: as wide as the column beside the lanes is on a window of 1024, so that no picture is cut off. */
const MOST = { width: 232, height: 176 };

/** Of a screen that is not connected. */
const USUAL_ROOM = { width: 1920, height: 1080 };

export function ScreenPicture({ link, screen, onSight }: ScreenPictureProps): ReactElement {
  const { name } = screen;
  const { search, room } = screen.connected[0] ?? { search: '', room: USUAL_ROOM };
  const frame = useRef<HTMLIFrameElement>(null);
  useEffect(() => {
    if (!frame.current) return undefined;
    const takeBack = lendLink(link, name, frame.current, onSight);
    // Only now: its page looks for what it is lent as soon as it is there.
    frame.current.src = pictureAddress(name, search);
    return takeBack;
  }, [link, name, search, onSight]);
  const scale = Math.min(MOST.width / room.width, MOST.height / room.height);
  const size = { width: Math.round(room.width * scale), height: Math.round(room.height * scale) };
  return (
    <div className={styles.picture} style={size} data-away={screen.connected.length === 0 ? 'yes' : undefined} inert>
      <iframe title={`${name}, small`} ref={frame} tabIndex={-1} style={{ ...room, ...scaled(scale) }} />
    </div>
  );
}

function scaled(scale: number): CSSProperties {
  return { transform: `scale(${scale})` };
}

/** The page of the screen, with what its own address asks for. */
export function pictureAddress(name: string, search: string): string {
  const asked = new URLSearchParams(search);
  asked.delete('name');
  asked.set('preview', name);
  return `/display?${asked}`;
}
