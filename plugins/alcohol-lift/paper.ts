import {
  addFractalRow,
  type Box,
  bakeField,
  type FractalNoise,
  fractalNoise,
  type PeriodicField,
  type RandomStream,
} from 'tenter';

/** The wash as it was laid, before any spirit, and the paper's grain. */
export interface Paper {
  /** Load of the wash and of what was pushed out of openings over it. */
  readonly wash: PeriodicField;
  /** What frays edges: standard deviation 1. */
  readonly fray: FractalNoise;
  /** What granulates the paint: standard deviation 1. */
  readonly grain: FractalNoise;
  /** Standard deviation of the load that the grain makes. */
  readonly graining: number;
}

/** Cells of sizes without a common measure. */
function sumOf(parts: readonly FractalNoise[]): FractalNoise {
  return {
    octaves: parts.flatMap(({ octaves }) => octaves),
    gains: parts.flatMap(({ gains }) => gains),
  };
}

/**
 * @param cell       mm; the finest of the wash is 7 mm wide.
 * @param unevenness Of the wash, 0..1.
 * @param tooth      Of the paper, 0..1.
 */
export function layPaper(
  box: Box,
  cell: number,
  unevenness: number,
  tooth: number,
  random: RandomStream,
): Paper {
  const { lattice } = box;
  const cloud = (along: number, across: number, octaves: number, deviation: number, direction = 0) =>
    fractalNoise(lattice, { along, across, direction }, { octaves, gain: 0.55, deviation }, random);
  const clouds = cloud(95, 70, 4, 0.32 * unevenness, 35);
  const pools = cloud(19, 14, 2, 0.12 * unevenness, 50);
  const strokes = cloud(90, 13, 2, 0.11 * unevenness, -17);
  const wash = bakeField(box, cell, (x0, step, y, row, count, offset) => {
    for (const part of [clouds, pools, strokes]) addFractalRow(part, x0, step, y, 1, row, count, offset);
    for (let k = offset; k < offset + count; k++) row[k] = Math.exp(row[k]);
  });
  return {
    wash,
    fray: cloud(1.6, 1.6, 3, 1),
    grain: sumOf([cloud(0.79, 0.63, 1, 0.6), cloud(0.43, 0.37, 1, 0.6), cloud(0.26, 0.23, 1, 0.52)]),
    graining: 0.02 + 0.15 * tooth,
  };
}
