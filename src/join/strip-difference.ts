import type { StripColours } from './strip-colours.ts';

/** What lies between two strips, four numbers a cell: their `levels` along the strip, and `local`, what differs besides. */
export interface StripDifference {
  readonly across: number;
  readonly along: number;
  /** What the one mostly has more than the other nearby, four numbers for each row. */
  readonly levels: Float32Array;
  /** The one less the other less the levels. */
  readonly local: Float32Array;
}

/** Cells of a block that its median is taken of, at most. */
const MEDIAN_OF = 300;

/**
 * The one strip less the other, parted into what it mostly is nearby (the median of blocks as long as the strip is
 * wide) and the rest: two pieces of one ground in two lights have no rest.
 */
export function stripDifference(a: StripColours, b: StripColours): StripDifference {
  const { across, along } = a;
  const local = new Float32Array(a.values.length);
  for (let at = 0; at < local.length; at++) local[at] = a.values[at] - b.values[at];
  const levels = levelsOf(local, across, along);
  for (let j = 0, at = 0; j < along; j++)
    for (let i = 0; i < across; i++)
      for (let channel = 0; channel < 4; channel++, at++) local[at] -= levels[4 * j + channel];
  return { across, along, levels, local };
}

function levelsOf(whole: Float32Array, across: number, along: number): Float32Array {
  const blocks = Math.max(1, Math.round(along / across));
  const rowOf = (block: number) => 4 * across * Math.round((block * along) / blocks);
  const medians = Array.from({ length: blocks }, (_, block) =>
    mediansOf(whole.subarray(rowOf(block), rowOf(block + 1))),
  );
  const levels = new Float32Array(4 * along);
  for (let j = 0; j < along; j++) {
    const place = Math.max(0, Math.min(blocks - 1, ((j + 0.5) * blocks) / along - 0.5));
    const block = Math.floor(place);
    const [one, next] = [medians[block], medians[Math.min(block + 1, blocks - 1)]];
    for (let channel = 0; channel < 4; channel++)
      levels[4 * j + channel] = one[channel] + (place - block) * (next[channel] - one[channel]);
  }
  return levels;
}

function mediansOf(values: Float32Array): number[] {
  const pixels = values.length / 4;
  const step = Math.max(1, Math.floor(pixels / MEDIAN_OF));
  return [0, 1, 2, 3].map((channel) => {
    const some: number[] = [];
    for (let pixel = 0; pixel < pixels; pixel += step) some.push(values[4 * pixel + channel]);
    return some.sort((p, q) => p - q)[some.length >> 1];
  });
}
