import { type Box, type FractalNoise, fractalNoise, type RandomStream } from 'tenter';

/** What the paper does to the paint on the scale of its tooth; drawn on pixels, not simulated. */
export interface Paper {
  /** The hollows, in several directions, so that no weave shows. Together of deviation about 1. */
  readonly teeth: readonly FractalNoise[];
  /** By how many mm the wet edge strays in the tooth. */
  readonly strayX: FractalNoise;
  readonly strayY: FractalNoise;
}

/** mm */
const STRAY_CELL = 0.38;
const STRAY = 0.1;

/**
 * @param tooth From hollow to hollow, mm.
 */
export function layPaper(tooth: number, box: Box, random: (name: string) => RandomStream): Paper {
  const layer = (direction: number, size: number, deviation: number) =>
    fractalNoise(
      box.lattice,
      { along: size, across: size * 0.8, direction },
      { octaves: 1, gain: 1, deviation },
      random(`tooth ${direction}`),
    );
  const stray = (name: string) =>
    fractalNoise(
      box.lattice,
      { along: STRAY_CELL, across: STRAY_CELL },
      { octaves: 1, gain: 1, deviation: STRAY },
      random(name),
    );
  return {
    teeth: [layer(24, tooth, 0.75), layer(61, tooth * 0.55, 0.65), layer(0, tooth * 0.31, 0.45)],
    strayX: stray('stray x'),
    strayY: stray('stray y'),
  };
}
