import { type FractalNoise, fractalNoise } from '../field/fractal.ts';
import type { RandomStream } from '../field/random.ts';
import type { Box } from '../repeat/repeat.ts';

/** What the paper does to a wash on the scale of its tooth; drawn on pixels. */
export interface WashPaper {
  /** What the felt pressed into the sheet: soft hills of two sizes. With `fine` of deviation 1. */
  readonly teeth: readonly FractalNoise[];
  /** The unevenness of single fibres, which shows where paint lies in a hollow. */
  readonly fine: FractalNoise;
  /** Tracks of bristles, along which the brush skips; deviation 1. */
  readonly bristles: FractalNoise;
  /** By how many mm an edge strays in the tooth, across the page. */
  readonly strayX: FractalNoise;
  /** The same down the page. */
  readonly strayY: FractalNoise;
}

const STRAY = 0.1;
/** How much longer hills are than wide on average, one way and the other, as felts press them. */
const LONGER = 1.06;

/**
 * The paper under a wash.
 *
 * @param tooth     mm from hollow to hollow.
 * @param direction Degrees, which way the brush goes.
 * @param random    A stream for each name.
 */
export function layPaper(
  tooth: number,
  direction: number,
  box: Box,
  random: (name: string) => RandomStream,
): WashPaper {
  const layer = (turn: number, size: number, deviation: number) =>
    fractalNoise(
      box.lattice,
      { along: LONGER * size, across: size / LONGER, direction: turn },
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
    teeth: [layer(0, 1.9 * tooth, 0.56), layer(29, 0.8 * tooth, 0.7)],
    fine: layer(90, 0.36 * tooth, 0.44),
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
