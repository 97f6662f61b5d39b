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

/** Cells that are looked at of the strip, and of each block of it, at most. */
const LOOKED_AT = 300;
/** As encoded. Where two pieces differ by so much more than the strips mostly do, it is not by their light. */
const MOST_LIGHT = 0.15;
/** Of a block, so many must be of one ground to say what light it lies in. */
const LEAST_SHARE = 0.1;

/**
 * The one strip less the other, parted into what it mostly is nearby, in blocks as long as the strip is wide, and
 * the rest: two pieces of one ground in two lights have no rest. What lies on a motif in one of them alone
 * has no say, however much of a block it covers.
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
  const overall = CHANNELS.map((channel) => middleOf(shortestHalf(some(whole).map((of) => of[channel]))));
  const levelOf = Array.from({ length: blocks }, (_, block) =>
    levelNear(overall, whole.subarray(rowOf(block), rowOf(block + 1))),
  );
  const levels = new Float32Array(4 * along);
  for (let j = 0; j < along; j++) {
    const place = Math.max(0, Math.min(blocks - 1, ((j + 0.5) * blocks) / along - 0.5));
    const block = Math.floor(place);
    const [one, next] = [levelOf[block], levelOf[Math.min(block + 1, blocks - 1)]];
    for (const channel of CHANNELS)
      levels[4 * j + channel] = one[channel] + (place - block) * (next[channel] - one[channel]);
  }
  return levels;
}

const CHANNELS = [0, 1, 2, 3] as const;

/** The median of what differs from the overall level by no more than light does. */
function levelNear(overall: readonly number[], block: Float32Array): readonly number[] {
  const all = some(block);
  const lit = all.filter((of) => CHANNELS.every((channel) => isLight(of[channel] - overall[channel])));
  if (lit.length < LEAST_SHARE * all.length) return overall;
  return CHANNELS.map((channel) => middleOf(lit.map((of) => of[channel]).sort((p, q) => p - q)));
}

function isLight(difference: number): boolean {
  return Math.abs(difference) <= MOST_LIGHT;
}

/** Some cells of a part, evenly taken. */
function some(part: Float32Array): Float32Array[] {
  const cells = part.length / 4;
  const step = Math.max(1, Math.floor(cells / LOOKED_AT));
  return Array.from({ length: Math.ceil(cells / step) }, (_, k) =>
    part.subarray(4 * k * step, 4 * k * step + 4),
  );
}

/** The half of all that lies closest together, rising (D. F. Andrews et al., *Robust estimates of location*, 1972: the shorth). */
function shortestHalf(values: readonly number[]): number[] {
  const sorted = [...values].sort((p, q) => p - q);
  const half = (sorted.length + 1) >> 1;
  const spread = (k: number) => sorted[k + half - 1] - sorted[k];
  let first = 0;
  for (let k = 1; k + half <= sorted.length; k++) if (spread(k) < spread(first)) first = k;
  return sorted.slice(first, first + half);
}

function middleOf(sorted: readonly number[]): number {
  return sorted[sorted.length >> 1];
}
