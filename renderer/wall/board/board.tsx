/*
 * The structure of the wall screen: a clock, a head and a strip a lane, empty places that are drawn into on
 * every frame. Sizes come from the layout as custom properties.
 */

import { memo, type CSSProperties, type ReactElement } from 'react';
import { CAP } from '../../ui/digits/digits.ts';
import type { Box } from '../faces/clock-face.ts';
import type { PushOff } from '../screen/wall-choice.ts';
import { isColumn, type Layout } from '../layout.ts';
import type { Place } from '../strips/strip-layout.ts';

interface BoardProps {
  readonly layout: Layout;
  /** In the order they stand in. */
  readonly lanes: readonly number[];
  readonly from: PushOff;
  readonly boardRef: (board: HTMLElement | null) => void;
}

export const Board = memo(function Board({ layout, lanes, from, boardRef }: BoardProps): ReactElement {
  return (
    <main
      className="board"
      ref={boardRef}
      hidden
      data-aside={layout.callout.aside ? 'yes' : undefined}
      data-form={layout.lanes.form}
      data-lines={layout.lanes.lines}
      data-instead={layout.lanes.leaving.x === layout.lanes.interval.x ? 'interval' : undefined}
      data-from={from}
      style={sizes(layout)}
    >
      <div className="clock-box" data-place="clock-box" style={boxStyle(clockPlace(layout, from))}>
        <div className="clock-place" data-place="clock" />
      </div>
      <header
        className="head-words"
        data-place="head-words"
        data-column={isColumn(layout.words) ? 'yes' : undefined}
        style={boxStyle(layout.words)}
      >
        <p className="caps head-time" data-place="time" />
        <p className="caps head-label" data-place="clock-label" />
        <h1 className="caps" data-place="title" />
        <p className="head-set" data-place="set" />
        <p className="caps head-written" data-place="written" />
        <p className="caps head-then" data-place="then" />
        <p className="caps head-end" data-place="end" />
        <p className="caps head-lost" data-place="lost" role="status" />
      </header>
      <p className="said" data-said="next" role="status" aria-live="polite" />
      <div className="body" style={boxStyle(layout.body)}>
        <div className="callout" data-place="callout">
          <div className="callout-words">
            <h2 data-place="callout-title" />
            <ul data-place="callout-lines" />
          </div>
          <div className="callout-left" data-place="left-box">
            <div className="digits" data-place="left" role="group" aria-label="Time left" />
            <p className="caps">left</p>
          </div>
        </div>
        <p className="callout-caption caps" data-place="callout-lanes" />
        <div className="lanes">
          {lanes.map((lane) => (
            <Strip key={lane} lane={lane} />
          ))}
        </div>
      </div>
    </main>
  );
});

function Strip({ lane }: { readonly lane: number }): ReactElement {
  return (
    <section className="strip" aria-label={`Lane ${lane}`} data-lane={lane}>
      <div className="strip-water" data-place="water" />
      <div className="strip-number caps">{lane}</div>
      <div className="strip-leave digits" data-place="leave" role="group" aria-label="Next leave" />
      <div className="strip-word caps" data-place="word" />
      <div className="strip-seconds digits" data-place="seconds" role="group" aria-label="Seconds to go" />
      <div className="strip-rep">
        <p data-place="rep" />
        <p className="strip-quiet" data-place="round" />
      </div>
      <div className="strip-interval">
        <p data-place="interval" />
        <p className="strip-quiet" data-place="target" />
      </div>
      <div className="strip-words">
        <p data-place="words" />
      </div>
      <div className="strip-leaving">
        <div className="strip-dots" data-place="dots" role="img" />
        <p data-place="turn" />
      </div>
      <div className="strip-after">
        <p className="strip-quiet" data-place="after" />
      </div>
    </section>
  );
}

/** Alone in its row the clock ends where the leaves end, so that the eye goes straight down from one to the other. */
function clockPlace({ clock, words, width, lanes }: Layout, from: PushOff): Box {
  const isAlone = lanes.rows > 0 && lanes.columns === 1 && words.x === 0 && clock.width < width;
  if (!isAlone) return clock;
  const { leave } = lanes;
  const end = from === 'left' ? leave.x + leave.width : lanes.width - leave.x;
  return { ...clock, x: Math.max(0, Math.min(width, end) - clock.width) };
}

function boxStyle({ x, y, width, height }: Box): CSSProperties {
  return { left: x, top: y, width, height };
}

function sizes({ insetX, insetY, width, height, body, lanes, callout }: Layout): CSSProperties {
  const px: { readonly [name: string]: number } = {
    '--inset-x': insetX,
    '--inset-y': insetY,
    '--width': width,
    '--height': height,
    '--body': body.height,
    '--strip': lanes.height,
    '--strip-width': lanes.width,
    '--strip-gap': lanes.gap,
    '--leave': lanes.cap / CAP,
    '--main': lanes.main,
    '--upper': lanes.main / lanes.tiers / 2,
    '--lower': lanes.main - lanes.main / lanes.tiers / 2,
    '--band': lanes.height - lanes.main,
    '--large': lanes.large,
    '--small': lanes.small,
    '--dot': lanes.dot,
    '--callout-width': callout.width,
    '--caption': callout.captionHeight,
    '--left': callout.leftCap / CAP,
    '--small-lane': callout.laneHeight,
    '--small-lane-width': callout.laneWidth,
    '--rope': Math.max(2, Math.round(Math.min(lanes.height * 0.03, height * 0.005))),
  };
  const style: { [name: string]: string | number } = {
    '--rows': lanes.rows,
    '--columns': lanes.columns,
    '--small-rows': callout.rows,
    '--small-columns': callout.columns,
  };
  for (const name of Object.keys(px)) style[name] = `${px[name]}px`;
  for (const name of ['number', 'leave', 'seconds', 'rep', 'interval', 'words', 'after', 'leaving'] as const) {
    const { x, width: wide }: Place = lanes[name];
    style[`--${name}-x`] = `${x}px`;
    style[`--${name}-width`] = `${wide}px`;
  }
  return style as CSSProperties;
}
