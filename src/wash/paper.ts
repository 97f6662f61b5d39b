import { type FractalNoise, fractalNoise } from '../field/fractal.ts';
import type { RandomStream } from '../field/random.ts';
import type { Box } from '../repeat/repeat.ts';

/** What the paper does to a wash on the scale of its tooth; drawn on pixels. */
export interface WashPaper {
  /** The hollows at several sizes and turns, so that no weave shows; of deviation 1 together. */
  readonly teeth: readonly FractalNoise[];
  /** Tracks of bristles, along which the brush skips; deviation 1. */
  readonly bristles: FractalNoise;
  /** By how many mm an edge strays in the tooth. */
  readonly strayX: FractalNoise;
  readonly strayY: FractalNoise;
}

const STRAY = 0.13;

export function layPaper(
  tooth: number,
  direction: number,
  box: Box,
  random: (name: string) => RandomStream,
): WashPaper {
  const layer = (turn: number, size: number, deviation: number) =>
    fractalNoise(
      box.lattice,
      { along: size, across: 0.82 * size, direction: turn },
      { octaves: 1, gain: 1, deviation },
      random(`tooth ${turn}`),
    );
  const stray = (name: string) =>
    fractalNoise(
      box.lattice,
      { along: 0.5, across: 0.5 },
      { octaves: 1, gain: 1, deviation: STRAY },
      random(name),
    );
  return {
    teeth: [layer(27, 1.5 * tooth, 0.62), layer(-18, 0.72 * tooth, 0.62), layer(0, 0.34 * tooth, 0.48)],
    bristles: fractalNoise(
      box.lattice,
      { along: 30, across: 1.1, direction },
      { octaves: 2, gain: 0.6 },
      random('bristles'),
    ),
    strayX: stray('stray x'),
    strayY: stray('stray y'),
  };
}
