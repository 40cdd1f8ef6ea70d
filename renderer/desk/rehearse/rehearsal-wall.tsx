/*
 * The wall as swimmers would see it: the wall's own page in a frame, with the rehearsal's link lent to it.
 */

import { useEffect, useRef, type ReactElement } from 'react';
import type { Link } from '../../link/link.ts';
import { lendLink } from '../../link/lent-link.ts';
import styles from './rehearsal.module.css';

/** No screen has this name, so that it is drawn with the settings a screen begins with. */
const SCREEN = 'rehearsal';

export function RehearsalWall({ link, words }: { readonly link: Link; readonly words: string }): ReactElement {
  const frame = useRef<HTMLIFrameElement>(null);
  useEffect(() => {
    if (!frame.current) return undefined;
    const takeBack = lendLink(link, SCREEN, frame.current, () => undefined);
    // Only now: its page looks for what it is lent as soon as it is there.
    frame.current.src = `/display?preview=${SCREEN}`;
    return takeBack;
  }, [link]);
  return (
    <figure className={styles.wall}>
      <figcaption>{words}</figcaption>
      <iframe title="The wall in the rehearsal" ref={frame} tabIndex={-1} />
    </figure>
  );
}
