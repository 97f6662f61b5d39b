import { type Box, type FractalNoise, fractalAt, fractalNoise, type RandomStream } from 'tenter';
import type { WaxValues } from './parameters.ts';

/** How the cloth was crumpled: where more and where less, and which way its folds run. */
export interface Crumple {
  /** Factor of the distance between cracks at a place: below 1 where the cloth was crushed. */
  spacingAt(x: number, y: number): number;
  /** Direction of the folds, radians; a fold has no sense, so half turns do not count. */
  foldAt(x: number, y: number): number;
}

/** Factors of the spacing stay between a fourth and four times. */
const MOST_OCTAVES = 2;

export function crumpleOf(box: Box, { crumpling, crumples }: WaxValues, random: RandomStream): Crumple {
  const cells = { along: crumples, across: crumples };
  const crush = fractalNoise(box.lattice, cells, { octaves: 3, gain: 0.55 }, random);
  const [foldX, foldY] = [0, 1].map(() =>
    fractalNoise(
      box.lattice,
      { along: 1.7 * crumples, across: 1.7 * crumples },
      { octaves: 2, gain: 0.5 },
      random,
    ),
  ) as [FractalNoise, FractalNoise];
  return {
    spacingAt(x, y) {
      const octaves = 0.85 * crumpling * fractalAt(crush, x, y);
      return 2 ** Math.max(-MOST_OCTAVES, Math.min(MOST_OCTAVES, octaves));
    },
    foldAt: (x, y) => 0.5 * Math.atan2(fractalAt(foldY, x, y), fractalAt(foldX, x, y)),
  };
}
