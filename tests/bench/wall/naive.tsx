/*
 * The wall screen as one writes it without thinking of frames: the time is in React's state and set on every frame, so
 * that React makes the whole board again sixty times a second; the water is as wide as its style says. It says the
 * same as ours, by the same faces and the same layout.
 */

import { useEffect, useState, type CSSProperties, type ReactElement } from 'react';
import { createRoot } from 'react-dom/client';
import { view, type RunView } from '../../../app/core/run/view.ts';
import { openLink, type Link } from '../../../renderer/link/link.ts';
import { clockFace } from '../../../renderer/wall/says/clock-text.ts';
import { headFace } from '../../../renderer/wall/head/head-face.ts';
import { layoutFor, type Layout } from '../../../renderer/wall/layout.ts';
import { mostSwimmers, roomOf } from '../../../renderer/wall/room.ts';
import { readWallChoice } from '../../../renderer/wall/screen/wall-choice.ts';
import { waterLeft } from '../../../renderer/wall/strips/water.ts';
import { laneFace, type LaneFace } from '../../../renderer/wall/strips/lane-face.ts';

const CHOICE = readWallChoice('');

function Wall({ link }: { readonly link: Link }): ReactElement | null {
  const [t, setT] = useState<number | null>(null);
  useEffect(() => {
    let frame = 0;
    const draw = (): void => {
      frame = requestAnimationFrame(draw);
      setT(link.now());
    };
    draw();
    return () => cancelAnimationFrame(frame);
  }, [link]);
  const { run } = link.store.getState();
  if (t === null || !run) return null;
  const now = view(run.state, t);
  const lanes = now.lanes.map(({ number }) => number);
  const size = { width: window.innerWidth, height: window.innerHeight };
  const layout = layoutFor(roomOf(size, lanes.length, mostSwimmers(run, lanes), CHOICE, false), CHOICE.face);
  return <Board now={now} openedAt={run.openedAtTimeOfDay} layout={layout} />;
}

interface BoardProps {
  readonly now: RunView;
  readonly openedAt: number;
  readonly layout: Layout;
}

function Board({ now, openedAt, layout }: BoardProps): ReactElement {
  const head = headFace(now, openedAt, CHOICE.clock);
  const { clock, words, body, insetX, insetY } = layout;
  return (
    <main style={{ position: 'absolute', left: insetX, top: insetY, whiteSpace: 'nowrap' }}>
      <div role="timer" style={{ position: 'absolute', left: clock.x, top: clock.y, fontSize: clock.height / 0.7 }}>
        {clockFace(now, CHOICE.clock).text}
      </div>
      <div style={{ position: 'absolute', left: words.x, top: words.y, fontSize: words.height * 0.2 }}>
        <p>{head.title}</p>
        <p>{head.set}</p>
        <p>{head.then}</p>
        <p>{head.time}</p>
      </div>
      <div style={{ position: 'absolute', left: body.x, top: body.y }}>
        {now.lanes.map((lane, index) => (
          <Strip
            key={lane.number}
            face={laneFace(now, lane, index, CHOICE.clock, -Infinity)}
            index={index}
            lanes={layout.lanes}
            t={now.t}
          />
        ))}
      </div>
    </main>
  );
}

interface StripProps {
  readonly face: LaneFace;
  readonly index: number;
  readonly lanes: Layout['lanes'];
  readonly t: number;
}

function Strip({ face, index, lanes, t }: StripProps): ReactElement {
  const column = Math.floor(index / lanes.rows);
  const style: CSSProperties = {
    position: 'absolute',
    overflow: 'hidden',
    left: column * lanes.width,
    top: (index % lanes.rows) * lanes.height,
    width: lanes.width,
    height: lanes.height,
  };
  const at = ({ x }: { readonly x: number }, fontSize: number): CSSProperties => ({
    position: 'absolute',
    left: x,
    fontSize,
  });
  const digits = lanes.cap / 0.7;
  return (
    <section className={`strip is-${face.state}`} style={style}>
      <div className="strip-water" style={{ width: `${waterLeft(face.drainedAt, t) * 100}%`, right: 'auto' }} />
      <span style={at(lanes.number, digits * 0.62)}>{face.number}</span>
      <span style={at(lanes.leave, digits)}>{face.leave}</span>
      <span style={at(lanes.seconds, digits * 0.84)}>{face.seconds}</span>
      <span style={at(lanes.rep, lanes.large)}>
        {face.rep}, {face.round}, {face.interval}, {face.target}, {face.words}, {face.after}
      </span>
      <span style={at(lanes.leaving, lanes.small)}>{face.turn}</span>
    </section>
  );
}

createRoot(document.getElementById('root')!).render(<Wall link={openLink('wall')} />);
