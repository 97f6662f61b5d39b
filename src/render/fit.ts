import type { Frame } from '../colour/frame.ts';
import { pixelStep } from '../repeat/grid.ts';
import type { Layout } from '../repeat/layout.ts';
import { shareBlank } from './frame.ts';

/**
 * Resamples a tile by the few pixels that a drop (in height) or brick (in width) needs. Along that
 * side the tile repeats by itself, so the samples beyond the edge are those of the other end and
 * the edges stay closed.
 */
export function fitFrame(tile: Frame, layout: Layout): Frame {
  const step = pixelStep(layout);
  const width = nearestMultiple(tile.width, step.across);
  const height = nearestMultiple(tile.height, step.down);
  if (width !== tile.width) return resample(tile, 'x', width);
  if (height !== tile.height) return resample(tile, 'y', height);
  return tile;
}

function nearestMultiple(value: number, step: number): number {
  return Math.max(1, Math.round(value / step)) * step;
}

function resample(tile: Frame, axis: 'x' | 'y', length: number): Frame {
  const old = axis === 'x' ? tile.width : tile.height;
  const width = axis === 'x' ? length : tile.width;
  const height = axis === 'y' ? length : tile.height;
  const pixels = shareBlank(tile.pixels, width * height * 4);
  const along = axis === 'x' ? 4 : tile.width * 4;
  const [lines, across] = axis === 'x' ? [height, tile.width * 4] : [width, 4];
  const step = axis === 'x' ? 4 : width * 4;
  const lineStep = axis === 'x' ? width * 4 : 4;
  for (let k = 0; k < length; k++) {
    const taps = catmullRomTaps(((k + 0.5) * old) / length - 0.5, old);
    for (let line = 0; line < lines; line++) {
      mixPixel(tile.pixels, line * across, along, taps, pixels, line * lineStep + k * step);
    }
  }
  return { pixels, width, height };
}

interface Taps {
  readonly at: readonly number[];
  readonly weight: readonly number[];
}

/** Catmull-Rom weights of the four wrapped samples about a real position. */
function catmullRomTaps(position: number, length: number): Taps {
  const first = Math.floor(position);
  const t = position - first;
  return {
    at: [-1, 0, 1, 2].map((offset) => (((first + offset) % length) + length) % length),
    weight: [
      t * (-0.5 + t * (1 - 0.5 * t)),
      1 + t * t * (-2.5 + 1.5 * t),
      t * (0.5 + t * (2 - 1.5 * t)),
      t * t * (-0.5 + 0.5 * t),
    ],
  };
}

/** Colour is weighted by alpha, so that transparent samples lend none. */
function mixPixel(
  from: Frame['pixels'],
  start: number,
  stride: number,
  { at, weight }: Taps,
  to: Frame['pixels'],
  target: number,
): void {
  const top = from instanceof Uint16Array ? 65535 : 255;
  let [red, green, blue, alpha] = [0, 0, 0, 0];
  for (let k = 0; k < 4; k++) {
    const source = start + at[k] * stride;
    const share = weight[k] * from[source + 3];
    red += share * from[source];
    green += share * from[source + 1];
    blue += share * from[source + 2];
    alpha += share;
  }
  const store = (value: number) => Math.min(top, Math.max(0, Math.round(value)));
  to[target] = alpha > 0 ? store(red / alpha) : 0;
  to[target + 1] = alpha > 0 ? store(green / alpha) : 0;
  to[target + 2] = alpha > 0 ? store(blue / alpha) : 0;
  to[target + 3] = store(alpha);
}
