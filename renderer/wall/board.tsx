/*
 * The structure of the wall screen: a head and a strip a lane, empty places that are drawn into on
 * every frame. Sizes come from the layout as custom properties.
 */

import { memo, type CSSProperties, type ReactElement } from 'react';
import { CAP } from '../ui/digits.ts';
import type { Layout } from './layout.ts';

interface BoardProps {
  readonly layout: Layout;
  /** In the order they stand in. */
  readonly lanes: readonly number[];
  /** Whether swimmers push off at the other side. */
  readonly flip: boolean;
  readonly boardRef: (board: HTMLElement | null) => void;
}

export const Board = memo(function Board({ layout, lanes, flip, boardRef }: BoardProps): ReactElement {
  return (
    <main
      className="board"
      ref={boardRef}
      hidden
      data-head={layout.head}
      data-form={layout.lanes.form}
      data-lines={layout.lanes.lines}
      data-flip={flip ? 'yes' : undefined}
      style={sizes(layout)}
    >
      <header className="head">
        <div className="clock-box" data-place="clock-box">
          <div data-place="clock" />
        </div>
        <div className="head-words" data-place="head-words">
          <p className="caps head-label" data-place="clock-label" />
          <h1 className="caps" data-place="title" />
          <p className="caps head-set" data-place="set" />
          <p className="caps head-then" data-place="then" />
          <p className="caps head-end" data-place="end" />
          <p className="caps head-lost" data-place="lost" role="status" />
        </div>
      </header>
      <div className="callout" data-place="callout">
        <div className="callout-words">
          <h2 data-place="callout-title" />
          <ul data-place="callout-lines" />
        </div>
        <div className="callout-left digits" data-place="left" role="group" aria-label="Time left" />
      </div>
      <p className="callout-caption caps" data-place="callout-lanes" />
      <div className="lanes">
        {lanes.map((lane) => (
          <Strip key={lane} lane={lane} />
        ))}
      </div>
    </main>
  );
});

function Strip({ lane }: { readonly lane: number }): ReactElement {
  return (
    <section className="strip" aria-label={`Lane ${lane}`} data-lane={lane}>
      <div className="strip-main">
        <div className="strip-number caps">{lane}</div>
        <div className="strip-leave digits" data-place="leave" role="group" aria-label="Next leave" />
        <div className="strip-word caps" data-place="word" />
        <div className="strip-seconds digits" data-place="seconds" role="group" aria-label="Seconds to go" />
      </div>
      <div className="strip-info">
        <div className="strip-dots" data-place="dots" role="img" />
        <div className="strip-rep">
          <p className="caps" data-place="rep" />
          <p className="caps strip-quiet" data-place="round" />
        </div>
        <div className="strip-words">
          <p className="caps" data-place="words" />
          <p className="caps strip-quiet" data-place="detail" />
        </div>
        <p className="strip-after caps strip-quiet" data-place="after" />
      </div>
      <div className="strip-basin">
        <div className="strip-water" data-place="water" />
      </div>
    </section>
  );
}

function sizes(layout: Layout): CSSProperties {
  const { lanes, callout } = layout;
  const px: { readonly [name: string]: number } = {
    '--inset-x': layout.insetX,
    '--inset-y': layout.insetY,
    '--width': layout.width,
    '--head': layout.headHeight,
    '--clock': layout.clock.cap / CAP,
    '--clock-width': layout.clock.width,
    '--words-x': layout.wordsX,
    '--words-height': layout.wordsHeight,
    '--strip': lanes.height,
    '--strip-width': lanes.width,
    '--leave': lanes.cap / CAP,
    '--water': lanes.water,
    '--main': lanes.main,
    '--place-number': lanes.number,
    '--place-leave': lanes.leave,
    '--place-seconds': lanes.seconds,
    '--place-dots': lanes.dots,
    '--place-rep': lanes.rep,
    '--place-after': lanes.after,
    '--small': lanes.small,
    '--callout': callout.height,
    '--caption': callout.captionHeight,
    '--left': callout.leftCap / CAP,
    '--small-lane': callout.laneHeight,
    '--small-lane-width': callout.laneWidth,
    '--rope': Math.max(1, Math.round(Math.min(lanes.height * 0.016, lanes.cap * 0.022))),
  };
  const style: { [name: string]: string | number } = {
    '--rows': lanes.rows,
    '--columns': lanes.columns,
    '--small-rows': callout.rows,
    '--small-columns': callout.columns,
    '--dot-columns': lanes.dotColumns,
  };
  for (const name of Object.keys(px)) style[name] = `${px[name]}px`;
  return style as CSSProperties;
}
