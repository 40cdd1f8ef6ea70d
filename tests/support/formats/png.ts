/*
 * Reads a PNG as far as is needed to see whether anything is on it: eight bits a channel, not interlaced, as
 * browsers write them (W3C, Portable Network Graphics).
 */

import { inflateSync } from 'node:zlib';

const SIGNATURE = 8;
/** Colour types with alpha and without. */
const CHANNELS: Readonly<Record<number, number>> = { 2: 3, 6: 4 };

/** How many colours are among the points of a coarse grid; one where the picture is empty. */
export function coloursOf(png: Buffer): number {
  const { width, height, channels, rows } = pointsOf(png);
  const colours = new Set<number>();
  for (let y = 0; y < height; y += 4) {
    for (let x = 0; x < width; x += 2) {
      const at = (y * width + x) * channels;
      colours.add((rows[at]! << 16) | (rows[at + 1]! << 8) | rows[at + 2]!);
    }
  }
  return colours.size;
}

function pointsOf(png: Buffer): { width: number; height: number; channels: number; rows: Uint8Array } {
  const data: Buffer[] = [];
  let [width, height, channels] = [0, 0, 0];
  for (let at = SIGNATURE; at < png.length;) {
    const length = png.readUInt32BE(at);
    const name = png.toString('latin1', at + 4, at + 8);
    const body = png.subarray(at + 8, at + 8 + length);
    if (name === 'IHDR') {
      [width, height] = [body.readUInt32BE(0), body.readUInt32BE(4)];
      channels = CHANNELS[body[9]!] ?? 0;
      if (body[8] !== 8 || channels === 0 || body[12] !== 0) throw new Error('a PNG of a kind that is not read here');
    } else if (name === 'IDAT') data.push(body);
    at += length + 12;
  }
  return { width, height, channels, rows: unfiltered(inflateSync(Buffer.concat(data)), width * channels, channels) };
}

/** Each row is written as differences from what is left, above and above left of it. */
function unfiltered(bytes: Uint8Array, rowLength: number, channels: number): Uint8Array {
  const rows = new Uint8Array((bytes.length / (rowLength + 1)) * rowLength);
  for (let row = 0, from = 0; from < bytes.length; row++) {
    const filter = bytes[from++]!;
    const start = row * rowLength;
    for (let x = 0; x < rowLength; x++, from++) {
      const left = x < channels ? 0 : rows[start + x - channels]!;
      const up = row === 0 ? 0 : rows[start + x - rowLength]!;
      const corner = row === 0 || x < channels ? 0 : rows[start + x - rowLength - channels]!;
      rows[start + x] = bytes[from]! + predicted(filter, left, up, corner);
    }
  }
  return rows;
}

function predicted(filter: number, left: number, up: number, corner: number): number {
  if (filter === 1) return left;
  if (filter === 2) return up;
  if (filter === 3) return (left + up) >> 1;
  if (filter !== 4) return 0;
  const [toLeft, toUp, toCorner] = [up - corner, left - corner, left + up - 2 * corner].map(Math.abs) as [
    number,
    number,
    number,
  ];
  if (toLeft <= toUp && toLeft <= toCorner) return left;
  return toUp <= toCorner ? up : corner;
}
