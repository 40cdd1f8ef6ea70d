/*
 * The wall screen without a session: a pace clock, all day, and small below it what is waited for. It goes by the
 * pool's clock as the program knows it: the one that a coach has matched, else the time of day.
 */

import { useEffect, useMemo, useRef, type ReactElement } from 'react';
import { DAY, HOUR, MINUTE, SECOND, type Millis } from '../../../app/core/units.ts';
import { readingOn } from '../../../app/core/words/time/clock.ts';
import { clockTime } from '../../../app/core/words/time/time-of-day.ts';
import type { Link } from '../../link/link.ts';
import { createMeasure } from '../../ui/digits/measure.ts';
import { moveHand } from '../faces/clock-face.ts';
import { createPace } from '../board/pace.ts';
import { driftAt } from '../screen/drift.ts';
import type { WallChoice } from '../screen/wall-choice.ts';
import type { Layout } from '../layout.ts';
import { wordsWriter } from '../board/writers.ts';

interface IdleProps {
  readonly link: Pick<Link, 'store' | 'hostNow'>;
  readonly layout: Layout;
  readonly choice: WallChoice;
  /** What is waited for; further lines after a line break. */
  readonly text: string;
}

export function Idle({ link, layout, choice, text }: IdleProps): ReactElement {
  const board = useRef<HTMLElement>(null);
  const clock = useRef<HTMLDivElement>(null);
  const time = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    const [main, box, day] = [board.current, clock.current, time.current];
    if (!main || !box || !day) return undefined;
    box.textContent = '';
    const face = layout.face.place(box, layout.clock, choice);
    const pace = createPace();
    let frame = 0;
    let place = '';
    const draw = (): void => {
      frame = requestAnimationFrame(draw);
      const now = poolClockNow(link);
      face.paint({ text: idleReading(now, choice), marks: [] });
      moveHand(face, now % MINUTE, now, pace.behind(now, performance.now()));
      const shown = clockTime(now);
      if (day.textContent !== shown) day.textContent = shown;
      const { x, y } = driftAt(now, layout.drift);
      const moved = `translate(${x}px, ${y}px)`;
      if (moved !== place) main.style.transform = place = moved;
    };
    draw();
    return () => cancelAnimationFrame(frame);
  }, [link, layout, choice]);
  const { clock: at, words, insetX, insetY, width, height } = layout;
  const size = Math.min(words.height * 0.4, words.width * 0.035);
  return (
    <main className="board" data-mode="idle" ref={board} style={{ left: insetX, top: insetY, width, height }}>
      <div className="clock-box" style={{ left: at.x, top: at.y, width: at.width, height: at.height }} ref={clock} />
      <div
        className="idle-words"
        style={{ left: words.x, top: words.y, width: words.width, height: words.height, fontSize: size }}
      >
        <IdleText text={text} width={words.width * 0.78} size={size} />
        <p ref={time} />
      </div>
    </main>
  );
}

function IdleText({
  text,
  width,
  size,
}: {
  readonly text: string;
  readonly width: number;
  readonly size: number;
}): ReactElement {
  const [title = '', ...lines] = text.split('\n');
  const place = useRef<HTMLDivElement>(null);
  const measure = useMemo(() => createMeasure(600), []);
  useEffect(() => {
    place.current?.querySelectorAll<HTMLElement>('h1, p').forEach((element) => {
      wordsWriter(element, { width, size, least: size * 0.5 }, measure)(element.dataset['text'] ?? '');
    });
  }, [text, width, size, measure]);
  return (
    <div ref={place}>
      <h1 data-text={title}>{title}</h1>
      {lines.map((line) => (
        <p key={line} data-text={line}>
          {line}
        </p>
      ))}
    </div>
  );
}

/** Minutes and seconds past the hour; of the pool's clock, which has no minutes, seconds. */
function idleReading(now: Millis, { clock }: WallChoice): string {
  const second = Math.floor(now / SECOND) * SECOND;
  return readingOn(clock, second % HOUR);
}

/** As a time of day. Before the program is heard of, and where it is gone, this device's. */
function poolClockNow({ store, hostNow }: IdleProps['link']): Millis {
  const { poolClock } = store.getState();
  const host = hostNow();
  if (poolClock !== null && host !== null) return Math.floor(poolClock + host) % DAY;
  const now = new Date();
  return (now.getTime() - now.getTimezoneOffset() * MINUTE) % DAY;
}
