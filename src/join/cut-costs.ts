import { apart, type StripColours } from './strip-colours.ts';

/**
 * What it costs to part two neighbours of a strip, 1 to `MOST_COST`: cell (i, j) and what lies before it
 * across the strip (`across`, at i + j * width) or along it (`along`).
 */
export interface CutCosts {
  /** Cells from one long side to the other. */
  readonly width: number;
  /** Cells along the strip. */
  readonly length: number;
  readonly across: Uint16Array;
  readonly along: Uint16Array;
}

/** Below a power of two that the queue of the search is as long as. */
export const MOST_COST = 4095;
/** Of a quality of 1. */
const SCALE = 100;
/** Encoded; keeps what is flat on both sides from being parted for nothing. */
const FLAT = 0.15;
/** Encoded: a difference as large as this counts twice, one of another paint many times. */
const SEEN = 0.1;
/** Nearer to a long side than this share of the strip, tone has no room to be evened in. */
const NEAR = 0.15;
/** So much dearer is a cut right beside a long side; or in the middle of a strip that is closed with itself turned. */
const DEARER = 4;

/**
 * How badly a cut shows between two strips that lie over one another: the difference of both at the two cells
 * that are parted, over the gradients there, so that it runs along outlines that are there already.
 *
 * V. Kwatra, A. Schoedl, I. Essa, G. Turk, A. Bobick, *Graphcut textures: image and video synthesis using graph
 * cuts*, ACM Transactions on Graphics 22 (2003), section 3.1 and the quality with gradients of section 3.2.
 * Here large differences count for more than they are, so that a cut rather takes a long way round a motif than
 * a short one through it. Differences are taken over 3 x 3 cells, for a cut through a motif crosses places where both happen to be
 * alike; and without what the strips differ by as a whole, for that is evened afterwards (`stripDifference`).
 */
export function cutCosts(
  a: StripColours,
  b: StripColours,
  difference: Float32Array,
  isTurned = false,
): CutCosts {
  const { across: width, along: length } = a;
  const size = pooled(difference, width, length);
  const dearness = Float32Array.from({ length: width }, (_, i) => dearnessAt(i, width, isTurned));
  const costs = {
    width,
    length,
    across: new Uint16Array(width * length),
    along: new Uint16Array(width * length),
  };
  for (let j = 0, cell = 0; j < length; j++) {
    // Before the first row lies the last: of a strip that does not close round, nobody asks.
    const above = j === 0 ? width * (length - 1) : -width;
    for (let i = 0; i < width; i++, cell++) {
      if (i > 0) costs.across[cell] = costOf(a, b, size, cell - 1, cell, dearness[i]);
      costs.along[cell] = costOf(a, b, size, cell + above, cell, dearness[i]);
    }
  }
  return costs;
}

/**
 * @param i Column, counted from the long side before it; the far one counts alike.
 * @param isTurned The cut of a turned strip has to pass its middle line at two places, and would keep to it as the
 *   shortest way: a straight line is seen sooner than one that wanders.
 */
function dearnessAt(i: number, width: number, isTurned: boolean): number {
  const nearSide = Math.max(0, 1 - Math.min(i, width - i) / width / NEAR);
  const nearMiddle = isTurned ? Math.max(0, 1 - Math.abs(i - width / 2) / width / NEAR) : 0;
  return 1 + DEARER * (nearSide ** 2 + nearMiddle ** 2);
}

function costOf(
  a: StripColours,
  b: StripColours,
  size: Float32Array,
  one: number,
  other: number,
  dearness: number,
): number {
  const gradient = apart(a.values, one, other) + apart(b.values, one, other);
  const both = size[one] + size[other];
  const quality = (both * (1 + both / (2 * SEEN))) / (FLAT + 2 * gradient);
  return Math.min(MOST_COST, 1 + Math.round(SCALE * dearness * quality));
}

/** Root mean square of the difference over 3 x 3 cells. */
function pooled(difference: Float32Array, width: number, length: number): Float32Array {
  const squares = new Float32Array(width * length);
  for (let cell = 0, at = 0; cell < squares.length; cell++, at += 4)
    squares[cell] =
      difference[at] ** 2 + difference[at + 1] ** 2 + difference[at + 2] ** 2 + difference[at + 3] ** 2;
  const rows = new Float32Array(width * length);
  for (let j = 0; j < length; j++)
    for (let i = 0, cell = j * width; i < width; i++, cell++)
      rows[cell] =
        squares[cell] + squares[i > 0 ? cell - 1 : cell] + squares[i < width - 1 ? cell + 1 : cell];
  const means = squares;
  for (let j = 0; j < length; j++) {
    const above = j > 0 ? -width : 0;
    const below = j < length - 1 ? width : 0;
    for (let i = 0, cell = j * width; i < width; i++, cell++)
      means[cell] = Math.sqrt((rows[cell + above] + rows[cell] + rows[cell + below]) / 9);
  }
  return means;
}
