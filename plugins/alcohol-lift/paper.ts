import {
  addFractalRow,
  type Box,
  bakeField,
  type FractalNoise,
  fractalNoise,
  type PeriodicField,
  type RandomStream,
  type WashPaper,
} from 'tenter';

/** The wash as it was laid, before any spirit, and the paper's grain. */
export interface Paper {
  /** Load of the wash and of what was pushed out of openings over it. */
  readonly wash: PeriodicField;
  /** What frays edges beside the tooth; with that of deviation 1. */
  readonly fray: FractalNoise;
  /** What granulates the paint: the hollows, and how strongly it settles in them. */
  readonly grain: WashPaper;
  readonly settling: PeriodicField;
}

/** The poured wash, before a brush went over it. */
export type Poured = Pick<Paper, 'wash' | 'fray'>;

/**
 * @param cell       mm; the finest of the wash is 7 mm wide.
 * @param unevenness Of the wash, 0..1.
 */
export function pourWash(box: Box, cell: number, unevenness: number, random: RandomStream): Poured {
  const { lattice } = box;
  const cloud = (along: number, across: number, octaves: number, deviation: number, direction = 0) =>
    fractalNoise(lattice, { along, across, direction }, { octaves, gain: 0.55, deviation }, random);
  const clouds = cloud(95, 70, 4, 0.2 * unevenness, 35);
  const pools = cloud(19, 14, 2, 0.12 * unevenness, 50);
  const strokes = cloud(90, 13, 2, 0.11 * unevenness, -17);
  const wash = bakeField(box, cell, (x0, step, y, row, count, offset) => {
    for (const part of [clouds, pools, strokes]) addFractalRow(part, x0, step, y, 1, row, count, offset);
    for (let k = offset; k < offset + count; k++) row[k] = Math.exp(row[k]);
  });
  return {
    wash,
    fray: cloud(2.1, 1.9, 1, 0.75),
  };
}
