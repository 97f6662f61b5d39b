import { colourDifference } from '../colour/difference.ts';
import type { Samples } from '../colour/frame.ts';
import { type Lab, labOfLinear } from '../colour/lab.ts';
import { fullSample, linearTable } from '../colour/samples.ts';
import type { Rect } from './canvas.ts';
import type { ClosedPicture } from './close-picture.ts';
import type { LitPicture } from './lit-picture.ts';

/** How much of a picture was changed where it was closed. */
export interface CloseChange {
  /** Pixels of the tile that are no longer what the picture had there, as a share of all. */
  readonly share: number;
  /** The strips that were worked on, as a share of the tile. */
  readonly strips: number;
  /** CIEDE2000 between tile and picture over the strips: the mean. */
  readonly mean: number;
  /** The same: 95 of 100 pixels differ by no more. */
  readonly p95: number;
}

/** Pixels that colour differences are taken of, at most. */
const MOST_COMPARED = 60_000;

/** Holds a closed picture against what it was made of. */
export function closeChange(picture: LitPicture, closed: ClosedPicture): CloseChange {
  const { width, height, samples, from } = closed;
  const places = placesOf(closed.strips, width, height);
  const step = Math.max(1, Math.floor(places.length / MOST_COMPARED));
  const differences: number[] = [];
  let changed = 0;
  for (let k = 0; k < places.length; k++) {
    const [x, y] = [places[k] % width, Math.floor(places[k] / width)];
    const now = 4 * places[k];
    const [left, top] = [x + from.x, y + from.y];
    const isNew = left >= picture.width || top >= picture.height;
    const was = 4 * (left + top * picture.width);
    if (isNew || !isSame(samples, now, picture.samples, was)) changed++;
    if (isNew || k % step > 0) continue;
    differences.push(colourDifference(labAt(samples, now), labAt(picture.samples, was)));
  }
  const sorted = Float64Array.from(differences).sort();
  return {
    share: changed / (width * height),
    strips: places.length / (width * height),
    mean: sorted.reduce((sum, value) => sum + value, 0) / (sorted.length || 1),
    p95: sorted[Math.floor(0.95 * sorted.length)] ?? 0,
  };
}

/** Each pixel of the strips once. */
function placesOf(strips: readonly Rect[], width: number, height: number): Uint32Array {
  const marks = new Uint8Array(width * height);
  for (const { x, y, width: wide, height: tall } of strips)
    for (let row = y; row < y + tall; row++) marks.fill(1, row * width + x, row * width + x + wide);
  const places = new Uint32Array(marks.reduce((sum, mark) => sum + mark, 0));
  for (let at = 0, k = 0; at < marks.length; at++) if (marks[at] === 1) places[k++] = at;
  return places;
}

function isSame(one: Samples, at: number, other: Samples, to: number): boolean {
  return (
    one[at] === other[to] &&
    one[at + 1] === other[to + 1] &&
    one[at + 2] === other[to + 2] &&
    one[at + 3] === other[to + 3]
  );
}

/** As seen over white. */
function labAt(samples: Samples, at: number): Lab {
  const linear = linearTable(samples);
  const alpha = samples[at + 3] / fullSample(samples);
  const over = (channel: number) => 1 - alpha + alpha * linear[samples[at + channel]];
  return labOfLinear(over(0), over(1), over(2));
}
