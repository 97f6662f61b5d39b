import { onBell, tableOf } from './even/bell.ts';
import { autocorrelation } from './even/structure.ts';
import { halved, wholeOf } from './pyramid.ts';
import type { Level } from './way.ts';

/** What a swatch would lose by blending, each 0..1. */
export interface Measured {
  /** Of its outlines: edges, rays, threads, which are lost where two pieces are added. */
  readonly outlines: number;
  /** Of what runs on farther than a piece does: stripes, grain, the order of a weave. */
  readonly runs: number;
}

/** What loses more than this is joined, not blended. */
const MOST_LOST = 0.5;

/** The way that keeps more of a swatch. */
export function suits(measured: Measured): 'even' | 'figured' {
  return lost(measured) > MOST_LOST ? 'figured' : 'even';
}

export function lost({ outlines, runs }: Measured): number {
  return Math.max(outlines, runs);
}

/** Samples a side of the window into the finest level. */
const WINDOW = 256;

/** Measures a swatch as a whole and, closer, its middle. */
export function measure(levels: readonly Level[]): Measured {
  const wholeBell = onOneBell(wholeOf(levels));
  const middleBell = onOneBell(middleOf(levels[0]));
  return {
    outlines: outlinesOf(wholeBell),
    runs: Math.max(runsOf(wholeBell), runsOf(middleBell)),
  };
}

/** The sum of the planes on a bell curve, so that only how numbers stand beside one another is left. */
function onOneBell(level: Level): Level {
  const sum = new Float32Array(level.planes[0].length);
  for (const plane of level.planes) for (let k = 0; k < sum.length; k++) sum[k] += plane[k];
  return { ...level, planes: [onBell(sum, tableOf(sum))] };
}

function middleOf(level: Level): Level {
  const { width, height } = level;
  const across = Math.min(WINDOW, width);
  const down = Math.min(WINDOW, height);
  const corner = ((height - down) >> 1) * width + ((width - across) >> 1);
  const planes = level.planes.map((plane) => {
    const middle = new Float32Array(across * down);
    for (let j = 0; j < down; j++) {
      middle.set(plane.subarray(corner + j * width, corner + j * width + across), j * across);
    }
    return middle;
  });
  return { ...level, width: across, height: down, planes };
}

/** Levels with fewer samples a side say too little. */
const LEAST_SIDE = 32;
/** Excess kurtosis at which half is lost. */
const HALF = 2;

/**
 * How far the differences of neighbours, at each size, are from a normal distribution, which is all that is left
 * of them where independent pieces are added: their excess kurtosis (0 for normal ones, high where few are large),
 * as a share. The mean over sizes and over the three differences of two by two means (Haar's).
 */
function outlinesOf(level: Level): number {
  const excesses: number[] = [];
  for (let at = level; Math.min(at.width, at.height) >= LEAST_SIDE; at = halved(at)) {
    // The finest differences are mostly the scanner's grain and the file's squares.
    if (at !== level) excesses.push(...excessesOf(at));
  }
  const mean = excesses.reduce((sum, excess) => sum + Math.max(0, excess), 0) / Math.max(1, excesses.length);
  return mean / (mean + HALF);
}

function excessesOf({ width, height, planes: [plane] }: Level): number[] {
  const squares = [0, 0, 0];
  const fourths = [0, 0, 0];
  let count = 0;
  for (let j = 0; j + 1 < height; j += 2) {
    for (let i = 0, at = j * width; i + 1 < width; i += 2, at += 2, count++) {
      const across = plane[at] - plane[at + 1];
      const below = plane[at + width] - plane[at + width + 1];
      const down = plane[at] + plane[at + 1] - plane[at + width] - plane[at + width + 1];
      for (const [k, difference] of [across + below, down, across - below].entries()) {
        squares[k] += difference ** 2;
        fourths[k] += difference ** 4;
      }
    }
  }
  return squares.map((square, k) => (square > 1e-9 ? (fourths[k] * count) / square ** 2 - 3 : 0));
}

/** Likeness at which half is lost: fine grain alone comes to a tenth by chance. */
const HALF_ALIKE = 0.2;
/** A piece runs on over so much of the smaller side. */
const PIECE = 0.15;

/** Clouds larger than this share of the smaller side, as a standard deviation, are no figure. */
const CLOUDS = 1 / 16;

/** The greatest likeness of a swatch with itself, moved farther than a piece reaches and no farther than half, as a share. */
function runsOf(level: Level): number {
  const { width, height } = level;
  const side = Math.min(width, height);
  const likeness = autocorrelation(level, CLOUDS * side);
  const half = side >> 1;
  let most = 0;
  for (let j = 0; j <= half; j++) {
    for (let i = -half; i <= half; i++) {
      const away = Math.hypot(i, j);
      if (away < PIECE * side || away > half) continue;
      most = Math.max(most, Math.abs(likeness[j * width + (i < 0 ? i + width : i)]));
    }
  }
  return most / (most + HALF_ALIKE);
}
